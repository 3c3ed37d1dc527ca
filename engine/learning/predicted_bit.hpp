#pragma once

#include <Eigen/Core>

#include "engine/scenario/scenario.hpp"

namespace dullcast::learning {

/// What is predicted of each cutter, as logarithms: columns of PredictedBit::logs.
enum Trace : Eigen::Index {
  wear_gain,    // m of worn height that the run adds
  chip_hazard,  // 1, chips expected of the edge in this run
  heat_damage,  // 1 at the end; 1 = ruined table
  pocket_load,  // 1, greatest load over the median strength of its pocket
  bond_load,    // 1, and of its bond
  trace_count
};

/// A bit as a run without chance says it comes back. Wear and hazards grow by powers of the numbers that
/// decide them, so logarithms are what is nearly linear in these.
struct PredictedBit {
  Eigen::ArrayXXd logs;          // one row a cutter, one column a Trace; none below log_of_nothing
  Eigen::ArrayXd starting_wear;  // m
  Eigen::ArrayXd usable_height;  // m, of the dull grade
  Eigen::ArrayXd radius;         // m
  double bit_radius = 0.0;       // m
  double strength_spread = 0.0;  // 1, of ln(strength) of pockets and bonds
  double drilled_share = 1.0;    // 1, of the run's footage that the model drilled before it stopped
  Eigen::ArrayXd worn_height() const { return starting_wear + logs.col(wear_gain).exp(); }
};

/// ln of what counts as none.
inline constexpr double log_of_nothing = -27.6;  // 1e-12

/// Drills the run and reads the bit off its end, or off where it is worn past repair. Chance is not drawn,
/// whatever the scenario says. Throws what
/// simulation::run throws.
PredictedBit predict(const scenario::Scenario& run);

}  // namespace dullcast::learning
