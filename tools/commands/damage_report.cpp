#include "tools/commands/damage_report.hpp"

#include <algorithm>
#include <cmath>

#include "engine/analysis/failure_outlook.hpp"
#include "engine/analysis/repair_outlook.hpp"
#include "engine/analysis/suitability.hpp"
#include "engine/pages/repair_view.hpp"

namespace dullcast::commands {
namespace {

/// Chances below this are not worth a line.
constexpr double next_to_nothing = 1e-4;

std::string most_at_risk(const analysis::FailureOutlook& one) {
  return one.cutter >= 0 ? " (most at risk: " + cutter_words({one.cutter}) + ")" : std::string();
}

std::string outlook_words(const analysis::FailureOutlook& one, base::ShownUnits units) {
  if (one.happened) {
    std::string words = std::string(analysis::failure_words(one.kind)) + " in hole " +
                        std::to_string(one.hole + 1) + " at " +
                        base::show(one.depth, base::shown::depth, units);
    if (one.cutter >= 0) words += ", " + cutter_words({one.cutter});
    if (one.times > 1) words += "; " + std::to_string(one.times) + " such in all";
    return words;
  }
  if (one.kind == analysis::FailureKind::table_ruined)
    return "heat has used " + percent_words(one.probability) + " of a diamond table's life" +
           most_at_risk(one);
  return std::string(analysis::failure_words(one.kind)) + ": chance " + percent_words(one.probability) +
         most_at_risk(one);
}

void print_repair(const Sheet& sheet, const scenario::Scenario& scenario,
                  const simulation::RunOutcome& outcome) {
  const analysis::RepairOutlook outlook = analysis::repair_outlook(scenario, outcome);
  std::string words = pages::repair_words(outlook.plan) + ": " + outlook.plan.reason;
  if (outlook.plan.kind != condition::RepairClass::none) {
    words += outlook.priced ? ", about " + base::show_money(outlook.plan.cost, scenario.costs.currency) +
                                  (outlook.plan.kind == condition::RepairClass::scrap ? " for a new bit" : "")
                            : std::string(" (no prices given: costs.rework, cutter, pocket, replacement)");
  }
  sheet.line("the shop then", words);
  if (outlook.expected_chipped > 0.05) {
    sheet.line("", "to that, by the chip risk, about " + base::show_number(outlook.expected_chipped, 2) +
                       " cutters with chipped edges");
  }
}

void print_body(const Sheet& sheet, const simulation::RunOutcome& outcome) {
  const simulation::BitCondition& bit = outcome.rework_due ? outcome.rework_due->condition : outcome.end;
  double side = 0.0;
  for (const simulation::HistoryRow& row : outcome.history.rows) side = std::max(side, row.lateral_force);
  const auto lost = [&](double length) {
    if (length < 5e-7) return std::string("none");
    return base::show(length, base::shown::length,
                      sheet.units == base::ShownUnits::field ? base::ShownUnits::both : sheet.units, 2);
  };
  sheet.line("side force", base::show(side, base::shown::weight, sheet.units) +
                               " at most, carried by the gauge; hole under gauge by " + lost(bit.gauge_loss));
  sheet.line("steel gone", "eroded " + lost(bit.eroded) + ", rubbed off blades " + lost(bit.blade_wear) +
                               ", off gauge pads " + lost(bit.pad_wear));
}

}  // namespace

void print_chip_risk(const Sheet& sheet, const scenario::Scenario& scenario,
                     const simulation::RunOutcome& outcome) {
  const std::vector<analysis::LayerGround> layers = analysis::ground_of(scenario, outcome);
  const bool any = std::any_of(layers.begin(), layers.end(), [](const analysis::LayerGround& layer) {
    return layer.chips_per_pass > next_to_nothing || layer.chip_probability > next_to_nothing;
  });
  if (!any) return;
  sheet.heading("Chip risk by layer, one hole");
  const std::vector<int> widths = {rock_column(scenario), sheet.units == base::ShownUnits::both ? 22 : 12,
                                   18};
  sheet.row({"rock", "to", "chips expected", "greatest chance of one cutter"}, widths);
  for (const analysis::LayerGround& layer : layers) {
    if (layer.passes == 0) continue;
    sheet.row({spoken(layer.rock), base::show(layer.bottom, base::shown::depth, sheet.units),
               layer.chips_per_pass < next_to_nothing ? std::string("next to none")
                                                      : base::show_number(layer.chips_per_pass, 2),
               percent_words(layer.chip_probability)},
              widths);
  }
  sheet.out << "\n";
}

void print_damage(const Sheet& sheet, const scenario::Scenario& scenario,
                  const simulation::RunOutcome& outcome) {
  sheet.heading(outcome.rework_due ? "Damage and repair, up to rework"
                                   : "Damage and repair, to the run's end");
  const std::vector<analysis::FailureOutlook> outlook = analysis::failure_outlook(scenario, outcome);
  bool told = false;
  for (const analysis::FailureOutlook& one : outlook) {
    if (!one.happened && one.probability < next_to_nothing) continue;
    sheet.line(told ? "" : one.happened ? "first to go" : "likely first", outlook_words(one, sheet.units));
    told = true;
  }
  if (!told) sheet.line("likely first", "none: no sudden failure has a chance worth telling");
  print_body(sheet, outcome);
  print_repair(sheet, scenario, outcome);
  sheet.out << "\n";
}

}  // namespace dullcast::commands
