#pragma once

#include <Eigen/Core>
#include <vector>

#include "engine/statistics/resampling.hpp"

namespace dullcast::statistics {

/// What share of the output's variance is a factor's.
struct VarianceShare {
  double alone = 0.0;  // S: gone if the factor were known, on average
  double total = 0.0;  // ST: left if all others were known: with all it does together with others
  Interval alone_range, total_range;
};

struct VarianceShares {
  std::vector<VarianceShare> factors;
  double mean = 0.0, variance = 0.0;  // of the output, over A and B
  long rows = 0, left_out = 0;        // rows used; rows left out for an output that is NaN
};

/// Sobol indices of k factors. `outputs`: n rows of k + 2: at a point A, at an independent point B, and at
/// AB_1
/// .. AB_k, where AB_i is A with factor i taken from B.
///   S_i  = mean(f(B) (f(AB_i) - f(A)))/V    Saltelli et al., Comput. Phys. Commun. 181, 2010 [pub]
///   ST_i = mean((f(A) - f(AB_i))^2)/(2 V)   Jansen, Comput. Phys. Commun. 117, 1999 [pub]
/// with V the variance over all A and B, and f less its mean, which changes no expectation and calms S.
/// Estimates may come out a little below 0 or above 1. Intervals by bootstrap over rows
/// (resampled_intervals), which takes rows for independent: for a low-discrepancy sequence they are wider
/// than need be. An output that never varies has no shares (NaN). Throws std::domain_error for fewer than
/// three columns.
VarianceShares variance_shares(const Eigen::ArrayXXd& outputs, const Resampling& how);

}  // namespace dullcast::statistics
