#include "engine/pages/repair_view.hpp"

#include <cmath>

#include "engine/analysis/repair_outlook.hpp"
#include "engine/base/display.hpp"
#include "engine/pages/json_parts.hpp"

namespace dullcast::pages {

std::string repair_words(const condition::RepairPlan& plan) {
  const auto counted = [](int count, const char* what) {
    return std::to_string(count) + " " + what + (count == 1 ? "" : "s");
  };
  switch (plan.kind) {
    case condition::RepairClass::none:
      return "nothing to replace yet";
    case condition::RepairClass::replace_cutters:
      return "replace " + counted(plan.cutters, "cutter");
    case condition::RepairClass::rebuild_pockets:
      return "rebuild " + counted(plan.pockets, "pocket") + ", replace " + counted(plan.cutters, "cutter");
    case condition::RepairClass::scrap:
      return "scrap";
  }
  return "";
}

nlohmann::json repair_view(const scenario::Scenario& scenario, const simulation::RunOutcome& outcome) {
  // As if rework had not been asked about before: only what the bit is like at the end counts.
  simulation::RunOutcome at_end;
  at_end.end = outcome.end;
  at_end.ended_by = outcome.ended_by;
  const analysis::RepairOutlook outlook = analysis::repair_outlook(scenario, at_end);
  const condition::RepairPlan& plan = outlook.plan;
  const bool costs = plan.kind != condition::RepairClass::none && outlook.priced;
  std::string words = repair_words(plan) + ": " + plan.reason;
  if (costs) {
    words += ", about " + base::show_money(plan.cost, scenario.costs.currency) +
             (plan.kind == condition::RepairClass::scrap ? " for a new bit" : "");
  }
  return {{"kind", condition::repair_class_name(plan.kind)},
          {"cutters", plan.cutters},
          {"pockets", plan.pockets},
          {"cost", costs ? number(plan.cost) : nlohmann::json(nullptr)},
          {"words", words}};
}

}  // namespace dullcast::pages
