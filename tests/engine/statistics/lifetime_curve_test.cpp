#include "engine/statistics/lifetime_curve.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "engine/statistics/counter_random.hpp"
#include "support/refusal.hpp"

namespace dullcast::statistics {
namespace {

TEST(LifetimeCurve, WithoutCensoringItIsTheShareLeft) {
  const LifetimeCurve curve = lifetime_curve({{3.0, true}, {1.0, true}, {2.0, true}, {2.0, true}}, 0.95);
  ASSERT_EQ(curve.steps.size(), 3u);
  const double left[] = {0.75, 0.25, 0.0};
  for (std::size_t k = 0; k < 3; ++k) {
    EXPECT_NEAR(curve.steps[k].survival, left[k], 1e-15);
    // Greenwood's variance is then the binomial one, S (1 - S)/n.
    EXPECT_NEAR(curve.steps[k].variance, left[k] * (1.0 - left[k]) / 4.0, 1e-15);
  }
  EXPECT_EQ(survival_at(curve, 0.5), 1.0);
  EXPECT_NEAR(survival_at(curve, 2.5), 0.25, 1e-15);
  EXPECT_EQ(survival_at(curve, 99.0), 0.0) << "none is left";
}

TEST(LifetimeCurve, LivesCensoredAtALengthWereAtRiskThere) {
  const LifetimeCurve curve = lifetime_curve({{1.0, false}, {1.0, true}, {2.0, true}, {3.0, false}}, 0.95);
  ASSERT_EQ(curve.steps.size(), 2u);
  EXPECT_EQ(curve.steps[0].at_risk, 4);
  EXPECT_EQ(curve.steps[1].at_risk, 2);
  EXPECT_NEAR(curve.steps[1].survival, 0.75 * 0.5, 1e-15);
  EXPECT_EQ(curve.censored, 2);
  EXPECT_TRUE(std::isnan(survival_at(curve, 3.1))) << "nothing is known past the longest life";
}

TEST(LifetimeCurve, LimitsHoldTheCurveAndStayWithinChances) {
  std::vector<Life> lives;
  for (std::uint64_t k = 0; k < 40; ++k) lives.push_back({unit_exponential_at(1, 0, k), k % 3 != 0});
  for (const CurveStep& step : lifetime_curve(lives, 0.95).steps) {
    EXPECT_GE(step.low, 0.0);
    EXPECT_LE(step.low, step.survival);
    EXPECT_GE(step.high, step.survival);
    EXPECT_LE(step.high, 1.0);
  }
}

TEST(LifetimeCurve, WhatIsNotReachedIsNotTold) {
  std::vector<Life> lives(100, {10.0, false});
  for (std::size_t k = 0; k < 20; ++k)
    lives[k] = {1.0 + static_cast<double>(k), true};            // 20 ended, one past 10 ...
  for (std::size_t k = 0; k < 20; ++k) lives[k].length *= 0.4;  // ... so none is
  const LifeQuantile p10 = life_quantile(lives, 0.1, 0.95), p50 = life_quantile(lives, 0.5, 0.95);
  EXPECT_NEAR(p10.length, 4.0, 1e-12) << "the tenth of a hundred";
  EXPECT_TRUE(p10.bounded_below() && p10.bounded_above());
  EXPECT_FALSE(p50.reached());
  EXPECT_FALSE(p50.bounded_above());
  EXPECT_EQ(p50.low, 10.0) << "80 of 100 lives outlasted 10: half of all lives do, surely";
}

TEST(LifetimeCurve, OneCensoredLifeDoesNotTakeTheUpperBoundAway) {
  // Ranks of the median of 100 are 40 and 61; with a life censored at 55 the 61st is not known, but the curve
  // bounds it still, a rank or two away.
  std::vector<Life> lives;
  for (int k = 1; k <= 100; ++k) lives.push_back({static_cast<double>(k), k != 55});
  const LifeQuantile found = life_quantile(lives, 0.5, 0.95);
  EXPECT_NEAR(found.low, 40.0, 2.0);
  EXPECT_NEAR(found.high, 61.0, 2.0);
  EXPECT_EQ(found.length, 50.0);
}

TEST(LifetimeCurve, NoLifeEndedStillBoundsFromBelow) {
  const LifeQuantile p10 = life_quantile(std::vector<Life>(50, {8.0, false}), 0.1, 0.95);
  EXPECT_FALSE(p10.reached());
  EXPECT_EQ(p10.low, 8.0) << "were the P10 below 8, none of 50 ending would have a chance of 0.9^50 = 0.5 %";
  EXPECT_FALSE(life_quantile(std::vector<Life>(20, {8.0, false}), 0.1, 0.95).bounded_below())
      << "0.9^20 = 12 %";
}

TEST(LifetimeCurve, FewLivesSayNothingOfTheTails) {
  std::vector<Life> lives;
  for (int k = 1; k <= 10; ++k) lives.push_back({static_cast<double>(k), true});
  const LifeQuantile p10 = life_quantile(lives, 0.1, 0.95), p90 = life_quantile(lives, 0.9, 0.95);
  EXPECT_FALSE(p10.bounded_below());
  EXPECT_FALSE(p90.bounded_above());
  EXPECT_EQ(p90.length, 9.0);
  // The same through the product-limit curve, which has to leave these sides open too.
  const LifetimeCurve curve = lifetime_curve(lives, 0.95);
  EXPECT_FALSE(curve_quantile(curve, 0.1).bounded_below());
  EXPECT_FALSE(curve_quantile(curve, 0.9).bounded_above());
}

TEST(LifetimeCurve, QuantilesCoverUnderRandomCensoring) {
  // Exponential lives censored at uniform times up to 4: a quarter never seen to end. 95 % limits of P10, P50
  // and P75 from 80 lives; over 1,000 samples coverage is within 0.95 less three standard errors (2.1 %) and
  // less 1 % for what normal limits of log(-log) miss with so few lives. More than 0.95 is no fault:
  // quantiles lie on steps.
  for (const double share : {0.1, 0.5, 0.75}) {
    const double truth = -std::log1p(-share);
    int covered = 0;
    for (std::uint64_t sample = 0; sample < 1000; ++sample) {
      std::vector<Life> lives;
      for (std::uint64_t k = 0; k < 80; ++k) {
        const double life = unit_exponential_at(11, sample, k), watched = 4.0 * uniform_at(12, sample, k);
        lives.push_back({std::min(life, watched), life <= watched});
      }
      const LifeQuantile found = life_quantile(lives, share, 0.95);
      covered += found.low <= truth && truth <= found.high ? 1 : 0;
    }
    EXPECT_GE(covered / 1000.0, 0.95 - 0.031) << share;
  }
}

TEST(LifetimeCurve, RefusesLivesThatAreNone) {
  EXPECT_NE(testing::refusal([] { return lifetime_curve({{-1.0, true}}, 0.95); }), "");
  EXPECT_NE(testing::refusal([] { return lifetime_curve({{std::nan(""), true}}, 0.95); }), "");
  EXPECT_NE(testing::refusal([] { return lifetime_curve({{1.0, true}}, 95.0); }), "");
  EXPECT_EQ(lifetime_curve({}, 0.95).steps.size(), 0u);
}

}  // namespace
}  // namespace dullcast::statistics
