#pragma once

#include <Eigen/Core>
#include <cstdint>
#include <functional>
#include <vector>

#include "engine/statistics/confidence.hpp"

namespace dullcast::statistics {

struct Resampling {
  std::uint64_t seed = 1;  // of the bootstrap only; the same seed gives the same intervals on any machine
  int resamples = 1000;
  double confidence = 0.95;
};

/// Bootstrap intervals of several statistics at once: `statistics` is given which of the `rows` are in a
/// resample (with repeats, as many as there are rows) and returns its values; each value's interval lies
/// between the (1 - confidence)/2 and (1 + confidence)/2 quantiles of the resamples (percentile interval:
/// Efron & Tibshirani, An Introduction to the Bootstrap, 1993, ch. 13 [pub]). Resamples are drawn by
/// uniform_at(seed, resample, place). A statistic that is NaN in any resample has no interval (NaN), and with
/// fewer than two rows none has. With few rows (under some 20) such intervals are too narrow.
/// Throws std::domain_error unless 0 < confidence < 1 and there are enough resamples for its tails.
std::vector<Interval> resampled_intervals(
    long rows, const Resampling& how,
    const std::function<Eigen::ArrayXd(const std::vector<long>&)>& statistics);

}  // namespace dullcast::statistics
