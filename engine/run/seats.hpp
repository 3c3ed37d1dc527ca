#pragma once

#include <Eigen/Core>

#include "engine/run/drilling_system.hpp"
#include "engine/scenario/scenario.hpp"

namespace dullcast {

/// Load over median strength of all that lets go at once: 1 breaks the median one.
struct SeatLoads {
  Eigen::ArrayXd pocket, bond;  // one per cutter
  Eigen::ArrayXd blade;         // one per blade
};

/// How strong each is over the median of its kind: 1, or drawn.
struct SeatStrengths {
  Eigen::ArrayXd pocket, bond, blade;
};

/// Loads at the last evaluation of `system`, which evaluated x. Peak forces: cutting at the overload of a
/// rough bottom, and the blow of an inclusion where the rock holds some. Fills `loads` in place.
void seat_loads(const DrillingSystem& system, const State& x, SeatLoads& loads);

/// The most stressed one against its strength: what lets go first.
struct WeakestSeat {
  enum class Part { pocket, bond, blade } part = Part::pocket;
  double used = 0.0;  // load over its own strength; 1 lets go
  Eigen::Index number = 0;
};
/// Cutters that are gone, and bonds of tables that are gone (1), no longer count.
WeakestSeat weakest_seat(const SeatLoads& loads, const SeatStrengths& strengths, const Eigen::ArrayXi& lost,
                         const Eigen::ArrayXi& table_gone);

/// Strengths of a bit: all 1 when chance is carried as probabilities; otherwise exp(spread z) with standard
/// normal z drawn from (seed, kind and number), so that a bit's strengths do not depend on what it drills.
SeatStrengths seat_strengths(const Scenario& scenario, const BitModels& models);

/// Hazard that an edge bears until it chips for the k-th time since it started: drawn from the unit
/// exponential law, so that chips come at the rate of the hazard.
double chip_allowance(const Chance& chance, Eigen::Index cutter, int chip);

}  // namespace dullcast
