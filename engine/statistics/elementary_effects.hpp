#pragma once

#include <Eigen/Core>
#include <vector>

#include "engine/statistics/resampling.hpp"

namespace dullcast::statistics {

/// What one factor does by itself, over all of its range and wherever the others stand. In the output's unit
/// per whole range of the factor.
struct ElementaryEffect {
  double mean = 0.0;       // mu: with its sign
  double mean_size = 0.0;  // mu*: of the sizes, so that rises and falls do not cancel
  double spread = 0.0;     // sigma: the effect is not the same everywhere (curved, or with other factors)
  Interval mean_size_range;
};

struct ElementaryEffects {
  std::vector<ElementaryEffect> factors;
  long trajectories = 0, left_out = 0;  // used; left out for an output that is NaN
};

/// Elementary effects of k factors from trajectories of k + 1 points each, every step of which moves one
/// factor: effect = (y(next) - y(point))/(coordinate(next) - coordinate(point)); mean, mean size and sample
/// standard deviation over the trajectories. Morris, Technometrics 33, 1991 [pub]; mu* from Campolongo,
/// Cariboni & Saltelli, Environ. Model. Softw. 22, 2007 [pub]. Intervals of mu* by bootstrap over
/// trajectories (resampled_intervals). `outputs`: trajectories (k + 1), trajectory after trajectory;
/// `coordinates`: as many rows, k columns, in the unit cube. Which factor moved and by how much is read from
/// the coordinates. One trajectory gives no spread (NaN). Throws std::domain_error for shapes that do not
/// fit, for a step that moves no factor or more than one, and for a trajectory that moves a factor twice.
ElementaryEffects elementary_effects(const Eigen::ArrayXd& outputs, const Eigen::ArrayXXd& coordinates,
                                     const Resampling& how);

}  // namespace dullcast::statistics
