#include "tools/commands/compare_measures.hpp"

#include <limits>

#include "engine/analysis/economics.hpp"
#include "tools/commands/report_words.hpp"

namespace dullcast::commands {
namespace {

constexpr double unknown = std::numeric_limits<double>::quiet_NaN();

/// Where a run is judged: at rework where it fell due, else at its end.
double footage_of(const simulation::RunOutcome& run) {
  return run.rework_due ? run.rework_due->footage : run.footage;
}
double rotating_of(const simulation::RunOutcome& run) {
  return run.rework_due ? run.rework_due->rotating_time : run.rotating_time;
}
const simulation::BitCondition& condition_of(const simulation::RunOutcome& run) {
  return run.rework_due ? run.rework_due->condition : run.end;
}

template <const base::Shown& kind>
std::string shown(double value, const ToldRun&, base::ShownUnits units) {
  return base::show(value, kind, units);
}

std::string chips_words(double value, const ToldRun&, base::ShownUnits) {
  return value < 1e-4 ? std::string("next to none") : base::show_number(value, 2);
}

}  // namespace

const std::vector<Measure>& measures() {
  static const std::vector<Measure> all{
      {"footage", "drilled by then", "m", [](const ToldRun& run) { return footage_of(run.outcome); },
       shown<base::shown::depth>},
      {"rotating_time", "rotating", "s", [](const ToldRun& run) { return rotating_of(run.outcome); },
       [](double value, const ToldRun&, base::ShownUnits) {
         return base::show(value, base::shown::hours, base::ShownUnits::si);
       }},
      {"rate_of_penetration", "mean progress", "m/s",
       [](const ToldRun& run) { return footage_of(run.outcome) / rotating_of(run.outcome); },
       shown<base::shown::progress>},
      {"hottest_flat", "hottest flat", "K",
       [](const ToldRun& run) { return run.outcome.hottest.temperature; }, shown<base::shown::temperature>},
      {"greatest_worn_height", "most worn cutter", "m",
       [](const ToldRun& run) { return condition_of(run.outcome).worn_height.maxCoeff(); },
       shown<base::shown::length>},
      {"greatest_heat_damage", "heat damage at most", "1",
       [](const ToldRun& run) { return condition_of(run.outcome).heat_damage.maxCoeff(); },
       [](double value, const ToldRun&, base::ShownUnits) {
         return percent_words(value) + " of a table's life";
       }},
      {"expected_chips", "chips expected", "1",
       [](const ToldRun& run) { return condition_of(run.outcome).chip_hazard.sum(); }, chips_words},
      {"cost_per_metre", "bit and rig", "money/m",
       [](const ToldRun& run) {
         const auto cost = analysis::run_cost(run.scenario, run.outcome);
         return cost && cost->per_metre > 0.0 ? cost->per_metre : unknown;
       },
       [](double value, const ToldRun& run, base::ShownUnits units) {
         return base::show_money_per_length(value, run.scenario.costs.currency, units);
       }},
      {"energy_per_metre", "work at the bit", "J/m",
       [](const ToldRun& run) {
         const auto cost = analysis::run_cost(run.scenario, run.outcome);
         return cost && cost->footage > 0.0 ? cost->energy / cost->footage : unknown;
       },
       [](double value, const ToldRun&, base::ShownUnits) {
         return base::show_number(1e-6 * value) + " MJ/m";
       }},
  };
  return all;
}

}  // namespace dullcast::commands
