#include "engine/analysis/numbers_left.hpp"

#include <algorithm>

#include "engine/statistics/correlated_shares.hpp"

namespace dullcast::analysis {
namespace {

std::vector<double> as_list(const Eigen::VectorXd& vector) {
  return {vector.begin(), vector.end()};
}

}  // namespace

WhatIsLeft what_is_left(const std::vector<NumberEffect>& effects, const scenario::NumbersTogether& together) {
  const auto count = static_cast<Eigen::Index>(effects.size());
  std::vector<std::string> names;
  Eigen::VectorXd slopes(count);
  for (Eigen::Index k = 0; k < count; ++k) {
    names.push_back(effects[static_cast<std::size_t>(k)].name);
    slopes(k) = effects[static_cast<std::size_t>(k)].slope;
  }
  WhatIsLeft left;
  if (count == 0) return left;
  Eigen::VectorXd pull = slopes, weights = slopes.cwiseAbs2();
  if (!together.names.empty()) {
    const Eigen::MatrixXd correlation = scenario::correlation_of(together, names);
    const Eigen::MatrixXd root = statistics::correlation_root(correlation);
    pull = correlation * slopes;
    weights = root.cwiseAbs2() * (root * slopes).cwiseAbs2();
  }
  left.variance = std::max(0.0, slopes.dot(pull));
  left.pull = as_list(pull);
  const double all = weights.sum();
  left.shares = as_list(all > 0.0 ? Eigen::VectorXd(weights / all) : weights);
  return left;
}

void draw_together(std::vector<double>& coordinates, const std::vector<std::string>& names,
                   const scenario::NumbersTogether& together) {
  if (together.names.empty()) return;
  const Eigen::Map<const Eigen::VectorXd> independent(coordinates.data(),
                                                      static_cast<Eigen::Index>(coordinates.size()));
  const Eigen::VectorXd drawn =
      statistics::correlation_root(scenario::correlation_of(together, names)) * independent;
  coordinates = as_list(drawn);
}

}  // namespace dullcast::analysis
