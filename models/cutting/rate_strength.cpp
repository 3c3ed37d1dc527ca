#include "models/cutting/rate_strength.hpp"

#include <algorithm>
#include <cmath>

namespace dullcast::cutting {

double strength_at_speed(const RateLaw& law, double v) {
  return law.exponent == 0.0 ? 1.0
                             : std::pow(std::max(v, least_rate_speed) / law.reference_speed, law.exponent);
}

double strength_at_depth(const RateLaw& law, double h) {
  return law.exponent == 0.0 ? 1.0
                             : std::pow(law.reference_depth / std::max(h, least_rate_depth), law.exponent);
}

}  // namespace dullcast::cutting
