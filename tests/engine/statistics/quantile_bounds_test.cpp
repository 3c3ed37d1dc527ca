#include "engine/statistics/quantile_bounds.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "engine/statistics/counter_random.hpp"
#include "support/refusal.hpp"

namespace dullcast::statistics {
namespace {

TEST(QuantileBounds, MedianOfSixLiesBetweenLeastAndGreatest) {
  // All six on one side of the median: 2/2^6, so the two ends cover with 31/32, and those of five with 15/16.
  const QuantileRanks six = quantile_ranks(6, 0.5, 0.95), five = quantile_ranks(5, 0.5, 0.95);
  EXPECT_EQ(six.low, 1);
  EXPECT_EQ(six.high, 6);
  EXPECT_NEAR(six.coverage, 31.0 / 32.0, 1e-14);
  EXPECT_EQ(five.low, 0) << "too few draws";
  EXPECT_EQ(five.high, 0);
  EXPECT_EQ(draws_for_both_bounds(0.5, 0.95), 6);
}

TEST(QuantileBounds, MirroredSharesHaveMirroredRanks) {
  for (const long n : {20L, 59L, 200L, 1000L}) {
    const QuantileRanks p10 = quantile_ranks(n, 0.1, 0.95), p90 = quantile_ranks(n, 0.9, 0.95);
    EXPECT_EQ(p10.low, p90.high > 0 ? n + 1 - p90.high : 0) << n;
    EXPECT_EQ(p10.high, n + 1 - p90.low) << n;
    EXPECT_NEAR(p10.coverage, p90.coverage, 1e-12) << n;
  }
}

TEST(QuantileBounds, TooFewDrawsUntilTheCountSays) {
  const long enough = draws_for_both_bounds(0.9, 0.95);
  EXPECT_EQ(enough, 36) << "0.9^36 = 0.0225 <= 0.025 < 0.9^35";
  EXPECT_TRUE(quantile_bounds(Eigen::ArrayXd::LinSpaced(enough, 1.0, 2.0), 0.9, 0.95).enough());
  const QuantileBounds few = quantile_bounds(Eigen::ArrayXd::LinSpaced(enough - 1, 1.0, 2.0), 0.9, 0.95);
  EXPECT_FALSE(few.enough());
  EXPECT_TRUE(std::isinf(few.high) && few.high > 0.0);
  EXPECT_FALSE(std::isinf(few.low));
}

TEST(QuantileBounds, ValueIsTheLeastThatTheShareReaches) {
  Eigen::ArrayXd values(10);
  values << 3, 1, 2, 10, 9, 8, 7, 6, 5, 4;
  EXPECT_EQ(quantile_bounds(values, 0.1, 0.95).value, 1.0);
  EXPECT_EQ(quantile_bounds(values, 0.3, 0.95).value, 3.0);
  EXPECT_EQ(quantile_bounds(values, 0.31, 0.95).value, 4.0);
  EXPECT_EQ(quantile_bounds(values, 0.7, 0.95).value, 7.0) << "0.7 of 10 is 7.000000000000001 in doubles";
  EXPECT_EQ(quantile_bounds(values, 0.9, 0.95).value, 9.0);
}

TEST(QuantileBounds, NaNIsLeftOutAndInfinityStays) {
  Eigen::ArrayXd values(4);
  values << 1, std::nan(""), std::numeric_limits<double>::infinity(), 2;
  const QuantileBounds bounds = quantile_bounds(values, 0.9, 0.95);
  EXPECT_EQ(bounds.draws, 3);
  EXPECT_TRUE(std::isinf(bounds.value));
  EXPECT_TRUE(std::isnan(quantile_bounds(Eigen::ArrayXd(0), 0.5, 0.95).value));
}

TEST(QuantileBounds, CoverAsOftenAsTheySay) {
  // Exponential draws, P90 = ln 10, 120 a sample. Over 2,000 samples the share that covers lies within three
  // standard errors of the binomial coverage that the ranks state.
  const double truth = std::log(10.0), stated = quantile_ranks(120, 0.9, 0.95).coverage;
  ASSERT_GE(stated, 0.95);
  int covered = 0;
  for (std::uint64_t sample = 0; sample < 2000; ++sample) {
    Eigen::ArrayXd draws(120);
    for (Eigen::Index k = 0; k < draws.size(); ++k)
      draws(k) = unit_exponential_at(3, sample, static_cast<std::uint64_t>(k));
    const QuantileBounds bounds = quantile_bounds(draws, 0.9, 0.95);
    covered += bounds.low <= truth && truth <= bounds.high ? 1 : 0;
  }
  EXPECT_NEAR(covered / 2000.0, stated, 3.0 * std::sqrt(stated * (1.0 - stated) / 2000.0));
}

TEST(QuantileBounds, RefusesSharesOutsideTheOpenRange) {
  for (const double wrong : {0.0, 1.0, 1.5, std::nan("")})
    EXPECT_NE(testing::refusal([&] { return quantile_ranks(10, wrong, 0.95); }), "") << wrong;
  EXPECT_NE(testing::refusal([] { return quantile_ranks(-1, 0.5, 0.95); }), "");
}

}  // namespace
}  // namespace dullcast::statistics
