#include "engine/statistics/correlated_shares.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "engine/statistics/counter_random.hpp"
#include "models/common/constants.hpp"

namespace dullcast::statistics {
namespace {

TEST(CorrelatedShares, TheRootSquaredIsTheCorrelation) {
  Eigen::Matrix3d wanted;
  wanted << 1.0, -0.8, 0.3, -0.8, 1.0, 0.1, 0.3, 0.1, 1.0;
  const Eigen::MatrixXd root = correlation_root(wanted);
  EXPECT_LT((root * root - wanted).cwiseAbs().maxCoeff(), 1e-14);
  // Two that are one: a singular matrix has a root as well.
  const Eigen::Matrix2d one = Eigen::Matrix2d::Ones();
  EXPECT_LT((correlation_root(one) * correlation_root(one) - one).cwiseAbs().maxCoeff(), 1e-14);
}

/// Each share stays uniform, and their rank correlation is (6/pi) asin(r/2), as for any normal copula [hb:
/// Kruskal, J. Am. Stat. Assoc. 53, 1958]. Of 20000 draws a mean product is off by 1/(12 sqrt(20000)) = 6e-4
/// of 1/12, a correlation by 0.007, a mean by 0.002: here within four of them.
TEST(CorrelatedShares, SharesStayUniformWithTheRankCorrelationOfANormalCopula) {
  constexpr double r = -0.8;
  const Eigen::Matrix2d wanted = (Eigen::Matrix2d() << 1.0, r, r, 1.0).finished();
  const Eigen::MatrixXd root = correlation_root(wanted);
  constexpr int draws = 20000;
  double mean = 0.0, square = 0.0, product = 0.0;
  for (std::uint64_t k = 0; k < draws; ++k) {
    std::vector<double> shares{uniform_at(3, 1, k), uniform_at(3, 2, k)};
    make_go_together(shares, root);
    mean += shares[0] / draws;
    square += (shares[0] - 0.5) * (shares[0] - 0.5) / draws;
    product += (shares[0] - 0.5) * (shares[1] - 0.5) / draws;
  }
  EXPECT_NEAR(mean, 0.5, 0.008);
  EXPECT_NEAR(square, 1.0 / 12.0, 0.0025);
  EXPECT_NEAR(12.0 * product, 6.0 / pi * std::asin(r / 2.0), 0.028);
}

TEST(CorrelatedShares, WhatGoesWithNothingStaysToTheLastBit) {
  Eigen::Matrix3d wanted = Eigen::Matrix3d::Identity();
  wanted(0, 2) = wanted(2, 0) = 0.5;
  std::vector<double> shares{0.2, 0.123456789, 0.9};
  make_go_together(shares, correlation_root(wanted));
  EXPECT_EQ(shares[1], 0.123456789);
  EXPECT_NE(shares[0], 0.2);
  EXPECT_THROW(make_go_together(shares, Eigen::Matrix2d::Identity()), std::invalid_argument);
}

}  // namespace
}  // namespace dullcast::statistics
