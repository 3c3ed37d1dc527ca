#pragma once

#include "engine/scenario/scenario.hpp"
#include "engine/simulation/drilling_system.hpp"

namespace dullcast::simulation {

/// Loads of pockets, bonds and blades at the last evaluation of `system`, which evaluated x. Fills `loads` in
/// place.
void retention_loads(const DrillingSystem& system, const State& x, failure::RetentionLoads& loads);

/// Strengths of a bit: all 1 when chance is carried as probabilities; otherwise exp(spread z) with standard
/// normal z drawn from (seed, kind and number), so that a bit's strengths do not depend on what it drills.
failure::RetentionStrengths retention_strengths(const scenario::RandomEvents& random_events,
                                                const failure::CutterRetention& retention);

/// Hazard that an edge bears until it chips for the k-th time since it started: drawn from the unit
/// exponential law, so that chips come at the rate of the hazard. That law forgets: an edge that has not
/// chipped yet draws anew in each run (earlier_runs), and over several runs still chips at that rate.
double chip_allowance(const scenario::RandomEvents& random_events, Eigen::Index cutter, int chip);

}  // namespace dullcast::simulation
