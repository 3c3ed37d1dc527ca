#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <numeric>
#include <vector>

#include "engine/statistics/counter_random.hpp"
#include "engine/statistics/elementary_effects.hpp"
#include "engine/statistics/variance_shares.hpp"
#include "models/common/constants.hpp"

// Sensitivities by the estimators of sweeps, held against functions whose answers are published.
namespace dullcast::published {
namespace {

using Function = std::function<double(const Eigen::ArrayXd&)>;

/// f at A, B, AB_1 .. AB_k of plain random rows in the unit cube.
Eigen::ArrayXXd random_rows(long rows, long factors, std::uint64_t seed, const Function& f) {
  Eigen::ArrayXXd outputs(rows, factors + 2);
  for (long row = 0; row < rows; ++row) {
    Eigen::ArrayXd A(factors), B(factors);
    for (long k = 0; k < factors; ++k) {
      A(k) = statistics::uniform_at(seed, 2 * static_cast<std::uint64_t>(row), static_cast<std::uint64_t>(k));
      B(k) = statistics::uniform_at(seed, 2 * static_cast<std::uint64_t>(row) + 1,
                                    static_cast<std::uint64_t>(k));
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

/// Ishigami & Homma, Proc. ISUMA '90, 1990 [pub]: sin x1 + a sin^2 x2 + b x3^4 sin x1 over -pi..pi.
double ishigami(const Eigen::ArrayXd& u) {
  const Eigen::ArrayXd x = pi * (2.0 * u - 1.0);
  const double s = std::sin(x(1));
  return std::sin(x(0)) + 7.0 * s * s + 0.1 * std::pow(x(2), 4) * std::sin(x(0));
}

struct TrueShares {
  double alone[3], total[3], variance;
};

/// Closed forms of the same paper for a = 7, b = 0.1.
TrueShares ishigami_shares() {
  const double a = 7.0, b = 0.1, p4 = std::pow(pi, 4), p8 = p4 * p4;
  const double V1 = 0.5 * (1.0 + b * p4 / 5.0) * (1.0 + b * p4 / 5.0), V2 = a * a / 8.0,
               V13 = b * b * p8 * (1.0 / 18.0 - 1.0 / 50.0), V = V1 + V2 + V13;
  return {{V1 / V, V2 / V, 0.0}, {(V1 + V13) / V, V2 / V, V13 / V}, V};
}

TEST(SweepSensitivities, IshigamisSharesAsPublished) {
  const TrueShares truth = ishigami_shares();
  // The printed figures, four each: 0.3139, 0.4424, 0; 0.5576, 0.4424, 0.2437.
  EXPECT_NEAR(truth.alone[0], 0.3139, 5e-5);
  EXPECT_NEAR(truth.alone[1], 0.4424, 5e-5);
  EXPECT_NEAR(truth.total[0], 0.5576, 5e-5);
  EXPECT_NEAR(truth.total[2], 0.2437, 5e-5);
  // All six within the estimate's own intervals at 99.9 %, which are narrow enough to tell the factors apart.
  const statistics::VarianceShares found =
      statistics::variance_shares(random_rows(8192, 3, 1, ishigami), {1, 2000, 0.999});
  for (std::size_t k = 0; k < 3; ++k) {
    const statistics::VarianceShare& share = found.factors[k];
    EXPECT_GE(truth.alone[k], share.alone_range.low) << k;
    EXPECT_LE(truth.alone[k], share.alone_range.high) << k;
    EXPECT_GE(truth.total[k], share.total_range.low) << k;
    EXPECT_LE(truth.total[k], share.total_range.high) << k;
    EXPECT_LT(share.alone_range.high - share.alone_range.low, 0.15) << k;
    EXPECT_LT(share.total_range.high - share.total_range.low, 0.15) << k;
  }
  // Of 16,384 draws; standard error of a variance at kurtosis 3.5 or less: V sqrt(2.5/16384), three of them.
  EXPECT_NEAR(found.variance / truth.variance, 1.0, 3.0 * std::sqrt(2.5 / 16384.0));
}

TEST(SweepSensitivities, IntervalsOfIshigamisSharesCover) {
  // 200 samples of 512 rows, six shares each, 90 % intervals. 0.90 less three standard errors of 200 (6.4 %;
  // the six shares of a sample are not independent), and less 3 % for what percentile intervals fall short
  // by.
  const TrueShares truth = ishigami_shares();
  int covered[6] = {};
  for (std::uint64_t sample = 0; sample < 200; ++sample) {
    const statistics::VarianceShares found =
        statistics::variance_shares(random_rows(512, 3, 100 + sample, ishigami), {1, 200, 0.9});
    for (std::size_t k = 0; k < 3; ++k) {
      const statistics::VarianceShare& share = found.factors[k];
      covered[k] +=
          share.alone_range.low <= truth.alone[k] && truth.alone[k] <= share.alone_range.high ? 1 : 0;
      covered[3 + k] +=
          share.total_range.low <= truth.total[k] && truth.total[k] <= share.total_range.high ? 1 : 0;
    }
  }
  for (int k = 0; k < 6; ++k) EXPECT_GE(covered[k] / 200.0, 0.90 - 0.094) << k;
}

/// Walks on a grid of four levels with steps of 2/3 up or down, as in Morris, Technometrics 33, 1991 [pub].
Eigen::ArrayXXd morris_walks(long walks, long factors, std::uint64_t seed) {
  Eigen::ArrayXXd x(walks * (factors + 1), factors);
  for (long walk = 0; walk < walks; ++walk) {
    const auto stream = static_cast<std::uint64_t>(walk);
    std::vector<long> order(static_cast<std::size_t>(factors));
    std::iota(order.begin(), order.end(), 0L);
    for (long k = factors - 1; k > 0; --k) {
      const auto other = static_cast<std::size_t>(
          statistics::uniform_at(seed, stream, static_cast<std::uint64_t>(k)) * static_cast<double>(k + 1));
      std::swap(order[static_cast<std::size_t>(k)], order[other]);
    }
    const long first = walk * (factors + 1);
    for (long k = 0; k < factors; ++k)
      x(first, k) =
          std::floor(4.0 * statistics::uniform_at(seed, stream, static_cast<std::uint64_t>(1000 + k))) / 3.0;
    for (long step = 0; step < factors; ++step) {
      x.row(first + step + 1) = x.row(first + step);
      double& moved = x(first + step + 1, order[static_cast<std::size_t>(step)]);
      moved += moved < 0.5 ? 2.0 / 3.0 : -2.0 / 3.0;
    }
  }
  return x;
}

Eigen::ArrayXd outputs_of(const Eigen::ArrayXXd& x, const Function& f) {
  Eigen::ArrayXd y(x.rows());
  for (Eigen::Index k = 0; k < x.rows(); ++k) y(k) = f(x.row(k).transpose());
  return y;
}

TEST(SweepSensitivities, ElementaryEffectsOfALinearFunctionAreItsCoefficients) {
  const Eigen::ArrayXXd x = morris_walks(6, 4, 3);
  Eigen::ArrayXd c(4);
  c << 5.0, -3.0, 0.0, 0.25;
  const statistics::ElementaryEffects found =
      statistics::elementary_effects(outputs_of(x, [&](const auto& u) { return (c * u).sum(); }), x, {});
  for (Eigen::Index k = 0; k < 4; ++k) {
    const statistics::ElementaryEffect& effect = found.factors[static_cast<std::size_t>(k)];
    // Rounding of sums of size 5 over a step of 2/3.
    EXPECT_NEAR(effect.mean, c(k), 1e-14);
    EXPECT_NEAR(effect.mean_size, std::abs(c(k)), 1e-14);
    EXPECT_NEAR(effect.spread, 0.0, 1e-14);
  }
}

/// The function of 20 factors in section 5 of Morris 1991 [pub], from memory; the coefficients that he drew
/// from a standard normal are drawn here with `seed`.
Function morris_function(std::uint64_t seed) {
  Eigen::ArrayXd one(20);
  Eigen::ArrayXXd two(20, 20);
  for (Eigen::Index i = 0; i < 20; ++i) {
    one(i) = i < 10 ? 20.0 : statistics::standard_normal_at(seed, 0, static_cast<std::uint64_t>(i));
    for (Eigen::Index j = 0; j < 20; ++j)
      two(i, j) = i < 6 && j < 6
                      ? -15.0
                      : statistics::standard_normal_at(seed, 1, static_cast<std::uint64_t>(20 * i + j));
  }
  return [=](const Eigen::ArrayXd& x) {
    Eigen::ArrayXd w = 2.0 * (x - 0.5);
    for (const Eigen::Index k : {2, 4, 6}) w(k) = 2.0 * (1.1 * x(k) / (x(k) + 0.1) - 0.5);
    double y = (one * w).sum();
    for (Eigen::Index i = 0; i < 20; ++i)
      for (Eigen::Index j = i + 1; j < 20; ++j) y += two(i, j) * w(i) * w(j);
    for (Eigen::Index i = 0; i < 5; ++i)
      for (Eigen::Index j = i + 1; j < 5; ++j)
        for (Eigen::Index l = j + 1; l < 5; ++l) y -= 10.0 * w(i) * w(j) * w(l);
    return y + 5.0 * w(0) * w(1) * w(2) * w(3);
  };
}

TEST(SweepSensitivities, MorrissTwentyFactorsFallIntoHisGroups) {
  // His four walks were one draw of luck; twenty leave none. Factors 1-10 matter, 11-20 do not; 8-10 act
  // alone and nearly straight, 1-7 bend or act together (his figure 1).
  const Eigen::ArrayXXd x = morris_walks(20, 20, 8);
  const statistics::ElementaryEffects found =
      statistics::elementary_effects(outputs_of(x, morris_function(5)), x, {});
  double least_of_ten = 1e300, most_of_rest = 0.0, most_bent_of_straight = 0.0, least_bent = 1e300;
  for (std::size_t k = 0; k < 20; ++k) {
    const statistics::ElementaryEffect& effect = found.factors[k];
    if (k < 10) least_of_ten = std::min(least_of_ten, effect.mean_size_range.low);
    if (k >= 10) most_of_rest = std::max(most_of_rest, effect.mean_size_range.high);
    if (k < 7) least_bent = std::min(least_bent, effect.spread);
    if (k >= 7 && k < 10) most_bent_of_straight = std::max(most_bent_of_straight, effect.spread);
  }
  EXPECT_GT(least_of_ten, most_of_rest) << "even the ends of their intervals";
  EXPECT_GT(least_bent, most_bent_of_straight);
  // Straight factors: 20 w with w = 2 x - 1, so 40 a range, give or take pairs of N(0, 1) (2 sqrt(19) |w| or
  // so).
  for (std::size_t k = 7; k < 10; ++k) EXPECT_NEAR(found.factors[k].mean, 40.0, 2.0 * std::sqrt(19.0)) << k;
}

}  // namespace
}  // namespace dullcast::published
