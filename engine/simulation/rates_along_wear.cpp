#include "engine/simulation/rates_along_wear.hpp"

#include <algorithm>

namespace dullcast::simulation {

double wear_bends(const Eigen::Ref<const Eigen::ArrayXd>& before,
                  const Eigen::Ref<const Eigen::ArrayXd>& after) {
  const double all = before.square().sum();
  return all > 0.0 ? std::clamp((before * (after - before)).sum() / all, -1.0, 1.0) : 0.0;
}

double count_of_far_end(double bends) {
  // The series of (e^b - 1 - b)/b^2, 1/2 + b/6 + b^2/24 and so on: past the last digit by then for |b| <= 1.
  constexpr int terms = 18;
  double term = 0.5, sum = term;
  for (int k = 3; k < terms; ++k) sum += term *= bends / k;
  return sum;
}

}  // namespace dullcast::simulation
