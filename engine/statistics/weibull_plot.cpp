#include "engine/statistics/weibull_plot.hpp"

#include <algorithm>
#include <boost/math/tools/toms748_solve.hpp>
#include <cmath>
#include <limits>

#include "models/common/domain.hpp"

namespace dullcast::statistics {
namespace {

/// Lives of one unit: lengths over the longest, as logarithms, so that powers neither overflow nor all
/// vanish.
struct Logarithms {
  std::vector<double>
      all;  // ln(t/longest), <= 0; lives of length 0 that did not end weigh nothing and are out
  double mean_ended = 0.0;
  long ended = 0;
};

/// Sums over all lives of t^k, t^k ln t and t^k (ln t)^2.
struct Powers {
  double plain = 0.0, once = 0.0, twice = 0.0;
};

Powers powers_of(const Logarithms& lives, double k) {
  Powers sums;
  for (const double y : lives.all) {
    const double power = std::exp(k * y);
    sums.plain += power;
    sums.once += power * y;
    sums.twice += power * y * y;
  }
  return sums;
}

/// Rises with k: its root is the modulus.
double slope_of_likelihood(const Logarithms& lives, double k) {
  const Powers sums = powers_of(lives, k);
  return sums.once / sums.plain - 1.0 / k - lives.mean_ended;
}

double solve_modulus(const Logarithms& lives) {
  const auto f = [&](double ln_k) { return slope_of_likelihood(lives, std::exp(ln_k)); };
  double low = 0.0, high = 0.0;
  while (f(low) > 0.0) low -= 1.0;
  while (f(high) < 0.0) high += 1.0;
  std::uintmax_t most = 200;
  const auto bracket =
      boost::math::tools::toms748_solve(f, low, high, boost::math::tools::eps_tolerance<double>(50), most);
  return std::exp(0.5 * (bracket.first + bracket.second));
}

}  // namespace

std::optional<WeibullFit> fit_weibull(const std::vector<Life>& lives, double confidence) {
  const double z = two_sided_normal_point(confidence);
  double longest = 0.0;
  for (const Life& life : lives) {
    require_domain(life.length >= 0.0 && std::isfinite(life.length), "fit_weibull",
                   "a life is finite and not below 0", life.length);
    longest = std::max(longest, life.length);
  }
  Logarithms logarithms;
  double shortest_ended = std::numeric_limits<double>::infinity(), longest_ended = 0.0;
  for (const Life& life : lives) {
    if (life.ended && life.length == 0.0) return std::nullopt;
    if (life.length == 0.0) continue;
    const double y = std::log(life.length / longest);
    logarithms.all.push_back(y);
    if (!life.ended) continue;
    ++logarithms.ended;
    logarithms.mean_ended += y;
    shortest_ended = std::min(shortest_ended, life.length);
    longest_ended = std::max(longest_ended, life.length);
  }
  if (logarithms.ended < 2 || !(shortest_ended < longest_ended)) return std::nullopt;
  const auto ended = static_cast<double>(logarithms.ended);
  logarithms.mean_ended /= ended;

  WeibullFit fit;
  fit.lives = static_cast<long>(lives.size());
  fit.censored = fit.lives - logarithms.ended;
  const double k = fit.modulus = solve_modulus(logarithms);
  const Powers sums = powers_of(logarithms, k);
  const double ln_scale = std::log(sums.plain / ended) / k;  // over the longest
  fit.scale = longest * std::exp(ln_scale);
  // With w = (t/c)^k and u = ln w, at the greatest likelihood (where sum w = ended):
  // information of (ln k, ln c) = [[ended + sum w u^2, -k sum w u], [-k sum w u, k^2 ended]].
  const double over = std::exp(-k * ln_scale);
  const double wu = k * over * (sums.once - ln_scale * sums.plain);
  const double wuu =
      k * k * over * (sums.twice - 2.0 * ln_scale * sums.once + ln_scale * ln_scale * sums.plain);
  const double determinant = k * k * ((ended + wuu) * ended - wu * wu);
  const double modulus_spread = z * std::sqrt(k * k * ended / determinant);
  const double scale_spread = z * std::sqrt((ended + wuu) / determinant);
  fit.modulus_range = {k * std::exp(-modulus_spread), k * std::exp(modulus_spread)};
  fit.scale_range = {fit.scale * std::exp(-scale_spread), fit.scale * std::exp(scale_spread)};
  return fit;
}

std::vector<WeibullPoint> weibull_points(std::vector<Life> lives) {
  std::sort(lives.begin(), lives.end(), [](const Life& a, const Life& b) {
    return a.length < b.length || (a.length == b.length && a.ended && !b.ended);
  });
  const auto n = static_cast<double>(lives.size());
  std::vector<WeibullPoint> points;
  double rank = 0.0;
  for (std::size_t k = 0; k < lives.size(); ++k) {
    if (!lives[k].ended) continue;
    const double from_here = n - static_cast<double>(k);
    rank += (n + 1.0 - rank) / (1.0 + from_here);
    points.push_back({lives[k].length, (rank - 0.3) / (n + 0.4)});
  }
  return points;
}

}  // namespace dullcast::statistics
