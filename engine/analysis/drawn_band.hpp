#pragma once

#include <optional>
#include <string>

#include "engine/analysis/number_effects.hpp"

namespace dullcast::analysis {

/// Draws of which a band under chance is made: four of them lie beyond either end. The fewest that bound a
/// 10 % point on both sides with 95 % confidence are 36 (statistics::draws_for_both_bounds).
inline constexpr int band_draws = 40;

/// Draw `draw` (from 0) of a scenario with chance: its events are those of the seed `draw` above the
/// scenario's, and every number whose low and high differ is drawn from the normal law (in its logarithm
/// where it is positive) of which these are the 10 % and 90 % points; numbers that inspected bits have told
/// of together are drawn together. A number drawn past the range in which it makes sense stands at its low or
/// high. The run ends where rework falls due. The same seed draws the same, whatever else is drawn.
scenario::Scenario drawn_scenario(const scenario::Scenario& scenario, int draw);

/// The scenario with numbers at coordinates that were drawn independently of each other (normal, the 90 %
/// point at 1); those that inspected bits have told of together then go together.
scenario::Scenario with_numbers_drawn(scenario::Scenario scenario, const std::vector<std::string>& names,
                                      std::vector<double> coordinates);

/// One draw whose life is a quantile of all, with the scenario that replays it.
struct DrawnLife {
  simulation::RunOutcome run;  // without rows
  scenario::Scenario scenario;
};

/// Quantiles of life over draws of chance and of the numbers at once.
struct DrawnBand {
  DrawnLife low, middle, high;  // by 10 %, 50 % and 90 % of the draws
  int draws = 0;                // that were run; those that failed are not among them
  int failed = 0;
  std::string first_failure;  // what the first of those said
  int without_rework = 0;     // of the draws: rework did not fall due
};

/// How far a bit lasted: metres to rework due, or to where it stopped drilling or lost a blade; infinity
/// where it was still good at the end of the run.
double life_drilled(const simulation::RunOutcome& run);

/// Runs `draws` draws and puts them in order of life_drilled; the end at share p is the least draw that p of
/// all reach (its order statistic). A draw whose run throws is left out and counted; when all do, the first
/// one's exception is thrown. Deterministic for any number of threads.
DrawnBand drawn_band(const scenario::Scenario& scenario, int draws, int threads,
                     const ForecastProgress& progress = {});

}  // namespace dullcast::analysis
