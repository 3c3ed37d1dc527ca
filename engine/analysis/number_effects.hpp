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
  /// Of the variance of ln(wear), 0..1. All numbers' sum to 1, or to 0 when nothing is uncertain.
  double share = 0.0;
};

/// Number of runs done and in all. Called from one thread at a time. Must not throw.
using ForecastProgress = std::function<void(double done, double all)>;

/// What is about to be computed.
struct RunsAhead {
  int runs = 0;          // at most
  double seconds = 0.0;  // that they will take, by the clock, from how long the runs before them took
};
/// Told before many runs are begun. Must not throw.
using Announcement = std::function<void(const RunsAhead&)>;

struct EffectOptions {
  int threads = 1;
  /// Relative tolerance of the one-hole runs that measure slopes: they are compared with each other, not
  /// reported.
  double slope_tolerance = 1e-2;
  Announcement announce;  // nothing else depends on it
};

/// Slopes of ln(wear of one hole) for every number whose low and high differ, in the order of
/// for_each_number. The hole is drilled from `condition` (worn heights, damage, what is lost, eroded steel)
/// with random events not drawn, without upsets of one single hole and, but
/// for the probability of a chip, without the time that rods take; `rule` says which wear: the greatest for
/// "worn_height", heat damage for "heat_damage", chip hazard for "chip_probability", otherwise the mean over
/// the outer third of the bit. A number whose effect cannot be told (the bit no longer drills at both ends)
/// has slope 0. Numbers about breakage are first moved all together, to all highs and to all lows, then by
/// halves of those that matter; the slopes of a group that does not matter are 0. Throws what run() throws.
std::vector<NumberEffect> number_effects(const scenario::Scenario& scenario,
                                         const simulation::BitCondition& condition, const std::string& rule,
                                         const EffectOptions& options, const ForecastProgress& progress = {});

/// Names of the numbers whose low and high differ, in the order of for_each_number.
std::vector<std::string> uncertain_numbers(scenario::Scenario scenario);

/// The scenario with each named number moved to its coordinate (see sensible_number_at).
scenario::Scenario with_numbers_at(scenario::Scenario scenario, const std::vector<std::string>& names,
                                   const std::vector<double>& coordinates);

/// A number moved to `coordinate`: -1 is low, 0 central, 1 high; in between and beyond by powers where all
/// three are above 0, by straight lines otherwise.
double number_at(const scenario::Quantity& quantity, double coordinate);
/// The same of the number that for_each_number calls `name`, but never past the range in which it makes
/// sense: beyond that it stands at its low or high.
double sensible_number_at(const std::string& name, const scenario::Quantity& quantity, double coordinate);

/// The rework rule that fell due, or was nearest to; "outer_dull_grade" where there is none.
std::string deciding_rule(const simulation::RunOutcome& run);

}  // namespace dullcast::analysis
