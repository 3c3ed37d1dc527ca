#include "engine/statistics/rate_comparison.hpp"

#include <boost/math/special_functions/beta.hpp>
#include <boost/math/special_functions/gamma.hpp>
#include <cmath>

#include "models/common/domain.hpp"

namespace dullcast::statistics {
namespace {

void check(const CountedRate& counted, const char* function) {
  require_domain(counted.seen >= 0, function, "a count is 0 or more", static_cast<double>(counted.seen));
  require_domain(counted.expected > 0.0 && std::isfinite(counted.expected), function,
                 "what is expected of a count is above 0", counted.expected);
}

double shape_of(const CountedRate& counted) {
  return static_cast<double>(counted.seen) + 0.5;
}

}  // namespace

Interval poisson_mean_interval(long seen, double confidence) {
  require_confidence(confidence, "poisson_mean_interval");
  require_domain(seen >= 0, "poisson_mean_interval", "a count is 0 or more", static_cast<double>(seen));
  const double half = 0.5 * (1.0 - confidence), n = static_cast<double>(seen);
  // Half a chi-squared variable of 2n degrees of freedom is a gamma variable of shape n.
  return {seen == 0 ? 0.0 : boost::math::gamma_p_inv(n, half), boost::math::gamma_q_inv(n + 1.0, half)};
}

double chance_of_greater_rate(const CountedRate& one, const CountedRate& other) {
  check(one, "chance_of_greater_rate");
  check(other, "chance_of_greater_rate");
  return boost::math::ibetac(shape_of(one), shape_of(other), one.expected / (one.expected + other.expected));
}

double middle_rate(const CountedRate& counted) {
  check(counted, "middle_rate");
  return boost::math::gamma_p_inv(shape_of(counted), 0.5) / counted.expected;
}

}  // namespace dullcast::statistics
