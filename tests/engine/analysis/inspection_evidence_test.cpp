#include "engine/analysis/inspection_evidence.hpp"

#include <gtest/gtest.h>

#include <Eigen/Dense>
#include <numeric>

#include "engine/statistics/counter_random.hpp"

namespace dullcast::analysis {
namespace {

const std::vector<NumberEffect> two_slopes{{"a", 0.6, 0.0}, {"b", -0.3, 0.0}};

TEST(WhatIsLeft, WithoutEvidenceIsTheSpreadsThemselves) {
  const WhatIsLeft left = what_is_left(two_slopes, std::nullopt);
  EXPECT_NEAR(left.variance, 0.45, 1e-15);
  EXPECT_EQ(left.pull, (std::vector<double>{0.6, -0.3}));
  EXPECT_NEAR(left.shares[0], 0.8, 1e-15);
  EXPECT_NEAR(left.shares[1], 0.2, 1e-15);
  EXPECT_EQ(left.inspection_share, 0.0);
}

/// Two numbers, of which the inspected bit's wear answers to a alone, read exactly: a is known, b is left.
/// The library's share of a, four fifths, is no cause of this band.
TEST(WhatIsLeft, WhatTheReadingToldIsNoCauseAnyMore) {
  InspectionEvidence evidence;
  evidence.effects = {{"a", 0.6, 0.0}, {"b", 0.0, 0.0}};
  const WhatIsLeft left = what_is_left(two_slopes, evidence);
  EXPECT_NEAR(left.variance, 0.09, 1e-15);
  EXPECT_NEAR(left.shares[0], 0.0, 1e-15);
  EXPECT_NEAR(left.shares[1], 1.0, 1e-15);
}

/// A reading with an error leaves the error: of the same bit with noise n, h^2 n^2/(h^2 + n^2), nearly all of
/// it the reading's where n is small beside h.
TEST(WhatIsLeft, TheSameBitReadSharplyLeavesTheReading) {
  InspectionEvidence evidence;
  evidence.effects = two_slopes;
  evidence.noise = 0.1;
  const WhatIsLeft left = what_is_left(two_slopes, evidence);
  EXPECT_NEAR(left.variance, 0.45 * 0.01 / 0.46, 1e-15);
  EXPECT_NEAR(left.inspection_share, 0.45 / 0.46, 1e-14);
  EXPECT_NEAR(left.shares[0] + left.shares[1], 0.01 / 0.46, 1e-14);
}

TEST(WhatIsLeft, NothingUncertainIsNothingShared) {
  const WhatIsLeft left = what_is_left({}, InspectionEvidence{});
  EXPECT_EQ(left.variance, 0.0);
  EXPECT_EQ(left.inspection_share, 0.0);
}

/// Drawn numbers, conditioned: their covariance is that of the inverse information matrix, 1 + g g^T/n^2 in
/// units of the 90 % point. Of 20000 draws a covariance is off by 1/sqrt(20000) = 0.007 as a standard
/// deviation; here within four of them.
TEST(ConditionDraw, DrawsHaveTheConditionedCovariance) {
  InspectionEvidence evidence;
  evidence.effects = {{"a", 0.8, 0.0}, {"b", -0.5, 0.0}, {"slate", 0.4, 0.0}};
  evidence.noise = 0.3;
  const std::vector<std::string> names{"a", "b", "c"};
  constexpr int draws = 20000;
  Eigen::Matrix3d seen = Eigen::Matrix3d::Zero();
  for (std::uint64_t k = 0; k < draws; ++k) {
    const auto normal = [&](std::uint64_t stream) { return statistics::standard_normal_at(5, stream, k); };
    std::vector<double> x{normal(1), normal(2), normal(3)};
    condition_draw(x, names, evidence, {normal(4)}, normal(5));
    const Eigen::Map<const Eigen::Vector3d> drawn(x.data());
    seen += drawn * drawn.transpose() / draws;
  }
  Eigen::Vector4d g(0.8, -0.5, 0.0, 0.4);
  const Eigen::Matrix4d left = (Eigen::Matrix4d::Identity() + g * g.transpose() / (0.3 * 0.3)).inverse();
  EXPECT_LT((seen - left.topLeftCorner<3, 3>()).cwiseAbs().maxCoeff(), 0.028);
  EXPECT_GT((seen - Eigen::Matrix3d::Identity()).cwiseAbs().maxCoeff(), 0.3) << "or it could not fail";
}

}  // namespace
}  // namespace dullcast::analysis
