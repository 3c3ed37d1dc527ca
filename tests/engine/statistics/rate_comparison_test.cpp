#include "engine/statistics/rate_comparison.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "support/refusal.hpp"

namespace dullcast::statistics {
namespace {

using testing::refusal;

/// Garwood, Biometrika 28, 1936 [pub], limits of a Poisson mean at 95 %; the figures from memory, as they are
/// printed in tables of statistics.
TEST(PoissonMeanInterval, IsGarwoodsTable) {
  const struct {
    long seen;
    double low, high;
  } table[] = {{0, 0.0, 3.69}, {1, 0.0253, 5.57}, {2, 0.242, 7.22}, {5, 1.62, 11.67}, {10, 4.80, 18.39}};
  for (const auto& row : table) {
    const Interval interval = poisson_mean_interval(row.seen, 0.95);
    EXPECT_NEAR(interval.low, row.low, 0.006) << row.seen;
    EXPECT_NEAR(interval.high, row.high, 0.006) << row.seen;
  }
}

/// What makes it exact: at either bound a count as far out has half of what is left of the confidence.
TEST(PoissonMeanInterval, LeavesHalfTheRestBeyondEitherBound) {
  const long seen = 7;
  const auto below = [](long count, double mean) {
    double sum = 0.0, term = std::exp(-mean);
    for (long k = 0; k <= count; ++k) {
      sum += term;
      term *= mean / static_cast<double>(k + 1);
    }
    return sum;
  };
  const Interval interval = poisson_mean_interval(seen, 0.9);
  EXPECT_NEAR(below(seen, interval.high), 0.05, 1e-10);
  EXPECT_NEAR(1.0 - below(seen - 1, interval.low), 0.05, 1e-10);
}

/// Shapes of a half and of three halves have closed forms: the arcsine law, and by recurrence
/// I_x(3/2, 1/2) = (2/pi)(asin sqrt(x) - sqrt(x (1 - x))) [hb].
TEST(ChanceOfGreaterRate, MeetsItsClosedForms) {
  for (const double share : {0.1, 0.37, 0.5, 0.9}) {
    const double one = 4.0 * share, other = 4.0 * (1.0 - share);
    const double arcsine = 2.0 / std::numbers::pi * std::asin(std::sqrt(share));
    EXPECT_NEAR(chance_of_greater_rate({0, one}, {0, other}), 1.0 - arcsine, 1e-12);
    const double shifted = arcsine - 2.0 / std::numbers::pi * std::sqrt(share * (1.0 - share));
    EXPECT_NEAR(chance_of_greater_rate({1, one}, {0, other}), 1.0 - shifted, 1e-12);
  }
}

TEST(ChanceOfGreaterRate, IsFairAndGrowsWithWhatWasSeen) {
  EXPECT_NEAR(chance_of_greater_rate({4, 2.0}, {4, 2.0}), 0.5, 1e-12);
  const double chance = chance_of_greater_rate({9, 3.0}, {2, 4.0});
  EXPECT_NEAR(chance + chance_of_greater_rate({2, 4.0}, {9, 3.0}), 1.0, 1e-12);
  EXPECT_GT(chance, 0.95);
  EXPECT_GT(chance_of_greater_rate({10, 3.0}, {2, 4.0}), chance);
  EXPECT_LT(chance_of_greater_rate({9, 6.0}, {2, 4.0}), chance);
}

/// The chance against the same integral done by brute force: P(X > Y) over a grid of Y, both gamma.
TEST(ChanceOfGreaterRate, IsTheIntegralOfTheTwoDensities) {
  const CountedRate one{5, 4.0}, other{2, 1.5};
  const auto density = [](const CountedRate& rate, double x) {
    const double a = static_cast<double>(rate.seen) + 0.5;
    return std::exp(a * std::log(rate.expected) + (a - 1.0) * std::log(x) - rate.expected * x -
                    std::lgamma(a));
  };
  const double step = 1e-3;
  double below = 0.0, chance = 0.0;  // share of `other` below x
  for (int k = 0; k < 20000; ++k) {
    const double x = (k + 0.5) * step;
    const double slice = density(other, x) * step;
    chance += density(one, x) * step * (below + 0.5 * slice);
    below += slice;
  }
  // The midpoint rule's error is its step squared times slopes of order 1.
  EXPECT_NEAR(chance_of_greater_rate(one, other), chance, 1e-5);
}

TEST(ChanceOfGreaterRate, RefusesWhatIsNoCount) {
  EXPECT_NE(refusal([] { return poisson_mean_interval(-1, 0.9); }), "");
  EXPECT_NE(refusal([] { return poisson_mean_interval(1, 1.0); }), "");
  EXPECT_NE(refusal([] { return chance_of_greater_rate({1, 0.0}, {1, 1.0}); }), "");
  EXPECT_NE(refusal([] { return chance_of_greater_rate({-1, 1.0}, {1, 1.0}); }), "");
}

TEST(MiddleRate, HalfOfWhatIsLeftToThinkLiesBelow) {
  // Of a gamma variable of shape 1/2 the middle is half the square of the normal's 75 % point, 0.67449 [hb].
  EXPECT_NEAR(middle_rate({0, 1.0}), 0.5 * 0.6744897501960817 * 0.6744897501960817, 1e-12);
  EXPECT_NEAR(middle_rate({3, 2.0}), 0.5 * middle_rate({3, 1.0}), 1e-12);
}

}  // namespace
}  // namespace dullcast::statistics
