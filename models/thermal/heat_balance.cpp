#include "models/thermal/heat_balance.hpp"

#include <stdexcept>

namespace dullcast::thermal {

HeatBalance::HeatBalance(Eigen::Index cutters) {
  const auto n = static_cast<std::size_t>(cutters);
  part_heat_.resize(n);
  falling_.resize(n);
  own_.resize(n);
  from_shared_.resize(n);
  to_shared_.resize(n);
  clear();
}

void HeatBalance::clear() {
  for (PartArray& heat : part_heat_) heat.setZero();
  for (PartArray& slopes : falling_) slopes.setZero();
  for (Parts& slopes : own_) slopes.setZero();
  for (PartsByShared& slopes : from_shared_) slopes.setZero();
  for (SharedByParts& slopes : to_shared_) slopes.setZero();
  any_falls_ = false;
  shared_heat_.setZero();
  shared_.setZero();
  sink_heat_.fill(0.0);
  for (Eigen::RowVector3d& slopes : sink_slope_) slopes.setZero();
}

double& HeatBalance::slope_of(Store row, Store column) {
  if (row.cutter < 0 && column.cutter < 0) return shared_(row.number, column.number);
  if (row.cutter < 0) return to_shared_[static_cast<std::size_t>(column.cutter)](row.number, column.number);
  if (column.cutter < 0) return from_shared_[static_cast<std::size_t>(row.cutter)](row.number, column.number);
  if (row.cutter != column.cutter)
    throw std::logic_error("HeatBalance: parts of two cutters do not touch each other");
  return own_[static_cast<std::size_t>(row.cutter)](row.number, column.number);
}

void HeatBalance::move(Store from, Store to, double heat, Slopes slopes) {
  heat_into(from) -= heat;
  heat_into(to) += heat;
  for (const Slope& slope : slopes) {
    slope_of(from, slope.by) -= slope.value;
    slope_of(to, slope.by) += slope.value;
  }
}

void HeatBalance::leave(SharedStore from, Sink to, double heat, Slopes slopes) {
  const auto sink = static_cast<std::size_t>(to);
  shared_heat_(from) -= heat;
  sink_heat_[sink] += heat;
  for (const Slope& slope : slopes) {
    if (slope.by.cutter >= 0) throw std::logic_error("HeatBalance: what leaves follows shared stores only");
    shared_(from, slope.by.number) -= slope.value;
    sink_slope_[sink](slope.by.number) += slope.value;
  }
}

}  // namespace dullcast::thermal
