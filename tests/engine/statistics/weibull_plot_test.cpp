#include "engine/statistics/weibull_plot.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "engine/statistics/counter_random.hpp"
#include "support/refusal.hpp"

namespace dullcast::statistics {
namespace {

/// Lives of a Weibull law, those over `watched` censored there.
std::vector<Life> drawn_lives(std::uint64_t sample, int count, double modulus, double scale, double watched) {
  std::vector<Life> lives;
  for (int k = 0; k < count; ++k) {
    const double life =
        scale * std::pow(unit_exponential_at(31, sample, static_cast<std::uint64_t>(k)), 1.0 / modulus);
    lives.push_back({std::min(life, watched), life <= watched});
  }
  return lives;
}

TEST(WeibullPlot, FitIsWhereTheLikelihoodIsLevel) {
  const std::vector<Life> lives = drawn_lives(0, 25, 2.5, 300.0, 400.0);
  const auto fit = fit_weibull(lives, 0.95);
  ASSERT_TRUE(fit.has_value());
  const auto likelihood = [&](double k, double c) {
    double sum = 0.0;
    for (const Life& life : lives) {
      if (life.ended) sum += std::log(k / c) + (k - 1.0) * std::log(life.length / c);
      sum -= std::pow(life.length / c, k);
    }
    return sum;
  };
  const double k = fit->modulus, c = fit->scale, best = likelihood(k, c), step = 1e-3;
  for (const double way : {-1.0, 1.0}) {
    EXPECT_LT(likelihood(k * std::exp(way * step), c), best);
    EXPECT_LT(likelihood(k, c * std::exp(way * step)), best);
  }
  // The intervals come from second derivatives in ln k and ln c: here by differences, whose own error is of
  // order step^2 of the fourth derivatives, some 1e-5, plus rounding 1e-13 of a sum of 100 over step^2.
  const auto at = [&](double a, double b) {
    return likelihood(k * std::exp(a * step), c * std::exp(b * step));
  };
  const double kk = -(at(1, 0) - 2.0 * best + at(-1, 0)) / (step * step),
               cc = -(at(0, 1) - 2.0 * best + at(0, -1)) / (step * step),
               kc = -(at(1, 1) - at(1, -1) - at(-1, 1) + at(-1, -1)) / (4.0 * step * step);
  const double determinant = kk * cc - kc * kc;
  EXPECT_NEAR(std::log(fit->modulus_range.high / k) / (1.959964 * std::sqrt(cc / determinant)), 1.0, 1e-4);
  EXPECT_NEAR(std::log(fit->scale_range.high / c) / (1.959964 * std::sqrt(kk / determinant)), 1.0, 1e-4);
}

TEST(WeibullPlot, UnitsChangeTheScaleOnly) {
  std::vector<Life> lives = drawn_lives(1, 30, 1.7, 1.0, 1.5);
  const auto hours = fit_weibull(lives, 0.95);
  for (Life& life : lives) life.length *= 3600.0;
  const auto seconds = fit_weibull(lives, 0.95);
  EXPECT_NEAR(seconds->modulus / hours->modulus, 1.0, 1e-12);
  EXPECT_NEAR(seconds->scale / hours->scale, 3600.0, 1e-8);
}

TEST(WeibullPlot, OfAModulusOfOneItIsTheTotalTimeOnTest) {
  // With the modulus held at 1, c = total time over ended; the fit's own equation c^k = sum t^k/ended at its
  // k.
  const std::vector<Life> lives = drawn_lives(2, 40, 1.0, 5.0, 8.0);
  const auto fit = fit_weibull(lives, 0.95);
  double powers = 0.0, ended = 0.0;
  for (const Life& life : lives) {
    powers += std::pow(life.length, fit->modulus);
    ended += life.ended ? 1.0 : 0.0;
  }
  EXPECT_NEAR(fit->scale, std::pow(powers / ended, 1.0 / fit->modulus), 1e-9 * fit->scale);
}

TEST(WeibullPlot, NoFitFromLivesThatCannotGiveOne) {
  EXPECT_FALSE(fit_weibull({}, 0.95));
  EXPECT_FALSE(fit_weibull({{1.0, true}, {2.0, false}}, 0.95)) << "one that ended";
  EXPECT_FALSE(fit_weibull({{2.0, true}, {2.0, true}}, 0.95)) << "all of one length";
  EXPECT_FALSE(fit_weibull({{0.0, true}, {2.0, true}, {3.0, true}}, 0.95));
  EXPECT_NE(testing::refusal([] { return fit_weibull({{std::nan(""), true}}, 0.95); }), "");
  EXPECT_NE(testing::refusal([] { return fit_weibull({{1.0, true}, {2.0, true}}, 1.0); }), "");
}

TEST(WeibullPlot, MedianRanksWithoutCensoring) {
  const std::vector<WeibullPoint> points = weibull_points({{3.0, true}, {1.0, true}, {2.0, true}});
  ASSERT_EQ(points.size(), 3u);
  for (std::size_t k = 0; k < 3; ++k)
    EXPECT_NEAR(points[k].share, (static_cast<double>(k) + 0.7) / 3.4, 1e-15);
  EXPECT_EQ(points[0].length, 1.0);
}

TEST(WeibullPlot, CensoredLivesPushTheRanksBehindThem) {
  // Ended, censored, ended, ended: ranks 1, 1 + 4/(1 + 2) = 7/3, then 7/3 + (5 - 7/3)/2 = 11/3.
  const std::vector<WeibullPoint> points =
      weibull_points({{1.0, true}, {2.0, false}, {3.0, true}, {4.0, true}});
  ASSERT_EQ(points.size(), 3u);
  EXPECT_NEAR(points[0].share, 0.7 / 4.4, 1e-15);
  EXPECT_NEAR(points[1].share, (7.0 / 3.0 - 0.3) / 4.4, 1e-15);
  EXPECT_NEAR(points[2].share, (11.0 / 3.0 - 0.3) / 4.4, 1e-15);
}

}  // namespace
}  // namespace dullcast::statistics
