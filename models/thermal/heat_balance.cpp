#include "models/thermal/heat_balance.hpp"

#include <algorithm>
#include <stdexcept>

namespace dullcast::thermal {

HeatBalance::HeatBalance(Eigen::Index cutters)
    : blocks_(static_cast<std::size_t>(filled_up(static_cast<int>(cutters)) / wide_block)),
      falling_(static_cast<std::size_t>(cutters)),
      from_peak_(static_cast<std::size_t>(cutters), PartArray::Zero()) {
  any_falls_ = true;  // until they are cleared
  clear();
}

void HeatBalance::clear() {
  std::fill(blocks_.begin(), blocks_.end(), BlockOfFlows{});
  if (any_falls_) std::fill(falling_.begin(), falling_.end(), PartArray::Zero());
  any_falls_ = bends_ = false;
  shared_heat_.setZero();
  shared_.setZero();
  sink_heat_.fill(0.0);
  for (Eigen::RowVector3d& slopes : sink_slope_) slopes.setZero();
}

void HeatBalance::add_up_cutters() {
  constexpr auto first = static_cast<std::size_t>(cutter_parts);
  for (const BlockOfFlows& block : blocks_) {
    for (Eigen::Index s = 0; s < shared_stores; ++s) {
      const std::size_t row = first + static_cast<std::size_t>(s);
      shared_heat_(s) += block_sum(block.heat[row]);
      for (Eigen::Index by = 0; by < shared_stores; ++by)
        shared_(s, by) += block_sum(block.slope[row][first + static_cast<std::size_t>(by)]);
    }
  }
}

PartArray HeatBalance::into_parts(Eigen::Index cutter) const {
  PartArray heat;
  for (Eigen::Index k = 0; k < cutter_parts; ++k)
    heat(k) = blocks_[block_of(cutter)].heat[static_cast<std::size_t>(k)][lane_of(cutter)];
  return heat;
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
