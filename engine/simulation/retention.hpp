#pragma once

#include <Eigen/Core>

#include "engine/scenario/scenario.hpp"
#include "engine/simulation/drilling_system.hpp"

namespace dullcast::simulation {

/// Load over median strength of all that lets go at once: 1 breaks the median one.
struct RetentionLoads {
  Eigen::ArrayXd pocket, bond;  // one per cutter
  Eigen::ArrayXd blade;         // one per blade
};

/// How strong each is over the median of its kind: 1, or drawn.
struct RetentionStrengths {
  Eigen::ArrayXd pocket, bond, blade;
};

/// Loads at the last evaluation of `system`, which evaluated x. Peak forces: cutting at the overload of a
/// rough bottom, and the blow of an inclusion where the rock holds some. Fills `loads` in place.
void retention_loads(const DrillingSystem& system, const State& x, RetentionLoads& loads);

/// The most stressed one against its strength: what lets go first.
struct WeakestLink {
  enum class Part { pocket, bond, blade } part = Part::pocket;
  double used = 0.0;  // load over its own strength; 1 lets go
  Eigen::Index number = 0;
};
/// Cutters that are gone, and bonds of tables that are gone (1), no longer count.
WeakestLink weakest_link(const RetentionLoads& loads, const RetentionStrengths& strengths,
                         const Eigen::ArrayXi& lost, const Eigen::ArrayXi& table_gone);

/// Strengths of a bit: all 1 when chance is carried as probabilities; otherwise exp(spread z) with standard
/// normal z drawn from (seed, kind and number), so that a bit's strengths do not depend on what it drills.
RetentionStrengths retention_strengths(const scenario::Scenario& scenario, const BitModels& models);

/// Hazard that an edge bears until it chips for the k-th time since it started: drawn from the unit
/// exponential law, so that chips come at the rate of the hazard.
double chip_allowance(const scenario::RandomEvents& chance, Eigen::Index cutter, int chip);

}  // namespace dullcast::simulation
