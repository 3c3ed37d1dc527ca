#include "engine/analysis/numbers_left.hpp"

#include <gtest/gtest.h>

#include "engine/statistics/counter_random.hpp"

namespace dullcast::analysis {
namespace {

const std::vector<NumberEffect> two_slopes{{"a", 0.6, 0.0}, {"b", -0.3, 0.0}};

scenario::NumbersTogether pair(double correlation) {
  scenario::NumbersTogether together;
  together.names = {"b", "slate", "a"};
  together.correlation = Eigen::Matrix3d::Identity();
  together.correlation(0, 2) = together.correlation(2, 0) = correlation;
  return together;
}

TEST(WhatIsLeft, OfIndependentNumbersIsTheSpreadsThemselves) {
  const WhatIsLeft left = what_is_left(two_slopes, {});
  EXPECT_NEAR(left.variance, 0.45, 1e-15);
  EXPECT_EQ(left.pull, (std::vector<double>{0.6, -0.3}));
  EXPECT_NEAR(left.shares[0], 0.8, 1e-15);
  EXPECT_NEAR(left.shares[1], 0.2, 1e-15);
  EXPECT_EQ(what_is_left({}, {}).variance, 0.0);
}

/// Variance of a sum, written out: s_a^2 + s_b^2 + 2 rho s_a s_b. Two numbers of equal effect share it
/// evenly, whatever their correlation, since nothing tells them apart.
TEST(WhatIsLeft, NumbersThatGoTogetherAddAsACorrelatedSum) {
  const WhatIsLeft left = what_is_left(two_slopes, pair(0.9));
  EXPECT_NEAR(left.variance, 0.36 + 0.09 - 2.0 * 0.9 * 0.18, 1e-14);
  EXPECT_NEAR(left.pull[0], 0.6 - 0.27, 1e-14);
  EXPECT_NEAR(left.pull[1], -0.3 + 0.54, 1e-14);
  EXPECT_NEAR(left.shares[0] + left.shares[1], 1.0, 1e-14);
  for (const double share : left.shares) EXPECT_GE(share, 0.0);
  const WhatIsLeft even = what_is_left({{"a", 0.5, 0.0}, {"b", 0.5, 0.0}}, pair(-0.7));
  EXPECT_NEAR(even.variance, 0.5 - 0.35, 1e-14);
  EXPECT_NEAR(even.shares[0], 0.5, 1e-12);
}

/// With two numbers the root of [[1, r], [r, 1]] has (sqrt(1 + r) +- sqrt(1 - r))/2: the relative weights by
/// hand, for r = 0.6 and slopes 1 and 0 [Johnson 2000]: diagonal c = 0.948683, off it d = 0.316228, so
/// (c^2 c^2 + d^2 d^2, 2 c^2 d^2) = (0.82, 0.18).
TEST(WhatIsLeft, SharesAreJohnsonsRelativeWeights) {
  const WhatIsLeft left = what_is_left({{"a", 1.0, 0.0}, {"b", 0.0, 0.0}}, pair(0.6));
  EXPECT_NEAR(left.shares[0], 0.82, 1e-12);
  EXPECT_NEAR(left.shares[1], 0.18, 1e-12);
}

/// Two that are known together exactly leave nothing where they cancel.
TEST(WhatIsLeft, AProductKnownExactlyLeavesNothing) {
  EXPECT_NEAR(what_is_left({{"a", 0.5, 0.0}, {"b", 0.5, 0.0}}, pair(-1.0)).variance, 0.0, 1e-15);
}

/// Of 20000 draws a covariance is off by 1/sqrt(20000) = 0.007 as a standard deviation; here within four.
TEST(DrawTogether, DrawsHaveTheCorrelation) {
  constexpr int draws = 20000;
  Eigen::Matrix3d seen = Eigen::Matrix3d::Zero();
  for (std::uint64_t k = 0; k < draws; ++k) {
    const auto normal = [&](std::uint64_t stream) { return statistics::standard_normal_at(5, stream, k); };
    std::vector<double> x{normal(1), normal(2), normal(3)};
    draw_together(x, {"a", "b", "c"}, pair(-0.8));
    const Eigen::Map<const Eigen::Vector3d> drawn(x.data());
    seen += drawn * drawn.transpose() / draws;
  }
  Eigen::Matrix3d wanted = Eigen::Matrix3d::Identity();
  wanted(0, 1) = wanted(1, 0) = -0.8;
  EXPECT_LT((seen - wanted).cwiseAbs().maxCoeff(), 0.028);
}

}  // namespace
}  // namespace dullcast::analysis
