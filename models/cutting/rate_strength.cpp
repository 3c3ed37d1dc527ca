#include "models/cutting/rate_strength.hpp"

#include <algorithm>
#include <cmath>

#include "models/common/constants.hpp"
#include "models/common/wide_functions.hpp"

namespace dullcast::cutting {

double strength_at_speed(const RateLaw& law, double v) {
  return law.exponent == 0.0 ? 1.0
                             : std::pow(std::max(v, least_rate_speed) / law.reference_speed, law.exponent);
}

const Eigen::ArrayXd& SpeedStrengths::of(const RateLaw& law, double rotary_speed,
                                         const Eigen::ArrayXd& radius) {
  if (law == law_ && rotary_speed == rotary_speed_ && radius.size() == radius_.size() &&
      (radius == radius_).all())
    return strength_;
  law_ = law;
  rotary_speed_ = rotary_speed;
  radius_ = radius;
  strength_.resize(radius.size());
  for (Eigen::Index i = 0; i < radius.size(); ++i)
    strength_(i) = strength_at_speed(law, two_pi * rotary_speed * radius(i));
  return strength_;
}

double strength_at_depth(const RateLaw& law, double h) {
  return law.exponent == 0.0 ? 1.0
                             : wide_pow(law.reference_depth / std::max(h, least_rate_depth), law.exponent);
}

}  // namespace dullcast::cutting
