#include "engine/statistics/lifetime_curve.hpp"

#include <algorithm>
#include <cmath>

#include "engine/statistics/confidence.hpp"
#include "engine/statistics/quantile_bounds.hpp"
#include "models/common/domain.hpp"

namespace dullcast::statistics {
namespace {

constexpr double infinity = std::numeric_limits<double>::infinity();

/// Products of 1 - ended/at_risk miss a share such as 0.9 by rounding alone: below this it counts as met.
constexpr double rounding = 1e-12;

void set_limits(CurveStep& step, double greenwood, double z) {
  step.variance = step.survival * step.survival * greenwood;
  const double spread = z * std::sqrt(greenwood) / std::abs(std::log(step.survival));
  step.low = std::pow(step.survival, std::exp(spread));
  step.high = std::pow(step.survival, std::exp(-spread));
}

}  // namespace

LifetimeCurve lifetime_curve(std::vector<Life> lives, double confidence) {
  require_confidence(confidence, "lifetime_curve");
  for (const Life& life : lives)
    require_domain(life.length >= 0.0 && life.length < infinity, "lifetime_curve",
                   "a life is finite and not below 0", life.length);
  std::sort(lives.begin(), lives.end(), [](const Life& a, const Life& b) { return a.length < b.length; });
  LifetimeCurve curve;
  curve.confidence = confidence;
  curve.lives = static_cast<long>(lives.size());
  curve.seen_to = lives.empty() ? 0.0 : lives.back().length;
  const double z = two_sided_normal_point(confidence);
  double survival = 1.0, greenwood = 0.0, high = 1.0;
  for (std::size_t first = 0; first < lives.size();) {
    std::size_t next = first;
    CurveStep step;
    step.length = lives[first].length;
    for (; next < lives.size() && lives[next].length == step.length; ++next) {
      if (lives[next].ended) ++step.ended;
    }
    step.at_risk = static_cast<long>(lives.size() - first);
    curve.censored += static_cast<long>(next - first) - step.ended;
    first = next;
    if (step.ended == 0) continue;
    const auto at_risk = static_cast<double>(step.at_risk), ended = static_cast<double>(step.ended);
    if (step.ended == step.at_risk) {
      step.survival = survival = 0.0;
      step.low = 0.0;
      step.high = high;
    } else {
      step.survival = survival *= (at_risk - ended) / at_risk;
      greenwood += ended / (at_risk * (at_risk - ended));
      set_limits(step, greenwood, z);
      high = step.high;
    }
    curve.steps.push_back(step);
  }
  return curve;
}

double survival_at(const LifetimeCurve& curve, double length) {
  double survival = 1.0;
  for (const CurveStep& step : curve.steps) {
    if (step.length > length) break;
    survival = step.survival;
  }
  const bool told = length <= curve.seen_to || survival == 0.0;
  return told ? survival : std::numeric_limits<double>::quiet_NaN();
}

LifeQuantile curve_quantile(const LifetimeCurve& curve, double share) {
  const QuantileRanks possible = quantile_ranks(curve.lives, share, curve.confidence);
  LifeQuantile quantile;
  quantile.share = share;
  quantile.confidence = curve.confidence;
  quantile.lives = curve.lives;
  quantile.censored = curve.censored;
  const double left = (1.0 - share) * (1.0 + rounding);
  const auto first = [&](double CurveStep::*value) {
    for (const CurveStep& step : curve.steps) {
      if (step.*value <= left) return step.length;
    }
    return infinity;
  };
  quantile.length = first(&CurveStep::survival);
  // Where the lower limit stays above, the last length at which lives ended is still not the one looked for.
  if (possible.low > 0) quantile.low = first(&CurveStep::low);
  if (possible.low > 0 && quantile.low == infinity)
    quantile.low = curve.steps.empty() ? 0.0 : curve.steps.back().length;
  if (possible.high > 0) quantile.high = first(&CurveStep::high);
  return quantile;
}

LifeQuantile life_quantile(const std::vector<Life>& lives, double share, double confidence) {
  const LifetimeCurve curve = lifetime_curve(lives, confidence);
  LifeQuantile quantile = curve_quantile(curve, share);
  double first_censored = infinity;
  for (const Life& life : lives) {
    if (!life.ended) first_censored = std::min(first_censored, life.length);
  }
  Eigen::ArrayXd watched(static_cast<Eigen::Index>(lives.size())), ordered(watched.size());
  for (std::size_t k = 0; k < lives.size(); ++k) {
    const auto place = static_cast<Eigen::Index>(k);
    watched(place) = lives[k].length;
    // Lives up to the first censored one are in their true order; of the rest it is known that they are
    // longer.
    ordered(place) = lives[k].ended && lives[k].length <= first_censored ? lives[k].length : infinity;
  }
  const QuantileBounds exact = quantile_bounds(ordered, share, confidence);
  const bool high_known = exact.high <= first_censored || !quantile.bounded_above();
  if (exact.low <= first_censored && exact.value <= first_censored && high_known) {
    quantile.length = exact.value;
    quantile.low = std::max(exact.low, 0.0);
    quantile.high = exact.high;
    return quantile;
  }
  // No life is shorter than it was watched, so ranks of the lengths watched bound from below too, and the
  // last of the curve's steps is no bound worth having where few lives ended.
  if (curve.steps.empty() || curve.steps.back().low > 1.0 - share)
    quantile.low = std::max(quantile.low, quantile_bounds(watched, share, confidence).low);
  return quantile;
}

}  // namespace dullcast::statistics
