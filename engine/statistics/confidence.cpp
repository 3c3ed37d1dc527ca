#include "engine/statistics/confidence.hpp"

#include <boost/math/distributions/beta.hpp>
#include <boost/math/distributions/normal.hpp>

#include "models/common/domain.hpp"

namespace dullcast::statistics {

void require_confidence(double confidence, const char* function) {
  require_domain(confidence > 0.0 && confidence < 1.0, function, "a confidence lies between 0 and 1",
                 confidence);
}

double two_sided_normal_point(double confidence) {
  require_confidence(confidence, "two_sided_normal_point");
  // The complement keeps its figures where the confidence is close to 1.
  return boost::math::quantile(boost::math::complement(boost::math::normal(), 0.5 * (1.0 - confidence)));
}

Interval probability_interval(long successes, long trials, double confidence) {
  require_confidence(confidence, "chance_interval");
  require_domain(successes >= 0 && successes <= trials, "chance_interval",
                 "successes lie between 0 and trials", static_cast<double>(successes));
  const auto k = static_cast<double>(successes), n = static_cast<double>(trials);
  const double tail = 0.5 * (1.0 - confidence);
  Interval interval{0.0, 1.0};
  using boost::math::beta_distribution;
  if (successes > 0) interval.low = quantile(beta_distribution<>(k, n - k + 1.0), tail);
  if (successes < trials)
    interval.high = quantile(boost::math::complement(beta_distribution<>(k + 1.0, n - k), tail));
  return interval;
}

}  // namespace dullcast::statistics
