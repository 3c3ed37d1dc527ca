#pragma once

#include <Eigen/Core>
#include <limits>
#include <optional>
#include <vector>

#include "engine/statistics/confidence.hpp"
#include "engine/statistics/quantile_bounds.hpp"

namespace dullcast::analysis {

/// What the runs of a sweep came to, one entry a case; case = point draws + draw, all counted from 0. NaN
/// where the case failed.
struct TradeOffCases {
  long points = 0, draws = 0;
  bool draws_alike = true;  // draw j is the same state of the unknown at every point
  Eigen::ArrayXd cost_per_metre, hottest_flat, expected_chips;
  Eigen::ArrayXd finished;  // 1: all holes, and no rework due
};

/// Limits are probabilities: at least the share `hold` of a point's draws has to keep all that are given.
struct TradeOffLimits {
  double hottest_flat = std::numeric_limits<double>::infinity();    // K
  double expected_chips = std::numeric_limits<double>::infinity();  // 1
  double hold = 0.9;
};

/// A mean over draws and its standard error, NaN for fewer than two draws.
struct DrawnMean {
  double mean = std::numeric_limits<double>::quiet_NaN(), error = std::numeric_limits<double>::quiet_NaN();
  long draws = 0;
};

/// How far the draws are from deciding whether a point keeps the limits.
enum class WithinLimits { yes, likely, unlikely, no };
const char* within_limits_words(WithinLimits within);

/// One design point over its draws.
struct PointMerit {
  long point = 0;  // from 0
  long draws = 0, failed = 0;
  DrawnMean cost, chips;
  statistics::QuantileBounds hot;                               // 90 % of draws stay below it, K
  double finishing = std::numeric_limits<double>::quiet_NaN();  // share of draws
  statistics::Interval finishing_range;
  double keeping = std::numeric_limits<double>::quiet_NaN();  // share of draws that keep the limits
  statistics::Interval keeping_range;
  WithinLimits within = WithinLimits::no;
  DrawnMean over_best;     // cost less the best point's: draw by draw where the draws are alike
  bool like_best = false;  // within the limits and not told apart from the best
  bool on_front =
      false;  // no other point is as good in all of mean cost, `hot` and mean chips and better in one
};

struct TradeOff {
  std::vector<PointMerit> points;  // by point
  std::optional<long> best;        // place in `points`; none where no point keeps the limits
  bool paired = false;             // differences are draw by draw
  bool told_apart = false;         // there are draws enough to tell points apart at all
  double confidence = 0.0;
};

/// Groups cases by point and finds the cheapest point of those that keep the limits by their share of draws
/// (`yes` and `likely`: the interval of the share, Clopper & Pearson, lies wholly or by its estimate above
/// `hold`).
///
/// Which points are like the best: a point is told apart when its mean cost exceeds the best's by more than t
/// standard errors of the difference, t the one-sided point of Student's t at 1 - (1 - confidence)/(m - 1)
/// for the m points within the limits (Bonferroni's correction). Then with `confidence` the point that is
/// truly cheapest is among those like the best (subset selection: Gupta, Technometrics 7, 1965 [pub]). Draws
/// that are alike are compared one by one, so that what they share drops out (common random numbers); others
/// with their own variances and Welch's degrees of freedom (Biometrika 34, 1947 [pub]). With fewer than two
/// draws a point has no error and nothing is told apart.
///
/// Failed cases are left out and counted. Throws std::domain_error for arrays that are not points x draws
/// long and for hold or confidence outside 0..1.
TradeOff trade_off(const TradeOffCases& cases, const TradeOffLimits& limits, double confidence);

/// Mean of the values that are not NaN.
DrawnMean drawn_mean(const Eigen::ArrayXd& values);

/// Half the width of a mean's interval, by Student's t with draws - 1 degrees of freedom (Biometrika 6, 1908
/// [pub]); NaN for fewer than two draws. Throws std::domain_error for a confidence outside 0..1.
double half_width(const DrawnMean& mean, double confidence);

}  // namespace dullcast::analysis
