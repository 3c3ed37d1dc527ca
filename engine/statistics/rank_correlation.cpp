#include "engine/statistics/rank_correlation.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>
#include <vector>

#include "models/common/domain.hpp"

namespace dullcast::statistics {
namespace {

/// Ranks from 1, less their mean; ties have the mean of their ranks.
Eigen::ArrayXd centred_ranks(const std::vector<double>& values) {
  std::vector<std::size_t> order(values.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return values[a] < values[b]; });
  Eigen::ArrayXd ranks(static_cast<Eigen::Index>(values.size()));
  for (std::size_t first = 0; first < order.size();) {
    std::size_t next = first;
    while (next < order.size() && values[order[next]] == values[order[first]]) ++next;
    const double rank = 0.5 * static_cast<double>(first + 1 + next);
    for (; first < next; ++first) ranks(static_cast<Eigen::Index>(order[first])) = rank;
  }
  return ranks - 0.5 * static_cast<double>(values.size() + 1);
}

}  // namespace

RankCorrelation rank_correlation(const Eigen::ArrayXd& a, const Eigen::ArrayXd& b, double confidence) {
  require_domain(a.size() == b.size(), "rank_correlation", "both are as long", static_cast<double>(b.size()));
  const double z = two_sided_normal_point(confidence);
  std::vector<double> mine, its;
  for (Eigen::Index k = 0; k < a.size(); ++k) {
    if (std::isnan(a(k)) || std::isnan(b(k))) continue;
    mine.push_back(a(k));
    its.push_back(b(k));
  }
  RankCorrelation result;
  result.pairs = static_cast<long>(mine.size());
  result.left_out = static_cast<long>(a.size()) - result.pairs;
  result.value = std::numeric_limits<double>::quiet_NaN();
  if (result.pairs < 2) return result;
  const Eigen::ArrayXd x = centred_ranks(mine), y = centred_ranks(its);
  const double size = std::sqrt(x.square().sum() * y.square().sum());
  if (!(size > 0.0)) return result;
  result.value = std::clamp((x * y).sum() / size, -1.0, 1.0);
  if (result.pairs < 5) return result;
  const double spread =
      z * std::sqrt((1.0 + 0.5 * result.value * result.value) / static_cast<double>(result.pairs - 3));
  // At +-1 artanh is infinite and so are both ends: the interval has no width, as it should.
  result.range = {std::tanh(std::atanh(result.value) - spread), std::tanh(std::atanh(result.value) + spread)};
  return result;
}

}  // namespace dullcast::statistics
