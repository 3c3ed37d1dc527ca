#pragma once

#include <Eigen/Core>
#include <limits>

#include "engine/statistics/confidence.hpp"

namespace dullcast::statistics {

/// Which of n sorted draws bound a quantile, counted from 1; 0 where the draws are too few for that side.
struct QuantileRanks {
  long low = 0, high = 0;
  double coverage = 0.0;  // chance that both bounds hold, with a side that is 0 left open
};

/// Ranks of the order statistics that bound the quantile `share` of any distribution on both sides: with
/// B ~ binomial(n, share), low is the greatest r with P(B < r) <= a/2, high the smallest s with
/// P(B >= s) <= a/2, a = 1 - confidence; they cover with P(r <= B < s) >= confidence where both exist [hb:
/// David & Nagaraja, Order Statistics, 2003, 7.1]. Independent draws; draws spread more evenly than by chance
/// (Latin hypercube, Sobol sequence) make the bounds wider than they need be. Throws std::domain_error unless
/// n >= 0 and share and confidence lie between 0 and 1.
QuantileRanks quantile_ranks(long n, double share, double confidence);

/// Fewest draws of which the greatest lies above the quantile `share` with `confidence`: the least n with
/// 1 - share^n >= confidence. Wilks, Ann. Math. Statist. 12, 1941 [pub]: 59 for 0.95 with 0.95.
long draws_for_upper_bound(double share, double confidence);
/// Fewest draws that bound the quantile on both sides with `confidence`, each side having half of the rest.
long draws_for_both_bounds(double share, double confidence);

/// A quantile with what the draws say about it.
struct QuantileBounds {
  double share = 0.0;
  double value = std::numeric_limits<double>::quiet_NaN();  // the least draw that `share` of all reach
  double low = -std::numeric_limits<double>::infinity();    // -infinity and infinity: too few draws to say
  double high = std::numeric_limits<double>::infinity();
  double confidence = 0.0;
  long draws = 0;
  bool enough() const {
    return low > -std::numeric_limits<double>::infinity() && high < std::numeric_limits<double>::infinity();
  }
};

/// Bounds by order statistics. NaN draws are left out (and not counted in `draws`); infinite ones stay: "not
/// reached". Without draws the value is NaN.
QuantileBounds quantile_bounds(const Eigen::ArrayXd& draws, double share, double confidence);

/// The rank, from 1 to `count` (1 or more), of the least of `count` values in order that the share of all
/// reach. A share that is a whole number of values but for rounding is that number: 0.1 of 30 is 3.
long rank_that_reaches(double share, long count);

}  // namespace dullcast::statistics
