#include "engine/statistics/normal_law.hpp"

#include <boost/math/distributions/normal.hpp>
#include <cmath>

namespace dullcast::statistics {

// Draws must stay what they were to the last bit, or every sweep changes: Boost's quantile does so, and the
// C++ library's erfc, where Boost's own gives another last bit at one place in five.

double standard_normal_quantile(double u) {
  return boost::math::quantile(boost::math::normal(), u);
}

double standard_normal_share(double z) {
  constexpr double root_two = 1.4142135623730951;
  return 0.5 * std::erfc(-z / root_two);
}

}  // namespace dullcast::statistics
