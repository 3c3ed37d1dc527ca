#include "tools/commands/ground_report.hpp"

#include <algorithm>
#include <cmath>

#include "engine/analysis/suitability.hpp"

namespace dullcast::commands {
namespace {

std::string temperature_or_dash(double T, base::ShownUnits units) {
  return std::isnan(T) ? std::string("-") : base::show(T, base::shown::temperature, units);
}

std::string first_to_go(const analysis::Survival& survival) {
  std::string words;
  switch (survival.end) {
    case analysis::SurvivalEnd::does_not_drill:
    case analysis::SurvivalEnd::fails_with_flow:
      return analysis::survival_end_words(survival.end);
    case analysis::SurvivalEnd::outlives:
      words = std::string("nothing in ") + seconds_words(survival.time);
      break;
    default:
      words =
          std::string(analysis::survival_end_words(survival.end)) + " after " + seconds_words(survival.time);
      if (survival.cutter >= 0) words += " (" + cutter_words({survival.cutter}) + ")";
  }
  if (survival.standstill) words += "; stands still from " + seconds_words(*survival.standstill);
  if (survival.film) words += "; steam film at " + seconds_words(*survival.film);
  if (survival.dry) words += "; dry at " + seconds_words(*survival.dry);
  return words;
}

}  // namespace

void print_suitability(const Sheet& sheet, const scenario::Scenario& scenario,
                       const simulation::RunOutcome& outcome) {
  sheet.heading("Does this ground suit this bit? (as drilled here, mishaps included)");
  const std::vector<int> widths = {rock_column(scenario), sheet.units == base::ShownUnits::both ? 22 : 12,
                                   15};
  for (const analysis::LayerSuitability& layer : analysis::suitability(scenario, outcome)) {
    std::vector<std::string> why = analysis::reasons(layer, sheet.units);
    if (why.empty()) why.emplace_back();
    sheet.row(
        {spoken(layer.ground.rock), "to " + base::show(layer.ground.bottom, base::shown::depth, sheet.units),
         analysis::verdict_words(layer.verdict), why.front()},
        widths);
    for (std::size_t k = 1; k < why.size(); ++k) sheet.row({"", "", "", why[k]}, widths);
  }
  sheet.out << "\n";
}

void print_survival(const Sheet& sheet, const scenario::Scenario& scenario,
                    const std::vector<analysis::Survival>& survival, bool at_rework) {
  if (survival.empty()) return;
  sheet.heading(std::string("The pump stops and nobody notices: hottest flat, and what goes first (estimate; "
                            "bit as worn at ") +
                (at_rework ? "rework" : "the run's end") + ")");
  const int temperature = sheet.units == base::ShownUnits::both ? 21 : 11;
  const std::vector<int> widths = {rock_column(scenario),
                                   sheet.units == base::ShownUnits::both ? 20 : 10,
                                   temperature,
                                   temperature,
                                   temperature,
                                   temperature,
                                   temperature};
  sheet.row({"rock", "at", "before", "10 s", "30 s", "60 s", "120 s", "first to go"}, widths);
  for (const analysis::Survival& one : survival) {
    const bool known = one.steady_temperature > 0.0;
    std::vector<std::string> cells = {
        spoken(one.rock), base::show(one.depth, base::shown::depth, sheet.units),
        known ? base::show(one.steady_temperature, base::shown::temperature, sheet.units) : std::string("-")};
    for (const double T : one.after) cells.push_back(temperature_or_dash(T, sheet.units));
    cells.push_back(first_to_go(one));
    sheet.row(cells, widths);
  }
  sheet.out << "  Each layer from steady drilling near its top (in its middle, if thin), weight and rotation "
               "as planned, watched for "
            << seconds_words(analysis::survival_limit) << ".\n"
            << "  Lift off bottom at once when the flow fails; these times are no licence to wait.\n\n";
}

}  // namespace dullcast::commands
