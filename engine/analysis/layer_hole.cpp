#include "engine/analysis/layer_hole.hpp"

#include <algorithm>

#include "engine/analysis/resting_bit.hpp"

namespace dullcast::analysis {
namespace {

const scenario::OperatingInterval& interval_at(const scenario::Scenario& scenario, double depth) {
  for (const scenario::OperatingInterval& interval : scenario.plan) {
    if (depth >= interval.from && depth < interval.to) return interval;
  }
  return scenario.plan.back();
}

}  // namespace

simulation::BitCondition starting_condition(const scenario::Scenario& scenario) {
  const scenario::BitRecord& bit = scenario.bit;
  simulation::BitCondition condition;
  condition.worn_height = bit.starting_wear;
  condition.heat_damage = bit.starting_damage;
  condition.chip_hazard = bit.starting_chip_hazard;
  condition.chips = bit.starting_chipped;
  condition.lost = bit.starting_lost;
  condition.table_gone = bit.starting_table_gone;
  condition.eroded = bit.starting_erosion;
  condition.blade_wear = bit.starting_blade_wear;
  condition.pad_wear = bit.starting_pad_wear;
  return condition;
}

simulation::BitCondition half_worn(const simulation::BitCondition& condition) {
  simulation::BitCondition half = condition;
  for (Eigen::ArrayXd* part : {&half.worn_height, &half.heat_damage, &half.chip_hazard}) *part *= 0.5;
  for (double* part : {&half.eroded, &half.blade_wear, &half.pad_wear}) *part *= 0.5;
  return half;
}

void start_from(scenario::Scenario& scenario, const simulation::BitCondition& condition) {
  scenario::BitRecord& bit = scenario.bit;
  bit.starting_wear = condition.worn_height;
  bit.starting_damage = condition.heat_damage;
  bit.starting_chip_hazard = condition.chip_hazard;
  bit.starting_chipped = condition.chips.min(1);
  bit.starting_lost = condition.lost;
  bit.starting_table_gone = condition.table_gone;
  bit.starting_erosion = condition.eroded;
  bit.starting_blade_wear = condition.blade_wear;
  bit.starting_pad_wear = condition.pad_wear;
}

LayerHole layer_hole(const scenario::Scenario& scenario, int layer, const simulation::BitCondition& condition,
                     double seconds) {
  LayerHole hole{scenario, 0.0};
  scenario::Scenario& s = hole.scenario;
  scenario::Layer ground = scenario.column.layers.at(static_cast<std::size_t>(layer));
  scenario::OperatingInterval interval = interval_at(scenario, 0.5 * (ground.top + ground.bottom));
  const auto make_deep = [&](double thickness) {
    ground.bottom = ground.top + thickness;
    interval.from = ground.top;
    interval.to = ground.bottom;
    s.column.layers = {ground};
    s.plan = {interval};
  };
  make_deep(1.0);
  s.upsets.clear();
  s.random_events.drawn = false;
  s.repeat = scenario::Repeat{};
  s.repeat.connection_every = 1e9;
  s.repeat.stop_at = scenario::StopAt::last_hole;
  const double beyond_repair = s.rules.beyond_repair_share;
  s.rules = scenario::ReworkRules{};
  s.rules.beyond_repair_share = beyond_repair;
  s.calibrate_from.reset();
  s.stepping.output_every = 0.0;

  start_from(s, condition);
  const Eigen::Index n = s.bit.layout.count();
  if (s.bit.starting_table_gone.size() != n) s.bit.starting_table_gone = Eigen::ArrayXi::Zero(n);
  for (Eigen::Index i = 0; i < n; ++i) {
    if (s.bit.starting_damage(i) < 1.0) continue;
    s.bit.starting_table_gone(i) = 1;
    s.bit.starting_damage(i) = 0.0;
  }
  {
    RestingBit bit(s);
    hole.rate_of_penetration = bit.on(bit.intervals().front()).rate_of_penetration;
  }
  if (hole.rate_of_penetration > 0.0) {
    make_deep(hole.rate_of_penetration * seconds);
    s.rules.least_progress = standstill_share * hole.rate_of_penetration;
  }
  return hole;
}

}  // namespace dullcast::analysis
