#include "engine/learning/learned_numbers.hpp"

#include <algorithm>
#include <cmath>

#include "engine/analysis/number_effects.hpp"

namespace dullcast::learning {
namespace {

constexpr double hardly_moved = 0.02;
constexpr double hardly_narrowed = 0.01;

}  // namespace

scenario::Learned learned_numbers(const ShelfFit& fit, int bits) {
  scenario::Learned learned;
  learned.bits = bits;
  const std::string source =
      "fitted to " + std::to_string(bits) + (bits == 1 ? " inspected bit" : " inspected bits");
  std::vector<Eigen::Index> kept;
  for (Eigen::Index k = 0; k < fit.numbers.count(); ++k) {
    const std::string& name = fit.numbers.names[static_cast<std::size_t>(k)];
    const scenario::Quantity& before = fit.numbers.before[static_cast<std::size_t>(k)];
    const double mode = fit.learnt.mode(k), deviation = std::sqrt(fit.learnt.covariance(k, k));
    if (std::abs(mode) < hardly_moved && deviation > 1.0 - hardly_narrowed) continue;
    if (name.find(" (layer ") != std::string::npos) continue;
    const auto at = [&](double y) {
      return analysis::sensible_number_at(name, before, y / ninety_percent_point);
    };
    scenario::Quantity now{at(mode - ninety_percent_point * deviation), at(mode),
                           at(mode + ninety_percent_point * deviation), "fit", source};
    now.low = std::min(now.low, now.central);
    now.high = std::max(now.high, now.central);
    if (name == "abrasion_coefficient") learned.coefficient_factor = now.central / before.central;
    learned.numbers.push_back({name, now});
    kept.push_back(k);
  }
  const auto count = static_cast<Eigen::Index>(kept.size());
  learned.together.correlation = Eigen::MatrixXd::Identity(count, count);
  for (Eigen::Index i = 0; i < count; ++i) {
    const Eigen::Index a = kept[static_cast<std::size_t>(i)];
    learned.together.names.push_back(fit.numbers.names[static_cast<std::size_t>(a)]);
    for (Eigen::Index j = 0; j < count; ++j) {
      const Eigen::Index b = kept[static_cast<std::size_t>(j)];
      if (i == j) continue;
      learned.together.correlation(i, j) =
          fit.learnt.covariance(a, b) / std::sqrt(fit.learnt.covariance(a, a) * fit.learnt.covariance(b, b));
    }
  }
  if (fit.bit_spread > 0.0) {
    const double high = std::exp(ninety_percent_point * fit.bit_spread);
    learned.numbers.push_back({"bit_to_bit_wear", {1.0 / high, 1.0, high, "fit", source}});
  }
  return learned;
}

scenario::Scenario with_learned(scenario::Scenario scenario, const scenario::Learned& learned) {
  scenario::for_each_number(scenario, [&](const std::string& name, scenario::Quantity& quantity) {
    if (!(quantity.low < quantity.high)) return;
    const auto found = std::find_if(learned.numbers.begin(), learned.numbers.end(),
                                    [&](const scenario::LearnedNumber& one) { return one.name == name; });
    if (found != learned.numbers.end()) quantity = found->now;
  });
  scenario.learned = learned;
  return scenario;
}

}  // namespace dullcast::learning
