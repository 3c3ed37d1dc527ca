#pragma once

#include <Eigen/Core>
#include <optional>

#include "engine/sweep/sobol_points.hpp"
#include "engine/sweep/sweep_plan.hpp"

namespace dullcast::sweep {

/// Points of the unit cube by their number, each computed by itself: no order, no memory, the same on any
/// machine. Axes are numbered 0..axes-1; coordinates lie in [0, 1).
///
/// The designs are our own because of that. A case is made by its number alone, on whichever thread or rank
/// it falls to, in whatever order, after a stop or by itself again; libraries for designs of experiments hand
/// out a whole table, or one point after another from a generator with a state. A table would be drawn up
/// anew by every rank, in the memory of every rank; and one made with std:: distributions, whose algorithms
/// the standard leaves open, would not be the same everywhere. What a library does give by number is taken
/// from it: Sobol's direction numbers and skipping ahead in his sequence are Boost's.
class Design {
 public:
  /// Throws std::domain_error when the design cannot have that many axes.
  Design(const SweepPlan& plan, int axes);

  long points() const { return points_; }
  int axes() const { return axes_; }

  /// The point with number p, 0 <= p < points(). Throws std::domain_error outside.
  ///
  /// grid: every combination of the factors' levels, the last factor fastest, at the middle of each level's
  /// share of the axis. table: the row's number. latin_hypercube: one point in each of n equal slices of
  /// every axis, at a random place in it; the orders of the axes are independent (McKay, Beckman & Conover,
  /// Technometrics 21, 1979 [pub]). sobol_sequence: Sobol's points with the direction numbers of Joe & Kuo
  /// (SIAM J. Sci. Comput. 30, 2008 [pub]) as Boost.Random has them, shifted digit by digit by one random
  /// number an axis, which keeps them evenly spread and makes them unbiased. elementary_effects: trajectories
  /// of axes + 1 points on a grid of `levels`, each step moving one axis by half the levels, axes in random
  /// order (Morris, Technometrics 33, 1991 [pub]); levels lie at the middle of their share of the axis, 1/2 a
  /// step, so that a distribution without ends has a value at all of them. variance_shares: blocks of axes +
  /// 2 points: A, B, and A with one axis taken from B, for each axis (Saltelli et al., Comput. Phys. Commun.
  /// 181, 2010 [pub]); A and B are the halves of a Sobol point of twice the axes.
  Eigen::ArrayXd point(long p) const;

 private:
  Eigen::ArrayXd grid_point(long p) const;
  Eigen::ArrayXd latin_point(long p) const;
  Eigen::ArrayXd trajectory_point(long p) const;
  Eigen::ArrayXd shares_point(long p) const;

  DesignKind kind_;
  int axes_;
  std::uint64_t seed_;
  long points_ = 1, base_ = 1;
  int levels_ = 4;
  std::vector<std::size_t> grid_;
  std::optional<SobolPoints> sobol_;
};

}  // namespace dullcast::sweep
