#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "engine/scenario/scenario.hpp"
#include "engine/simulation/outcome.hpp"

namespace dullcast::analysis {

/// One uncertain number and what it does to how fast the bit wears.
struct NumberEffect {
  std::string name;
  double slope = 0.0;  // change of ln(wear) as the number goes from its central to its high value
  /// Of the variance of ln(wear), 0..1; the shares sum to 1 (to 0 when nothing is uncertain). With an
  /// inspection: of what it leaves, not counting numbers whose pull it has turned round.
  double share = 0.0;
};

/// What a run means when its numbers are only known within a spread.
struct Forecast {
  simulation::RunOutcome central;
  simulation::RunOutcome severe;                      // the low end of life (about one case in ten is worse)
  simulation::RunOutcome mild;                        // the high end (about one in ten is better)
  scenario::Scenario central_scenario;                // as given, with the inspected bit's factor applied
  scenario::Scenario severe_scenario, mild_scenario;  // replayable
  std::vector<NumberEffect> effects;                  // greatest share first
  double half_band = 0.0;                             // of ln(wear) between central and either end
  bool calibrated = false;
  double coefficient_factor = 1.0;           // by which an inspected bit rescaled the abrasion coefficient
  std::optional<double> cutting_wear_share;  // 1, as an inspected bit told it, if it did
};

/// The band as the results keep it: low, central, high life.
std::vector<simulation::LifeEnd> band_of(const Forecast& forecast);

/// Number of runs done and in all. Called from one thread at a time. Must not throw.
using ForecastProgress = std::function<void(double done, double all)>;

/// What an inspected bit has taught: how its wear answers to each number, and how well it was read.
struct InspectionEvidence {
  double coefficient_factor = 1.0;    // measured over predicted wear, as a factor on the abrasion coefficient
  std::vector<NumberEffect> effects;  // slopes of the inspected run
  double noise = 0.0;                 // 90 % point of the error of ln(measured wear)
  /// What the readings say of cutting_wear_share; nothing where they cannot tell cutting from rubbing.
  std::optional<scenario::Quantity> cutting_wear_share;
};

/// The scenario with what the inspected bit has taught in place of the library's: the abrasion coefficient
/// times the evidence's factor and, where it was told, the share of cutting.
scenario::Scenario with_evidence(scenario::Scenario scenario, const InspectionEvidence& evidence);

struct ForecastOptions {
  int threads = 1;
  /// Relative tolerance of the one-hole runs that measure slopes: they are compared with each other, not
  /// reported.
  double slope_tolerance = 1e-2;
  std::optional<InspectionEvidence> evidence;
  bool band = true;  // false: the central run only
};

/// Forecasts by first-order reliability. Each uncertain number, taken as normal (in its logarithm where it is
/// positive) with low and high its 10 % and 90 % points, moves ln(wear of one hole, from half a life's wear)
/// by a slope; independent numbers add in squares. The ends of the band are whole runs with all numbers moved
/// together along the steepest direction by that 10 % or 90 % point (Hasofer & Lind, J. Eng. Mech. Div. ASCE
/// 100, 1974 [pub]), so each end is a scenario that can be replayed.
///
/// With evidence, the abrasion coefficient is multiplied by the evidence's factor, and what is left of each
/// number's spread follows from conditioning normal variables on one noisy linear reading: covariance 1 - g
/// g^T/(g^T g + noise^2), g the inspected slopes [hb]. Throws what run() throws. Deterministic for any number
/// of threads.
Forecast forecast(const scenario::Scenario& scenario, const ForecastOptions& options,
                  const ForecastProgress& progress = {});

/// Slopes of ln(wear of one hole) for every number whose low and high differ, in the order of
/// for_each_number. The hole is drilled from `condition` (worn heights, damage, what is lost, eroded steel)
/// with random events not drawn, without upsets of one single hole and, but
/// for the probability of a chip, without the time that rods take; `rule` says which wear: the greatest for
/// "worn_height", heat damage for "heat_damage", chip hazard for "chip_probability", otherwise the mean over
/// the outer third of the bit. A number whose effect cannot be told (the bit no longer drills at both ends)
/// has slope 0. Numbers about breakage are first moved all together, to all highs and to all lows; where
/// neither matters, their slopes are 0.
std::vector<NumberEffect> number_effects(const scenario::Scenario& scenario,
                                         const simulation::BitCondition& condition, const std::string& rule,
                                         const ForecastOptions& options,
                                         const ForecastProgress& progress = {});

/// A number moved to `coordinate`: -1 is low, 0 central, 1 high; in between and beyond by powers where all
/// three are above 0, by straight lines otherwise.
double number_at(const scenario::Quantity& quantity, double coordinate);

}  // namespace dullcast::analysis
