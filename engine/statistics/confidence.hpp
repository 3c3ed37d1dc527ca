#pragma once

#include <limits>

namespace dullcast::statistics {

/// Between which values something lies, with a confidence that is told beside it. Infinite, or NaN, where the
/// draws are too few for a bound.
struct Interval {
  double low = std::numeric_limits<double>::quiet_NaN(), high = std::numeric_limits<double>::quiet_NaN();
};

/// Throws std::domain_error unless 0 < confidence < 1.
void require_confidence(double confidence, const char* function);

/// The point of a standard normal variable that bounds it on both sides with `confidence`: 1.96 for 0.95.
double two_sided_normal_point(double confidence);

/// Interval of a chance of which `successes` were seen in `trials` independent draws: exact, it covers with
/// at least `confidence`. Clopper & Pearson, Biometrika 26, 1934 [pub]: quantiles of beta variables, low =
/// B(a/2; k, n - k + 1), high = B(1 - a/2; k + 1, n - k), a = 1 - confidence. Without trials 0..1. Throws
/// std::domain_error unless 0 <= successes <= trials and 0 < confidence < 1.
Interval probability_interval(long successes, long trials, double confidence);

}  // namespace dullcast::statistics
