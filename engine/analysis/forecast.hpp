#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/analysis/number_effects.hpp"

namespace dullcast::analysis {

/// What a run means when its numbers are only known within a spread.
struct Forecast {
  simulation::RunOutcome central;
  simulation::RunOutcome severe;                      // the low end of life (about one case in ten is worse)
  simulation::RunOutcome mild;                        // the high end (about one in ten is better)
  scenario::Scenario central_scenario;                // as given
  scenario::Scenario severe_scenario, mild_scenario;  // replayable
  std::vector<NumberEffect> effects;                  // greatest share first; none where chance is drawn
  double half_band = 0.0;                             // of ln(wear) between central and either end
  int learned_from = 0;             // inspected bits that the numbers rest on; 0: uncalibrated
  double coefficient_factor = 1.0;  // by which they moved the abrasion coefficient
  // Only results of before format 1.5 have these, whose one inspected bit was learnt from otherwise:
  std::optional<double> cutting_wear_share;  // 1, as it told it
  double inspection_share = 0.0;             // 1, of the band's variance: what reading it left open
  /// Where chance is drawn the band is of draws (see DrawnBand) and `central` only the scenario's own seed at
  /// central numbers: the middle of the draws is this. Nothing otherwise.
  std::optional<simulation::RunOutcome> middle;
  std::optional<scenario::Scenario> middle_scenario;
  int draws = 0, draws_failed = 0, draws_without_rework = 0;
  std::string first_failed_draw;  // what it said
};

/// The band as the results keep it: low, central, high life; where chance is drawn "central" is the middle of
/// the draws.
std::vector<simulation::LifeEnd> band_of(const Forecast& forecast);

struct ForecastOptions : EffectOptions {
  bool band = true;  // false: the central run only
};

/// Forecasts by first-order reliability. Each uncertain number, taken as normal (in its logarithm where it is
/// positive) with low and high its 10 % and 90 % points, moves ln(wear of one hole, from half a life's wear)
/// by a slope; independent numbers add in squares. The ends of the band are whole runs with all numbers moved
/// together along the steepest direction by that 10 % or 90 % point (Hasofer & Lind, J. Eng. Mech. Div. ASCE
/// 100, 1974 [pub]), so each end is a scenario that can be replayed.
///
/// Numbers that inspected bits have told of (scenario.learned) go together as these left them: the variance
/// and the steepest direction are those of what_is_left.
///
/// Where the scenario draws chance, chips and failures too are unknown and have no slope: the band then is of
/// quantiles over band_draws draws of seeds and numbers at once (drawn_band), and there are no effects.
///
/// options.announce is told, once the central run is done and before the band is begun, what the band will
/// take. Throws what run() throws. Deterministic for any number of threads.
Forecast forecast(const scenario::Scenario& scenario, const ForecastOptions& options,
                  const ForecastProgress& progress = {});

}  // namespace dullcast::analysis
