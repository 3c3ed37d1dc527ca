#include "engine/statistics/quantile_bounds.hpp"

#include <algorithm>
#include <boost/math/distributions/binomial.hpp>
#include <cmath>
#include <vector>

#include "models/common/domain.hpp"

namespace dullcast::statistics {
namespace {

void require_share(double share, const char* function) {
  require_domain(share > 0.0 && share < 1.0, function, "a quantile's share lies between 0 and 1", share);
}

/// P(B < r) for r = 0..n + 1.
double chance_below(const boost::math::binomial& B, long r) {
  return r <= 0 ? 0.0 : cdf(B, static_cast<double>(r - 1));
}

double chance_from(const boost::math::binomial& B, long r) {
  return r <= 0 ? 1.0 : cdf(complement(B, static_cast<double>(r - 1)));
}

/// The least of `least`..`most` for which `holds`, which stays true once it is; most + 1 for none.
template <class Holds>
long first_that(long least, long most, Holds&& holds) {
  long end = most + 1;
  while (least < end) {
    const long middle = least + (end - least) / 2;
    if (holds(middle)) {
      end = middle;
    } else {
      least = middle + 1;
    }
  }
  return end;
}

}  // namespace

QuantileRanks quantile_ranks(long n, double share, double confidence) {
  require_confidence(confidence, "quantile_ranks");
  require_share(share, "quantile_ranks");
  require_domain(n >= 0, "quantile_ranks", "a number of draws is not below 0", static_cast<double>(n));
  QuantileRanks ranks;
  if (n == 0) {
    ranks.coverage = 1.0;
    return ranks;
  }
  const double tail = 0.5 * (1.0 - confidence);
  const boost::math::binomial B(static_cast<double>(n), share);
  ranks.low = first_that(1, n, [&](long r) { return !(chance_below(B, r) <= tail); }) - 1;
  ranks.high = first_that(1, n, [&](long s) { return chance_from(B, s) <= tail; });
  if (ranks.high > n) ranks.high = 0;
  ranks.coverage = 1.0 - chance_below(B, ranks.low) - (ranks.high == 0 ? 0.0 : chance_from(B, ranks.high));
  return ranks;
}

long draws_for_upper_bound(double share, double confidence) {
  require_confidence(confidence, "draws_for_upper_bound");
  require_share(share, "draws_for_upper_bound");
  // Logarithms give the number but for rounding at a whole one.
  long n = std::max(1L, static_cast<long>(std::log1p(-confidence) / std::log(share)) - 1);
  while (1.0 - std::pow(share, static_cast<double>(n)) < confidence) ++n;
  return n;
}

long draws_for_both_bounds(double share, double confidence) {
  const double each = 0.5 * (1.0 + confidence);
  return std::max(draws_for_upper_bound(share, each), draws_for_upper_bound(1.0 - share, each));
}

long rank_that_reaches(double share, long count) {
  const double reached = std::ceil(share * static_cast<double>(count) * (1.0 - 1e-12));
  return std::clamp(static_cast<long>(reached), 1L, count);
}

QuantileBounds quantile_bounds(const Eigen::ArrayXd& draws, double share, double confidence) {
  std::vector<double> sorted;
  sorted.reserve(static_cast<std::size_t>(draws.size()));
  for (const double draw : draws) {
    if (!std::isnan(draw)) sorted.push_back(draw);
  }
  std::sort(sorted.begin(), sorted.end());
  QuantileBounds bounds;
  bounds.share = share;
  bounds.confidence = confidence;
  bounds.draws = static_cast<long>(sorted.size());
  const QuantileRanks ranks = quantile_ranks(bounds.draws, share, confidence);
  if (sorted.empty()) return bounds;
  const auto draw = [&](long rank) { return sorted[static_cast<std::size_t>(rank - 1)]; };
  bounds.value = draw(rank_that_reaches(share, bounds.draws));
  if (ranks.low > 0) bounds.low = draw(ranks.low);
  if (ranks.high > 0) bounds.high = draw(ranks.high);
  return bounds;
}

}  // namespace dullcast::statistics
