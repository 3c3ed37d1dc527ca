#pragma once

#include <Eigen/Core>

#include "engine/statistics/confidence.hpp"

namespace dullcast::statistics {

/// How surely one thing rises or falls with another, however curved: 1 or -1 where it always does.
struct RankCorrelation {
  double value = 0.0;  // NaN where one of them never varies, or for fewer than two pairs
  Interval range;      // NaN for fewer than five pairs
  long pairs = 0, left_out = 0;
};

/// Spearman's rank correlation (Am. J. Psychol. 15, 1904 [pub]): the correlation of ranks, ties having their
/// mean rank. Interval tanh(artanh(value) +- z sqrt((1 + value^2/2)/(pairs - 3))): Bonett & Wright,
/// Psychometrika 65, 2000 [pub]; it is approximate, and takes pairs for independent. Pairs with a NaN are
/// left out and counted; infinite values rank last. Throws std::domain_error for arrays of different lengths.
RankCorrelation rank_correlation(const Eigen::ArrayXd& a, const Eigen::ArrayXd& b, double confidence);

}  // namespace dullcast::statistics
