#include "engine/analysis/trade_off.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "engine/statistics/counter_random.hpp"
#include "support/refusal.hpp"

namespace dullcast::analysis {
namespace {

/// Points of draws that all came to the same.
TradeOffCases cases_of(long points, long draws) {
  TradeOffCases cases;
  cases.points = points;
  cases.draws = draws;
  cases.cost_per_metre = Eigen::ArrayXd::Constant(points * draws, 100.0);
  cases.hottest_flat = Eigen::ArrayXd::Constant(points * draws, 500.0);
  cases.expected_chips = Eigen::ArrayXd::Constant(points * draws, 0.1);
  cases.finished = Eigen::ArrayXd::Ones(points * draws);
  return cases;
}

TEST(TradeOff, MeanAndItsErrorInClosedForm) {
  Eigen::ArrayXd values(4);
  values << 1, 3, std::nan(""), 5;
  const DrawnMean found = drawn_mean(values);
  EXPECT_EQ(found.draws, 3);
  EXPECT_NEAR(found.mean, 3.0, 1e-15);
  EXPECT_NEAR(found.error, std::sqrt(4.0 / 3.0), 1e-15);
  EXPECT_TRUE(std::isnan(drawn_mean(values.head(1)).error)) << "one draw has no error";
  EXPECT_TRUE(std::isnan(drawn_mean(values.segment(2, 1)).mean));
}

TEST(TradeOff, IntervalOfAMeanByStudentsTable) {
  // Student's t at 95 % on two sides [hb], four figures: 12.71, 4.303 and 2.262 for 1, 2 and 9 degrees of
  // freedom.
  EXPECT_NEAR(half_width({0.0, 1.0, 2}, 0.95), 12.71, 5e-3);
  EXPECT_NEAR(half_width({0.0, 2.0, 3}, 0.95), 2.0 * 4.303, 1e-3);
  EXPECT_NEAR(half_width({0.0, 1.0, 10}, 0.95), 2.262, 5e-4);
  EXPECT_TRUE(std::isnan(half_width(drawn_mean(Eigen::ArrayXd::Ones(1)), 0.95)));
}

TEST(TradeOff, SharedDrawsTellApartWhatSeparateOnesCannot) {
  // Costs that vary by 20 from draw to draw and differ by 1 +- 0.1 between points: 30 draws leave a standard
  // error of 5 on either mean, and of 0.02 on the difference.
  TradeOffCases cases = cases_of(2, 30);
  for (long j = 0; j < 30; ++j) {
    const auto draw = static_cast<std::uint64_t>(j);
    cases.cost_per_metre(j) = 100.0 + 20.0 * statistics::standard_normal_at(1, 0, draw);
    cases.cost_per_metre(30 + j) =
        cases.cost_per_metre(j) + 1.0 + 0.1 * statistics::standard_normal_at(1, 1, draw);
  }
  const TradeOff alike = trade_off(cases, {}, 0.95);
  ASSERT_EQ(alike.best, 0);
  EXPECT_FALSE(alike.points[1].like_best);
  EXPECT_NEAR(alike.points[1].over_best.mean, 1.0, 4.0 * 0.1 / std::sqrt(30.0));
  EXPECT_LT(alike.points[1].over_best.error, 0.03);
  cases.draws_alike = false;
  const TradeOff apart = trade_off(cases, {}, 0.95);
  EXPECT_TRUE(apart.points[1].like_best);
  EXPECT_NEAR(apart.points[1].over_best.mean, alike.points[1].over_best.mean, 1e-11)
      << "rounding of sums of 3000";
  EXPECT_GT(apart.points[1].over_best.error, 3.0);
}

TEST(TradeOff, TrulyCheapestPointIsAmongThoseLikeTheBestAsOftenAsSaid) {
  // Ten points of equal mean, of which point 1 counts as the truly cheapest: over 600 samples it has to be
  // among those like the best in 95 % of them or more, less three standard errors (2.7 %).
  int kept = 0;
  for (std::uint64_t sample = 0; sample < 600; ++sample) {
    TradeOffCases cases = cases_of(10, 12);
    for (Eigen::Index k = 0; k < 120; ++k)
      cases.cost_per_metre(k) =
          100.0 + statistics::standard_normal_at(2, sample, static_cast<std::uint64_t>(k));
    kept += trade_off(cases, {}, 0.95).points[0].like_best ? 1 : 0;
  }
  EXPECT_GE(kept / 600.0, 0.95 - 0.027);
}

TEST(TradeOff, LimitsAreChancesOverDraws) {
  // Point 0 is cheap and too hot in 3 of 20 draws, point 1 dearer and always cool.
  TradeOffCases cases = cases_of(2, 20);
  cases.cost_per_metre.head(20) = 90.0;
  cases.hottest_flat.head(3) = 700.0;
  TradeOffLimits limits;
  limits.hottest_flat = 600.0;
  const TradeOff strict = trade_off(cases, limits, 0.95);
  EXPECT_EQ(strict.best, 1);
  EXPECT_NEAR(strict.points[0].keeping, 0.85, 1e-15);
  EXPECT_EQ(strict.points[0].within, WithinLimits::unlikely) << "17 of 20 does not rule out 90 %";
  EXPECT_EQ(strict.points[1].within, WithinLimits::likely)
      << "20 of 20 does not make 90 % sure (0.9^20 = 12 %)";
  limits.hold = 0.5;
  const TradeOff mild = trade_off(cases, limits, 0.95);
  EXPECT_EQ(mild.best, 0);
  EXPECT_EQ(mild.points[0].within, WithinLimits::yes) << "3 or fewer of 20 at one half: 0.1 %";
  limits.hottest_flat = 400.0;
  const TradeOff none = trade_off(cases, limits, 0.95);
  EXPECT_FALSE(none.best);
  EXPECT_EQ(none.points[0].within, WithinLimits::no);
  // Chips are a limit as heat is, and a draw has to keep both.
  limits.hottest_flat = 600.0;
  limits.hold = 0.9;
  limits.expected_chips = 0.2;
  cases.expected_chips.segment(10, 3) = 0.3;
  EXPECT_NEAR(trade_off(cases, limits, 0.95).points[0].keeping, 0.7, 1e-15);
}

TEST(TradeOff, FrontIsWhatNothingBeats) {
  // cost, hot, chips: 0 and 1 trade cost for heat, 2 is beaten by 0, 3 is as 0 but for fewer chips (so beats
  // it), 4 is the same as 1.
  TradeOffCases cases = cases_of(5, 1);
  cases.cost_per_metre << 10, 20, 11, 10, 20;
  cases.hottest_flat << 600, 500, 600, 600, 500;
  cases.expected_chips << 0.2, 0.2, 0.3, 0.1, 0.2;
  const TradeOff found = trade_off(cases, {}, 0.95);
  const bool front[] = {false, true, false, true, true};
  for (std::size_t k = 0; k < 5; ++k) EXPECT_EQ(found.points[k].on_front, front[k]) << k;
  EXPECT_FALSE(found.told_apart) << "one draw a point has no error";
  EXPECT_EQ(found.best, 0) << "the first of the equally cheap";
}

TEST(TradeOff, FrontOfRandomPointsIsThatOfComparingAllPairs) {
  TradeOffCases cases = cases_of(200, 1);
  for (Eigen::Index k = 0; k < 200; ++k) {
    const auto draw = static_cast<std::uint64_t>(k);
    // Rounded, so that there are ties.
    cases.cost_per_metre(k) = std::round(20.0 * statistics::uniform_at(3, 0, draw));
    cases.hottest_flat(k) = std::round(20.0 * statistics::uniform_at(3, 1, draw));
    cases.expected_chips(k) = std::round(20.0 * statistics::uniform_at(3, 2, draw));
  }
  const TradeOff found = trade_off(cases, {}, 0.95);
  for (Eigen::Index a = 0; a < 200; ++a) {
    bool beaten = false;
    for (Eigen::Index b = 0; b < 200; ++b) {
      const double over[] = {cases.cost_per_metre(a) - cases.cost_per_metre(b),
                             cases.hottest_flat(a) - cases.hottest_flat(b),
                             cases.expected_chips(a) - cases.expected_chips(b)};
      const bool none_worse = over[0] >= 0 && over[1] >= 0 && over[2] >= 0;
      if (none_worse && (over[0] > 0 || over[1] > 0 || over[2] > 0)) beaten = true;
    }
    EXPECT_EQ(found.points[static_cast<std::size_t>(a)].on_front, !beaten) << a;
  }
}

TEST(TradeOff, FailedAndEndlesslyDearDrawsDoNotFlatterAPoint) {
  TradeOffCases cases = cases_of(3, 4);
  cases.cost_per_metre.head(4) << 1, 1, std::numeric_limits<double>::infinity(), 1;  // made no hole once
  cases.cost_per_metre(4) = cases.hottest_flat(4) = cases.expected_chips(4) = cases.finished(4) =
      std::nan("");
  const TradeOff found = trade_off(cases, {}, 0.95);
  EXPECT_EQ(found.best, 1);
  EXPECT_FALSE(found.points[0].like_best || found.points[0].on_front);
  EXPECT_EQ(found.points[1].failed, 1);
  EXPECT_EQ(found.points[1].draws, 3);
  EXPECT_EQ(found.points[1].finishing, 1.0);
}

TEST(TradeOff, RefusesShapesThatDoNotFit) {
  TradeOffCases cases = cases_of(2, 3);
  TradeOffLimits limits;
  limits.hold = 90.0;
  EXPECT_NE(testing::refusal([&] { return trade_off(cases, limits, 0.95); }), "");
  EXPECT_NE(testing::refusal([&] { return trade_off(cases, {}, 1.0); }), "");
  cases.finished.conservativeResize(5);
  EXPECT_NE(testing::refusal([&] { return trade_off(cases, {}, 0.95); }), "");
}

}  // namespace
}  // namespace dullcast::analysis
