#include "models/thermal/heat_balance.hpp"

#include <cstring>
#include <stdexcept>

namespace dullcast::thermal {

HeatBalance::HeatBalance(Eigen::Index cutters) {
  const auto n = static_cast<std::size_t>(cutters);
  part_heat_.resize(n);
  falling_.resize(n);
  from_peak_.resize(n, PartArray::Zero());
  own_.resize(n);
  from_shared_.resize(n);
  to_shared_.resize(n);
  any_falls_ = true;  // until they are cleared
  clear();
}

void HeatBalance::clear() {
  // Each array of them is one stretch of memory.
  const auto forget = [](auto& all) {
    if (!all.empty()) std::memset(all.front().data(), 0, all.size() * sizeof(all.front()));
  };
  forget(part_heat_);
  forget(own_);
  forget(from_shared_);
  forget(to_shared_);
  if (any_falls_) forget(falling_);
  any_falls_ = false;
  shared_heat_.setZero();
  shared_.setZero();
  sink_heat_.fill(0.0);
  for (Eigen::RowVector3d& slopes : sink_slope_) slopes.setZero();
}

void HeatBalance::refuse_two_cutters() {
  throw std::logic_error("HeatBalance: parts of two cutters do not touch each other");
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
