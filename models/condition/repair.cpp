#include "models/condition/repair.hpp"

#include "models/common/domain.hpp"

namespace dullcast::condition {
namespace {

constexpr const char* name = "plan_repair";

void check(const BitFindings& found, const RepairCosts& costs, const RepairLimits& limits) {
  const Eigen::Index n = found.worn_share.size();
  for (const Eigen::Index size :
       {found.heat_damage.size(), found.lost.size(), found.chipped.size(), found.at_gauge.size()})
    require_domain(size == n, name, "every array needs one entry per cutter", static_cast<double>(size));
  for (Eigen::Index i = 0; i < n; ++i) {
    require_domain(found.worn_share(i) >= 0.0, name, "the worn share must be 0 or more", found.worn_share(i));
    require_domain(found.heat_damage(i) >= 0.0, name, "heat damage must be 0 or more", found.heat_damage(i));
  }
  require_domain(found.pocket_share_eroded >= 0.0, name, "the eroded share must be 0 or more",
                 found.pocket_share_eroded);
  require_domain(found.gauge_loss >= 0.0, name, "the gauge loss must be 0 m or more", found.gauge_loss);
  for (const double price : {costs.setup, costs.cutter, costs.pocket, costs.replacement})
    require_domain(price >= 0.0, name, "a price must be 0 or more", price);
  for (const double limit : {limits.worn_share, limits.pocket_share, limits.pocket_share_scrap,
                             limits.gauge_loss, limits.cost_share})
    require_domain(limit >= 0.0, name, "a limit must be 0 or more", limit);
}

}  // namespace

RepairPlan plan_repair(const BitFindings& found, const RepairCosts& costs, const RepairLimits& limits) {
  check(found, costs, limits);
  const auto scrap = [&](const char* reason) {
    RepairPlan scrapped;
    scrapped.kind = RepairClass::scrap;
    scrapped.cost = costs.replacement;
    scrapped.reason = reason;
    return scrapped;
  };
  if (found.blade_sheared) return scrap("a blade is sheared");
  if (found.pocket_share_eroded > limits.pocket_share_scrap)
    return scrap("pockets are worn away with the blade behind them");

  const bool under_gauge = found.gauge_loss > limits.gauge_loss;
  const bool all_pockets = found.pocket_share_eroded > limits.pocket_share;
  RepairPlan plan;
  plan.all_pockets = all_pockets;
  plan.replaced = Eigen::ArrayXi::Zero(found.worn_share.size());
  int broken = 0;  // lost, chipped or ruined
  for (Eigen::Index i = 0; i < found.worn_share.size(); ++i) {
    const bool lost = found.lost(i) != 0;
    const bool breaks = lost || found.chipped(i) != 0 || found.heat_damage(i) >= 1.0;
    const bool worn = found.worn_share(i) > limits.worn_share || (under_gauge && found.at_gauge(i) != 0);
    if (breaks) ++broken;
    plan.replaced(i) = breaks || worn ? 1 : 0;
    plan.cutters += plan.replaced(i);
    if (lost || all_pockets) ++plan.pockets;
  }
  if (plan.cutters == 0 && plan.pockets == 0) {
    plan.reason = "cutters and pockets are within the limits";
    return plan;
  }
  plan.cost = costs.setup + plan.cutters * costs.cutter + plan.pockets * costs.pocket;
  if (plan.cost > limits.cost_share * costs.replacement)
    return scrap("repair costs too large a share of a new bit");
  plan.kind = plan.pockets > 0 ? RepairClass::rebuild_pockets : RepairClass::replace_cutters;
  plan.reason = all_pockets        ? "pockets are eroded"
                : plan.pockets > 0 ? "cutters are lost from their pockets"
                : broken > 0       ? "cutters are chipped or ruined by heat"
                : under_gauge      ? "the bit is under gauge"
                                   : "cutters are worn";
  return plan;
}

const char* repair_class_name(RepairClass kind) {
  switch (kind) {
    case RepairClass::none:
      return "none";
    case RepairClass::replace_cutters:
      return "replace_cutters";
    case RepairClass::rebuild_pockets:
      return "rebuild_pockets";
    case RepairClass::scrap:
      return "scrap";
  }
  return "";
}

}  // namespace dullcast::condition
