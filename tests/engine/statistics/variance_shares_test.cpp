#include "engine/statistics/variance_shares.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <functional>

#include "engine/statistics/counter_random.hpp"
#include "support/refusal.hpp"

namespace dullcast::statistics {
namespace {

/// f at A, B and every AB of a plain random sample in the unit cube.
Eigen::ArrayXXd sample(long rows, long factors, std::uint64_t seed,
                       const std::function<double(const Eigen::ArrayXd&)>& f) {
  Eigen::ArrayXXd outputs(rows, factors + 2);
  for (long row = 0; row < rows; ++row) {
    Eigen::ArrayXd A(factors), B(factors);
    for (long k = 0; k < factors; ++k) {
      A(k) = uniform_at(seed, 2 * static_cast<std::uint64_t>(row), static_cast<std::uint64_t>(k));
      B(k) = uniform_at(seed, 2 * static_cast<std::uint64_t>(row) + 1, static_cast<std::uint64_t>(k));
    }
    outputs(row, 0) = f(A);
    outputs(row, 1) = f(B);
    for (long k = 0; k < factors; ++k) {
      Eigen::ArrayXd AB = A;
      AB(k) = B(k);
      outputs(row, 2 + k) = f(AB);
    }
  }
  return outputs;
}

double linear(const Eigen::ArrayXd& x) {
  return 1000.0 + 3.0 * x(0) + 4.0 * x(1) + 0.0 * x(2);
}

TEST(VarianceShares, OfASumAreTheSquaresOfItsCoefficients) {
  // Independent uniforms: 9/25, 16/25, 0; alone and total are the same. Intervals at 99 % have to hold all
  // six.
  const VarianceShares found = variance_shares(sample(2000, 3, 4, linear), {1, 1000, 0.99});
  const double truth[] = {0.36, 0.64, 0.0};
  for (std::size_t k = 0; k < 3; ++k) {
    const VarianceShare& share = found.factors[k];
    EXPECT_GE(truth[k], share.alone_range.low - 1e-12);
    EXPECT_LE(truth[k], share.alone_range.high + 1e-12);
    EXPECT_GE(truth[k], share.total_range.low - 1e-12);
    EXPECT_LE(truth[k], share.total_range.high + 1e-12);
  }
  EXPECT_EQ(found.factors[2].total, 0.0) << "a factor that does nothing leaves f(AB) = f(A) to the bit";
  EXPECT_NEAR(found.variance, 25.0 / 12.0, 3.0 * 25.0 / 12.0 * std::sqrt(2.0 / 4000.0));
}

TEST(VarianceShares, AProductAroundItsMeanWorksOnlyTogether) {
  // (a - 1/2)(b - 1/2) has no share alone and all of it in total.
  const VarianceShares found =
      variance_shares(sample(4000, 2, 9, [](const Eigen::ArrayXd& x) { return (x(0) - 0.5) * (x(1) - 0.5); }),
                      {1, 1000, 0.99});
  for (const VarianceShare& share : found.factors) {
    EXPECT_GE(0.0, share.alone_range.low);
    EXPECT_LE(0.0, share.alone_range.high);
    EXPECT_GE(1.0, share.total_range.low);
    EXPECT_LE(1.0, share.total_range.high);
    EXPECT_LT(share.alone_range.high, 0.2) << "the interval is not so wide that it holds everything";
    EXPECT_GT(share.total_range.low, 0.8);
  }
}

TEST(VarianceShares, DoNotChangeWithTheOutputsZeroOrUnit) {
  const Eigen::ArrayXXd outputs = sample(300, 3, 2, linear);
  const VarianceShares a = variance_shares(outputs, {}), b = variance_shares(-7.0 * (outputs - 1000.0), {});
  for (std::size_t k = 0; k < 3; ++k) {
    // Rounding of a mean of 1000 over a spread of 1.4: some 1e-13.
    EXPECT_NEAR(a.factors[k].alone, b.factors[k].alone, 1e-11);
    EXPECT_NEAR(a.factors[k].total_range.high, b.factors[k].total_range.high, 1e-11);
  }
}

TEST(VarianceShares, ARowWithAFailureIsLeftOut) {
  Eigen::ArrayXXd outputs = sample(100, 3, 2, linear);
  const VarianceShares whole = variance_shares(outputs.bottomRows(99), {});
  outputs(0, 3) = std::nan("");
  const VarianceShares found = variance_shares(outputs, {});
  EXPECT_EQ(found.rows, 99);
  EXPECT_EQ(found.left_out, 1);
  EXPECT_EQ(found.factors[0].alone, whole.factors[0].alone);
}

TEST(VarianceShares, WhatNeverVariesHasNoShares) {
  const VarianceShares found = variance_shares(Eigen::ArrayXXd::Constant(50, 4, 0.1), {});
  EXPECT_TRUE(std::isnan(found.factors[0].alone) && std::isnan(found.factors[1].total_range.low));
  const VarianceShares none = variance_shares(Eigen::ArrayXXd::Constant(3, 4, std::nan("")), {});
  EXPECT_TRUE(std::isnan(none.factors[0].alone));
  EXPECT_EQ(none.left_out, 3);
  EXPECT_NE(testing::refusal([] { return variance_shares(Eigen::ArrayXXd::Zero(5, 2), {}); }), "");
}

}  // namespace
}  // namespace dullcast::statistics
