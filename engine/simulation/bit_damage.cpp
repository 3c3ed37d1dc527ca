#include "engine/simulation/bit_damage.hpp"

#include <algorithm>
#include <stdexcept>

namespace dullcast::simulation {
namespace {

/// An array of a starting condition that the scenario may leave out.
Eigen::ArrayXi or_none(const Eigen::ArrayXi& given, Eigen::Index n) {
  return given.size() == n ? given : Eigen::ArrayXi(Eigen::ArrayXi::Zero(n));
}

}  // namespace

BitDamage::BitDamage(const scenario::Scenario& scenario, const failure::CutterRetention& retention,
                     const Eigen::ArrayXd& hazard)
    : random_events_(scenario.random_events),
      strengths_(retention_strengths(scenario.random_events, retention)),
      chips_at_(hazard) {
  const Eigen::Index n = hazard.size();
  marks_.lost = or_none(scenario.bit.starting_lost, n);
  marks_.table_gone = or_none(scenario.bit.starting_table_gone, n);
  marks_.chips = or_none(scenario.bit.starting_chipped, n);
  marks_.pocket_load = marks_.bond_load = Eigen::ArrayXd::Zero(n);
  for (Eigen::Index i = 0; i < n; ++i) chips_at_(i) += chip_allowance(random_events_, i, marks_.chips(i));
}

double BitDamage::note_loads(const DrillingSystem& system, const State& x) {
  retention_loads(system, x, loads_);
  if (loads_.pocket.isNaN().any() || loads_.bond.isNaN().any() || loads_.blade.isNaN().any()) {
    throw std::runtime_error("what pulls at a cutter is not a number");
  }
  const Eigen::ArrayXd there = (1 - marks_.lost).cast<double>();
  marks_.pocket_load = marks_.pocket_load.max(loads_.pocket * there);
  marks_.bond_load = marks_.bond_load.max(loads_.bond * there);
  marks_.blade_load = std::max(marks_.blade_load, loads_.blade.maxCoeff());
  return std::max({loads_.pocket.maxCoeff(), loads_.bond.maxCoeff(), loads_.blade.maxCoeff()});
}

failure::WeakestLink BitDamage::weakest(const DrillingSystem& system, const State& x) const {
  retention_loads(system, x, trial_);
  return failure::weakest_link(trial_, strengths_, marks_.lost, marks_.table_gone);
}

void BitDamage::count_chip(Eigen::Index cutter) {
  ++marks_.chips(cutter);
  // From where the last allowance was used up, so that a leap of the hazard can hold several chips.
  chips_at_(cutter) += chip_allowance(random_events_, cutter, marks_.chips(cutter));
}

}  // namespace dullcast::simulation
