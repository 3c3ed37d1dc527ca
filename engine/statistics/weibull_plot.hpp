#pragma once

#include <optional>
#include <vector>

#include "engine/statistics/confidence.hpp"
#include "engine/statistics/lifetime_curve.hpp"

namespace dullcast::statistics {

/// Share surviving to t: exp(-(t/scale)^modulus). A modulus above 1 is wear-out, 1 is chance alone, below 1
/// is early failure.
struct WeibullFit {
  double modulus = 0.0, scale = 0.0;  // 1; in the lives' unit: 63.2 % have ended by it
  Interval modulus_range, scale_range;
  long lives = 0, censored = 0;
};

/// Greatest likelihood of modulus k and scale c over lives censored on the right:
///   sum t^k ln t/sum t^k - 1/k - mean of ln t over the lives that ended = 0,   c^k = sum t^k/ended
/// [hb: Lawless, Statistical Models and Methods for Lifetime Data, 2003, 5.2]. Intervals are normal in ln k
/// and ln c, by the observed Fisher information (the second derivatives of ln likelihood in them, there). The
/// modulus comes out too high from few lives: by 1.4/ended or so (Thoman, Bain & Antle, Technometrics 11,
/// 1969 [pub], from memory). Nothing where fewer than two different lengths ended, or where one has length 0.
/// Throws std::domain_error for a length that is not finite and >= 0 and for a confidence outside 0..1.
std::optional<WeibullFit> fit_weibull(const std::vector<Life>& lives, double confidence);

/// A point of the plot of ln(-ln(1 - share)) against ln(length), in which a Weibull law is straight.
struct WeibullPoint {
  double length = 0.0;
  double share = 0.0;  // of lives that have ended by it: median rank
};

/// Median ranks of the lives that ended, in order: (i - 0.3)/(n + 0.4) (Benard & Bos-Levenbach, Statistica
/// Neerlandica 7, 1953 [pub]). Censored lives push the ranks behind them: the step of i becomes
/// (n + 1 - i)/(1 + lives from here on) (Johnson, The Statistical Treatment of Fatigue Experiments, 1964
/// [hb]). At one length those that ended come before those that did not.
std::vector<WeibullPoint> weibull_points(std::vector<Life> lives);

}  // namespace dullcast::statistics
