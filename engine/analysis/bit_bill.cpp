#include "engine/analysis/bit_bill.hpp"

#include <algorithm>
#include <stdexcept>

#include "engine/analysis/layer_hole.hpp"
#include "engine/analysis/repair_outlook.hpp"
#include "models/cutting/gauge.hpp"

namespace dullcast::analysis {

BitBill bit_bill(const scenario::Scenario& scenario, const simulation::BitCondition& bit,
                 bool blade_sheared) {
  const condition::BitFindings found = bench_findings(scenario, bit, blade_sheared);
  const condition::RepairLimits limits;
  BitBill bill;
  bill.plan = condition::plan_repair(found, shop_prices(scenario.costs), limits);
  if (bill.plan.kind == condition::RepairClass::scrap) return bill;
  for (Eigen::Index i = 0; i < found.worn_share.size(); ++i) {
    if (bill.plan.replaced(i)) continue;
    const double used = std::max(found.worn_share(i) / limits.worn_share, found.heat_damage(i));
    bill.worn_in_part += std::clamp(used, 0.0, 1.0) * scenario.costs.cutter;
  }
  return bill;
}

simulation::BitCondition condition_at_start(const scenario::Scenario& scenario) {
  simulation::BitCondition start = starting_condition(scenario);
  const Eigen::Index n = scenario.bit.layout.count();
  for (Eigen::ArrayXi* marks : {&start.chips, &start.lost, &start.table_gone}) {
    if (marks->size() != n) *marks = Eigen::ArrayXi::Zero(n);
  }
  if (start.chip_hazard.size() != n) start.chip_hazard = Eigen::ArrayXd::Zero(n);
  start.gauge_loss = cutting::hole_diameter_loss(scenario.bit.layout, start.worn_height, start.lost);
  return start;
}

simulation::BitCondition unused(const geometry::BitLayout& layout) {
  const Eigen::Index n = layout.count();
  simulation::BitCondition fresh;
  fresh.worn_height = fresh.heat_damage = fresh.chip_hazard = Eigen::ArrayXd::Zero(n);
  fresh.chips = fresh.lost = fresh.table_gone = Eigen::ArrayXi::Zero(n);
  return fresh;
}

simulation::BitCondition reworked(simulation::BitCondition bit, const geometry::BitLayout& layout,
                                  const condition::RepairPlan& plan) {
  if (plan.kind == condition::RepairClass::scrap)
    throw std::invalid_argument("a bit that is scrapped is not reworked");
  for (Eigen::Index i = 0; i < plan.replaced.size(); ++i) {
    if (!plan.replaced(i)) continue;
    bit.worn_height(i) = bit.heat_damage(i) = bit.chip_hazard(i) = 0.0;
    bit.chips(i) = bit.lost(i) = bit.table_gone(i) = 0;
  }
  if (plan.all_pockets) bit.eroded = bit.blade_wear = 0.0;
  bit.gauge_loss = cutting::hole_diameter_loss(layout, bit.worn_height, bit.lost);
  return bit;
}

scenario::Scenario reworked(scenario::Scenario scenario, const condition::RepairPlan& plan) {
  start_from(scenario, reworked(condition_at_start(scenario), scenario.bit.layout, plan));
  return scenario;
}

scenario::Scenario with_new_bit(scenario::Scenario scenario) {
  start_from(scenario, unused(scenario.bit.layout));
  return scenario;
}

std::vector<std::string> missing_prices(const scenario::Costs& costs) {
  std::vector<std::string> missing;
  if (!(costs.rig_per_second > 0.0)) missing.emplace_back("rig");
  if (!(costs.bit > 0.0) && !(costs.replacement > 0.0)) missing.emplace_back("bit");
  if (!(costs.rework > 0.0)) missing.emplace_back("rework");
  if (!(costs.cutter > 0.0)) missing.emplace_back("cutter");
  return missing;
}

}  // namespace dullcast::analysis
