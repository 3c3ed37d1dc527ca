#include "engine/learning/what_was_told.hpp"

#include <algorithm>
#include <cmath>

#include "engine/analysis/number_effects.hpp"

namespace dullcast::learning {
namespace {

constexpr double a_tenth = 0.1;
constexpr double closely = 0.6;

bool asked_for(const std::string& name) {
  for (const char* own : {"abrasion_coefficient", "abrasivity_exponent", "cutting_wear_share",
                          "acceleration_temperature", "acceleration_scale", "roughness_impacts"})
    if (name == own) return true;
  return name.ends_with(": cerchar_abrasivity") || name.ends_with(": edge_share");
}

}  // namespace

WhatWasTold what_was_told(const ShelfFit& fit) {
  WhatWasTold result;
  std::vector<Eigen::Index> told;
  for (Eigen::Index k = 0; k < fit.numbers.count(); ++k) {
    const auto index = static_cast<std::size_t>(k);
    NumberTold number;
    number.name = fit.numbers.names[index];
    number.before = fit.numbers.before[index];
    number.left = std::sqrt(fit.learnt.covariance(k, k));
    number.moved = fit.learnt.mode(k);
    const auto at = [&](double y) {
      return analysis::sensible_number_at(number.name, number.before, y / ninety_percent_point);
    };
    number.now = {at(number.moved - ninety_percent_point * number.left), at(number.moved),
                  at(number.moved + ninety_percent_point * number.left), "fit", ""};
    if (number.left < 1.0 - a_tenth || std::abs(number.moved) > a_tenth) {
      result.told.push_back(number);
      told.push_back(k);
    } else if (asked_for(number.name)) {
      result.not_told.push_back(number);
    }
  }
  for (std::size_t i = 0; i < told.size(); ++i) {
    for (std::size_t j = 0; j < i; ++j) {
      const double correlation =
          fit.learnt.covariance(told[i], told[j]) /
          std::sqrt(fit.learnt.covariance(told[i], told[i]) * fit.learnt.covariance(told[j], told[j]));
      if (std::abs(correlation) >= closely)
        result.together.push_back({result.told[j].name, result.told[i].name, correlation});
    }
  }
  std::stable_sort(result.told.begin(), result.told.end(),
                   [](const NumberTold& a, const NumberTold& b) { return a.left < b.left; });
  std::stable_sort(result.together.begin(), result.together.end(),
                   [](const ToldTogether& a, const ToldTogether& b) {
                     return std::abs(a.correlation) > std::abs(b.correlation);
                   });
  return result;
}

}  // namespace dullcast::learning
