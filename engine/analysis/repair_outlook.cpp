#include "engine/analysis/repair_outlook.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "models/cutting/gauge.hpp"
#include "models/wear/body_wear.hpp"

namespace dullcast::analysis {

condition::BitFindings bench_findings(const scenario::Scenario& scenario, const simulation::BitCondition& bit,
                                      bool blade_sheared) {
  const geometry::BitLayout& layout = scenario.bit.layout;
  const Eigen::Index n = layout.count();
  condition::BitFindings found;
  Eigen::ArrayXd allowance = layout.exposure;
  if (scenario.rules.outer_dull_grade) allowance *= std::min(1.0, *scenario.rules.outer_dull_grade / 8.0);
  if (scenario.rules.worn_height) allowance = allowance.min(*scenario.rules.worn_height);
  found.worn_share = bit.worn_height.max(0.0) / allowance;
  found.heat_damage = bit.heat_damage.max(0.0);
  found.lost = bit.lost.size() == n ? bit.lost : Eigen::ArrayXi(Eigen::ArrayXi::Zero(n));
  found.chipped = bit.chips.size() == n ? bit.chips : Eigen::ArrayXi(Eigen::ArrayXi::Zero(n));
  found.at_gauge = cutting::gauge_cutters(layout);
  for (Eigen::Index i = 0; i < n; ++i) {
    // A table that came off its carbide is a ruined one.
    if (bit.table_gone.size() == n && bit.table_gone(i)) found.heat_damage(i) = 1.0;
  }
  found.pocket_share_eroded = (bit.eroded + bit.blade_wear) / wear::pocket_depth(layout);
  found.gauge_loss = 0.5 * bit.gauge_loss;
  found.blade_sheared = blade_sheared;
  return found;
}

condition::RepairPlan repair_when_due(const scenario::Scenario& scenario, const simulation::BitCondition& bit,
                                      bool blade_sheared) {
  const condition::BitFindings found = bench_findings(scenario, bit, blade_sheared);
  const condition::RepairCosts prices = shop_prices(scenario.costs);
  condition::RepairPlan plan = condition::plan_repair(found, prices);
  if (plan.kind != condition::RepairClass::none || found.worn_share.size() == 0) return plan;
  condition::RepairLimits limits;
  limits.worn_share = 0.5 * found.worn_share.maxCoeff();
  return condition::plan_repair(found, prices, limits);
}

condition::RepairCosts shop_prices(const scenario::Costs& money) {
  condition::RepairCosts prices;
  prices.setup = money.rework;
  prices.cutter = money.cutter;
  prices.pocket = money.pocket;
  prices.replacement = money.replacement > 0.0 ? money.replacement
                       : money.bit > 0.0       ? money.bit
                                               : std::numeric_limits<double>::infinity();
  return prices;
}

RepairOutlook repair_outlook(const scenario::Scenario& scenario, const simulation::RunOutcome& outcome) {
  const simulation::BitCondition& bit = outcome.rework_due ? outcome.rework_due->condition : outcome.end;
  const bool sheared = !outcome.rework_due && outcome.ended_by == simulation::EndedBy::blade_sheared;
  const scenario::Costs& money = scenario.costs;
  RepairOutlook outlook;
  outlook.plan = condition::plan_repair(bench_findings(scenario, bit, sheared), shop_prices(money));
  outlook.priced = outlook.plan.kind == condition::RepairClass::scrap
                       ? std::isfinite(outlook.plan.cost)
                       : money.rework > 0.0 && (outlook.plan.cutters == 0 || money.cutter > 0.0) &&
                             (outlook.plan.pockets == 0 || money.pocket > 0.0);
  if (!scenario.random_events.drawn && bit.chip_hazard.size() > 0)
    outlook.expected_chipped = (1.0 - (-bit.chip_hazard).exp()).sum();
  return outlook;
}

}  // namespace dullcast::analysis
