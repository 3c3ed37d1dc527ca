#pragma once

#include <Eigen/Core>
#include <cstdint>
#include <vector>

namespace dullcast::sweep {

/// Sobol's points of so many axes, shifted digit by digit, each by its number. Which numbers stand behind
/// them is said at Design::point.
///
/// Point p is the sum without carry of one direction number for each 1 in the Gray code of p (Antonov &
/// Saleev, USSR Comput. Math. Math. Phys. 19, 1979 [pub]). Boost's sequence is asked for each direction
/// number once, as the point whose Gray code has a single 1: setting up its engine for every point anew costs
/// some hundred times what a point does.
class SobolPoints {
 public:
  /// For points 0 .. count - 1. Throws std::domain_error for more axes than direction numbers are tabled for.
  SobolPoints(int axes, std::uint64_t count, std::uint64_t seed);

  /// Coordinates in (0, 1). p < count.
  Eigen::ArrayXd point(std::uint64_t p) const;

 private:
  std::size_t axes_;
  std::vector<std::uint64_t> shift_;       // one an axis
  std::vector<std::uint64_t> directions_;  // one an axis for every digit of a number, the last digit first
};

/// Greatest number of axes of a Sobol sequence that direction numbers are tabled for.
int most_sobol_axes();

}  // namespace dullcast::sweep
