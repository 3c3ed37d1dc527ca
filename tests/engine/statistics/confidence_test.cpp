#include "engine/statistics/confidence.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "support/refusal.hpp"

namespace dullcast::statistics {
namespace {

TEST(Confidence, AChanceIntervalIsWhereEachTailHasHalfOfTheRest) {
  // The definition of Clopper & Pearson: at the low end, that many successes or more have a chance of a/2; at
  // the high end, that many or fewer. For 2 of 3 in closed form: P(X >= 2) = 3 p^2 - 2 p^3, P(X <= 2) = 1 -
  // p^3.
  const Interval found = probability_interval(2, 3, 0.9);
  EXPECT_NEAR(3.0 * found.low * found.low - 2.0 * std::pow(found.low, 3), 0.05, 1e-12);
  EXPECT_NEAR(1.0 - std::pow(found.high, 3), 0.05, 1e-12);
}

TEST(Confidence, NoneOrAllLeaveOneSideAtItsEnd) {
  EXPECT_EQ(probability_interval(0, 7, 0.95).low, 0.0);
  EXPECT_EQ(probability_interval(7, 7, 0.95).high, 1.0);
  // (1 - p)^7 = a/2.
  EXPECT_NEAR(probability_interval(0, 7, 0.95).high, 1.0 - std::pow(0.025, 1.0 / 7.0), 1e-12);
  EXPECT_EQ(probability_interval(0, 0, 0.95).low, 0.0);
  EXPECT_EQ(probability_interval(0, 0, 0.95).high, 1.0);
}

TEST(Confidence, NormalPointOfTheTables) {
  // Tables of the normal distribution [hb], six figures.
  EXPECT_NEAR(two_sided_normal_point(0.95), 1.959964, 5e-7);
  EXPECT_NEAR(two_sided_normal_point(0.99), 2.575829, 5e-7);
}

TEST(Confidence, RefusesWhatIsNoConfidence) {
  for (const double wrong : {0.0, 1.0, -0.1, 95.0, std::nan("")}) {
    EXPECT_NE(testing::refusal([&] { return two_sided_normal_point(wrong); }), "") << wrong;
    EXPECT_NE(testing::refusal([&] { return probability_interval(1, 2, wrong); }), "") << wrong;
  }
  EXPECT_NE(testing::refusal([] { return probability_interval(3, 2, 0.95); }), "");
  EXPECT_NE(testing::refusal([] { return probability_interval(-1, 2, 0.95); }), "");
}

}  // namespace
}  // namespace dullcast::statistics
