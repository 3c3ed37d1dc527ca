#include "engine/analysis/uncertainty_ranking.hpp"

#include <algorithm>
#include <cmath>
#include <mutex>

#include "engine/analysis/layer_hole.hpp"
#include "engine/base/threads.hpp"
#include "engine/simulation/run.hpp"

namespace dullcast::analysis {
namespace {

constexpr int longer_than_asked = 2;

LifeFound life_of(const simulation::RunOutcome& run, const scenario::Scenario& scenario) {
  LifeFound life;
  const simulation::BitCondition& end = run.rework_due ? run.rework_due->condition : run.end;
  life.due = run.rework_due.has_value();
  life.hole = life.due ? run.rework_due->hole : std::max(0, static_cast<int>(run.holes.size()) - 1);
  life.footage = life.due ? run.rework_due->footage : run.footage;
  life.rotating_time = life.due ? run.rework_due->rotating_time : run.rotating_time;
  life.hottest_flat = run.hottest.temperature;
  life.chip_probability = end.chip_hazard.size() > 0 ? -std::expm1(-end.chip_hazard.maxCoeff()) : 0.0;
  double column = 0.0;
  if (!scenario.column.layers.empty()) column = scenario.column.layers.back().bottom;
  const double holes = column > 0.0 ? life.footage / column : 0.0;
  if (holes > 0.0) life.wear_per_hole = (end.worn_height - scenario.bit.starting_wear).maxCoeff() / holes;
  return life;
}

/// Half of ln(life at high over life at low), where both are lives; otherwise what can be said of it.
double spread_of_lives(const LifeFound& low, const LifeFound& high, double by_slope) {
  const bool hours = low.rotating_time > 0.0 && high.rotating_time > 0.0;
  if (!hours || (!low.due && !high.due)) return by_slope;
  const double by_hours = 0.5 * std::log(high.rotating_time / low.rotating_time);
  if (low.due && high.due) return by_hours;
  // The run that did not end was still good: only a longer life than the other's is a bound.
  const bool bound = high.due ? by_hours < 0.0 : by_hours > 0.0;
  return bound && std::abs(by_hours) > std::abs(by_slope) ? by_hours : by_slope;
}

}  // namespace

void share_out(std::vector<RankedNumber>& numbers) {
  double squares = 0.0;
  for (const RankedNumber& number : numbers) squares += number.spread * number.spread;
  for (RankedNumber& number : numbers)
    number.share = squares > 0.0 ? number.spread * number.spread / squares : 0.0;
  std::stable_sort(numbers.begin(), numbers.end(),
                   [](const RankedNumber& a, const RankedNumber& b) { return a.share > b.share; });
}

UncertaintyRanking rank_uncertainties(const scenario::Scenario& given, const UncertaintyOptions& options,
                                      const ForecastProgress& progress) {
  scenario::Scenario scenario = given;
  scenario.random_events.drawn = false;
  // Past the scenario's own holes, so that a mild value's life is seen to its end.
  scenario.repeat.holes *= longer_than_asked;
  scenario.repeat.stop_at = scenario::StopAt::rework_due;
  scenario.stepping.output_every = 0.0;
  scenario.stepping.relative_tolerance = std::max(options.tolerance, scenario.stepping.relative_tolerance);

  UncertaintyRanking ranking;
  scenario::Scenario asked = scenario;
  scenario::for_each_number(asked, [&](const std::string& name, scenario::Quantity& quantity) {
    if (quantity.low < quantity.high)
      ranking.numbers.push_back({name, quantity, 0.0, false, {}, {}, 0.0, 0.0, false});
  });
  const int lived = std::clamp(options.whole_lives, 0, static_cast<int>(ranking.numbers.size()));
  // In units of one whole life.
  const double hole = 1.0 / std::max(1, scenario.repeat.holes);
  const double slope_work = 2.0 * hole * static_cast<double>(ranking.numbers.size());
  const double all = 1.0 + slope_work + 2.0 * lived;
  const auto tell = [&](double done) {
    if (progress) progress(done, all);
  };

  const simulation::RunOutcome central = simulation::run(
      scenario, [&](double drilled, int holes) { tell(drilled / holes); }, simulation::Rows::left_out);
  ranking.central = life_of(central, scenario);
  ranking.rule = deciding_rule(central);
  ranking.by = ranking.central.due ? RankedBy::life : RankedBy::wear_of_hole;
  EffectOptions slopes;
  slopes.threads = options.threads;
  slopes.slope_tolerance = options.tolerance;
  const simulation::BitCondition& dull = central.rework_due ? central.rework_due->condition : central.end;
  const std::vector<NumberEffect> effects =
      number_effects(scenario, half_worn(dull), ranking.rule, slopes,
                     [&](double done, double runs) { tell(1.0 + slope_work * done / runs); });
  for (std::size_t k = 0; k < effects.size(); ++k) {
    ranking.numbers[k].slope = effects[k].slope;
    ranking.numbers[k].spread = -effects[k].slope;
  }
  share_out(ranking.numbers);

  std::mutex telling;
  int done = 0;
  base::parallel_for(2 * lived, options.threads, [&](int work) {
    RankedNumber& number = ranking.numbers[static_cast<std::size_t>(work / 2)];
    const bool high = work % 2 == 1;
    const scenario::Scenario trial = with_numbers_at(scenario, {number.name}, {high ? 1.0 : -1.0});
    (high ? number.high : number.low) =
        life_of(simulation::run(trial, {}, simulation::Rows::left_out), trial);
    const std::lock_guard<std::mutex> lock(telling);
    tell(1.0 + slope_work + ++done);
  });
  for (int k = 0; k < lived; ++k) {
    RankedNumber& number = ranking.numbers[static_cast<std::size_t>(k)];
    number.lived = true;
    number.held_back = !number.low.due || !number.high.due;
    if (ranking.by != RankedBy::life) continue;
    const double by_slope = number.spread;
    number.spread = spread_of_lives(number.low, number.high, by_slope);
    if (!number.held_back)
      ranking.slopes_missed =
          std::max(ranking.slopes_missed, std::abs(std::abs(by_slope) - std::abs(number.spread)));
  }
  share_out(ranking.numbers);
  return ranking;
}

}  // namespace dullcast::analysis
