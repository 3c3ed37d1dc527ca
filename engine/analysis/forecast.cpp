#include "engine/analysis/forecast.hpp"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <mutex>

#include "engine/analysis/drawn_band.hpp"
#include "engine/analysis/layer_hole.hpp"
#include "engine/analysis/numbers_left.hpp"
#include "engine/base/threads.hpp"
#include "engine/simulation/run.hpp"

namespace dullcast::analysis {
namespace {

/// Progress in units of the central run's time, which is all that is known before.
class Work {
 public:
  Work(const ForecastProgress& progress, double guessed_band) : progress_(progress), band_(guessed_band) {}
  void central(double share) const { tell(share); }
  void central_done() {
    seconds_ = std::chrono::duration<double>(std::chrono::steady_clock::now() - began_).count();
  }
  double central_seconds() const { return seconds_; }
  /// What the band is now known to take, s by the clock.
  void expect_band(double seconds) {
    if (seconds_ > 0.0) band_ = seconds / seconds_;
  }
  void band(double share) const { tell(1.0 + share * band_); }

 private:
  void tell(double done) const {
    if (progress_) progress_(done, 1.0 + band_);
  }
  const ForecastProgress& progress_;
  double band_, seconds_ = 0.0;
  std::chrono::steady_clock::time_point began_ = std::chrono::steady_clock::now();
};

void draw_band(Forecast& result, const ForecastOptions& options, Work& work) {
  const simulation::RunOutcome& central = result.central;
  const double to_rework =
      central.rework_due && central.footage > 0.0 ? central.rework_due->footage / central.footage : 1.0;
  const double seconds =
      work.central_seconds() * to_rework * band_draws / std::max(1, std::min(options.threads, band_draws));
  work.expect_band(seconds);
  if (options.announce) options.announce({band_draws, seconds});
  DrawnBand band = drawn_band(result.central_scenario, band_draws, options.threads,
                              [&](double done, double all) { work.band(done / all); });
  result.severe = std::move(band.low.run);
  result.middle = std::move(band.middle.run);
  result.mild = std::move(band.high.run);
  result.severe_scenario = std::move(band.low.scenario);
  result.middle_scenario = std::move(band.middle.scenario);
  result.mild_scenario = std::move(band.high.scenario);
  result.draws = band.draws;
  result.draws_failed = band.failed;
  result.first_failed_draw = band.first_failure;
  result.draws_without_rework = band.without_rework;
}

/// Both ends of the band, as far along the steepest direction as what is left of the spreads reaches.
void run_ends(Forecast& result, const ForecastOptions& options, const std::function<void(double)>& tell) {
  const std::optional<scenario::Learned>& learned = result.central_scenario.learned;
  const WhatIsLeft left =
      what_is_left(result.effects, learned ? learned->together : scenario::NumbersTogether{});
  result.half_band = std::sqrt(left.variance);
  std::vector<std::string> names;
  std::vector<double> towards_wear, towards_life;
  for (std::size_t k = 0; k < left.pull.size(); ++k) {
    const double step = result.half_band > 0.0 ? left.pull[k] / result.half_band : 0.0;
    names.push_back(result.effects[k].name);
    towards_wear.push_back(step);
    towards_life.push_back(-step);
    result.effects[k].share = left.shares[k];
  }
  std::stable_sort(result.effects.begin(), result.effects.end(),
                   [](const NumberEffect& a, const NumberEffect& b) { return a.share > b.share; });
  result.severe_scenario = with_numbers_at(result.central_scenario, names, towards_wear);
  result.mild_scenario = with_numbers_at(result.central_scenario, names, towards_life);
  std::mutex telling;
  double drilled[2] = {0.0, 0.0};
  base::parallel_for(2, options.threads, [&](int end) {
    const scenario::Scenario& side = end == 0 ? result.severe_scenario : result.mild_scenario;
    // Of an end its life is told; its history, in which nobody looks, is a sixth of its time.
    simulation::RunOutcome outcome = simulation::run(
        side,
        [&](double holes_drilled, int asked) {
          const std::lock_guard<std::mutex> lock(telling);
          drilled[end] = holes_drilled / asked;
          tell(0.5 * (drilled[0] + drilled[1]));
        },
        simulation::Rows::left_out);
    (end == 0 ? result.severe : result.mild) = std::move(outcome);
  });
}

/// The ends by numbers alone: their slopes first.
void numbers_band(Forecast& result, const ForecastOptions& options, Work& work) {
  const simulation::RunOutcome& central = result.central;
  const double ends = 2.0 * work.central_seconds() / std::clamp(options.threads, 1, 2);
  double slopes_share = 0.5;  // of the band's time
  EffectOptions slopes = static_cast<const EffectOptions&>(options);
  slopes.announce = [&](const RunsAhead& ahead) {
    work.expect_band(ahead.seconds + ends);
    if (ahead.seconds + ends > 0.0) slopes_share = ahead.seconds / (ahead.seconds + ends);
    if (options.announce) options.announce({ahead.runs + 2, ahead.seconds + ends});
  };
  result.effects = number_effects(result.central_scenario,
                                  half_worn(central.rework_due ? central.rework_due->condition : central.end),
                                  deciding_rule(central), slopes,
                                  [&](double done, double runs) { work.band(slopes_share * done / runs); });
  run_ends(result, options, [&](double share) { work.band(slopes_share + (1.0 - slopes_share) * share); });
}

}  // namespace

std::vector<simulation::LifeEnd> band_of(const Forecast& forecast) {
  const auto end_of = [&](const char* end, const simulation::RunOutcome& run) {
    const auto& due = run.rework_due;
    return simulation::LifeEnd{end,
                               due ? 1 : 0,
                               due ? due->hole : static_cast<int>(run.holes.size()) - 1,
                               due ? due->footage : run.footage,
                               due ? due->rotating_time : run.rotating_time,
                               due ? due->elapsed_time : run.elapsed_time,
                               run.hottest.temperature,
                               simulation::ended_by_name(run.ended_by),
                               run.holes_finished,
                               forecast.draws};
  };
  return {end_of("low", forecast.severe), end_of("central", forecast.middle.value_or(forecast.central)),
          end_of("high", forecast.mild)};
}

Forecast forecast(const scenario::Scenario& scenario, const ForecastOptions& options,
                  const ForecastProgress& progress) {
  Forecast result;
  if (scenario.learned) {
    result.learned_from = scenario.learned->bits;
    result.coefficient_factor = scenario.learned->coefficient_factor;
  }
  result.central_scenario = scenario;
  Work work(progress, options.band ? 3.0 : 0.0);
  result.central =
      simulation::run(scenario, [&](double drilled, int asked) { work.central(drilled / asked); });
  work.central_done();
  if (!options.band) return result;
  if (scenario.random_events.drawn) {
    draw_band(result, options, work);
  } else {
    numbers_band(result, options, work);
  }
  return result;
}

}  // namespace dullcast::analysis
