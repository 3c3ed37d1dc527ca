#include "engine/statistics/resampling.hpp"

#include <algorithm>
#include <cmath>

#include "engine/statistics/counter_random.hpp"
#include "models/common/domain.hpp"

namespace dullcast::statistics {
namespace {

/// Quantile of sorted values, straight between neighbours: Hyndman & Fan, Am. Statistician 50, 1996, their
/// type 7 [pub].
double quantile_of_sorted(const std::vector<double>& sorted, double share) {
  const double place = share * static_cast<double>(sorted.size() - 1);
  const auto below = static_cast<std::size_t>(place);
  const std::size_t above = std::min(below + 1, sorted.size() - 1);
  return sorted[below] + (place - static_cast<double>(below)) * (sorted[above] - sorted[below]);
}

}  // namespace

std::vector<Interval> resampled_intervals(
    long rows, const Resampling& how,
    const std::function<Eigen::ArrayXd(const std::vector<long>&)>& statistics) {
  require_confidence(how.confidence, "resampled_intervals");
  const double tail = 0.5 * (1.0 - how.confidence);
  require_domain(how.resamples * tail >= 1.0, "resampled_intervals",
                 "too few resamples for the tails of this confidence", how.resamples);
  if (rows < 1) return {};
  std::vector<long> chosen(static_cast<std::size_t>(rows));
  std::vector<std::vector<double>> found;
  for (int resample = 0; resample < how.resamples; ++resample) {
    for (std::size_t k = 0; k < chosen.size(); ++k) {
      const double u = uniform_at(how.seed, static_cast<std::uint64_t>(resample), k);
      chosen[k] = std::min(rows - 1, static_cast<long>(u * static_cast<double>(rows)));
    }
    const Eigen::ArrayXd values = statistics(chosen);
    found.resize(static_cast<std::size_t>(values.size()));
    for (Eigen::Index k = 0; k < values.size(); ++k) found[static_cast<std::size_t>(k)].push_back(values(k));
  }
  std::vector<Interval> intervals(found.size());
  for (std::size_t k = 0; k < found.size(); ++k) {
    std::vector<double>& values = found[k];
    const bool known =
        rows > 1 && std::none_of(values.begin(), values.end(), [](double x) { return std::isnan(x); });
    if (!known) continue;
    std::sort(values.begin(), values.end());
    intervals[k] = {quantile_of_sorted(values, tail), quantile_of_sorted(values, 1.0 - tail)};
  }
  return intervals;
}

}  // namespace dullcast::statistics
