#include "tools/dullcast/ground_report.hpp"

#include <algorithm>
#include <cmath>

#include "engine/forecast/suitability.hpp"

namespace dullcast {
namespace {

std::string temperature_or_dash(double T, ShownUnits units) {
  return std::isnan(T) ? std::string("-") : show(T, shown::temperature, units);
}

std::string first_to_go(const Survival& survival) {
  std::string words;
  switch (survival.end) {
    case SurvivalEnd::does_not_drill:
    case SurvivalEnd::fails_with_flow:
      return survival_end_words(survival.end);
    case SurvivalEnd::outlives:
      words = std::string("nothing in ") + seconds_words(survival.time);
      break;
    default:
      words = std::string(survival_end_words(survival.end)) + " after " + seconds_words(survival.time);
      if (survival.cutter >= 0) words += " (" + cutter_words({survival.cutter}) + ")";
  }
  if (survival.standstill) words += "; stands still from " + seconds_words(*survival.standstill);
  if (survival.film) words += "; steam film at " + seconds_words(*survival.film);
  if (survival.dry) words += "; dry at " + seconds_words(*survival.dry);
  return words;
}

}  // namespace

void print_suitability(const Sheet& sheet, const Scenario& scenario, const RunOutcome& outcome) {
  sheet.heading("Does this ground suit this bit? (as drilled here, mishaps included)");
  const std::vector<int> widths = {rock_column(scenario), sheet.units == ShownUnits::both ? 22 : 12, 15};
  for (const LayerSuitability& layer : suitability(scenario, outcome)) {
    std::vector<std::string> why = reasons(layer, sheet.units);
    if (why.empty()) why.push_back("");
    sheet.row({spoken(layer.ground.rock), "to " + show(layer.ground.bottom, shown::depth, sheet.units),
               verdict_words(layer.verdict), why.front()},
              widths);
    for (std::size_t k = 1; k < why.size(); ++k) sheet.row({"", "", "", why[k]}, widths);
  }
  sheet.out << "\n";
}

void print_survival(const Sheet& sheet, const Scenario& scenario, const std::vector<Survival>& survival,
                    bool at_rework) {
  if (survival.empty()) return;
  sheet.heading(std::string("The pump stops and nobody notices: hottest flat, and what goes first (estimate; "
                            "bit as worn at ") +
                (at_rework ? "rework" : "the run's end") + ")");
  const int temperature = sheet.units == ShownUnits::both ? 21 : 11;
  const std::vector<int> widths = {rock_column(scenario),
                                   sheet.units == ShownUnits::both ? 20 : 10,
                                   temperature,
                                   temperature,
                                   temperature,
                                   temperature,
                                   temperature};
  sheet.row({"rock", "at", "before", "10 s", "30 s", "60 s", "120 s", "first to go"}, widths);
  for (const Survival& one : survival) {
    const bool known = one.steady_temperature > 0.0;
    std::vector<std::string> cells = {
        spoken(one.rock), show(one.depth, shown::depth, sheet.units),
        known ? show(one.steady_temperature, shown::temperature, sheet.units) : std::string("-")};
    for (const double T : one.after) cells.push_back(temperature_or_dash(T, sheet.units));
    cells.push_back(first_to_go(one));
    sheet.row(cells, widths);
  }
  sheet.out << "  Each layer from steady drilling near its top, weight and rotation as planned, watched for "
            << seconds_words(survival_limit) << ".\n"
            << "  Lift off bottom at once when the flow fails; these times are no licence to wait.\n\n";
}

}  // namespace dullcast
