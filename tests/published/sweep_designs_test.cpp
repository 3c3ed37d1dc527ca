#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <numeric>

#include "engine/statistics/counter_random.hpp"
#include "engine/statistics/quantile_bounds.hpp"
#include "engine/statistics/variance_shares.hpp"
#include "engine/sweep/design.hpp"
#include "models/common/constants.hpp"

// The points and the draws that a sweep is made of, held against what others published.
namespace dullcast::published {
namespace {

sweep::Design design_of(sweep::DesignKind kind, long points, int axes, long seed) {
  sweep::SweepPlan plan;
  plan.design.kind = kind;
  plan.design.points = points;
  plan.seed = seed;
  return sweep::Design(plan, axes);
}

/// A Sobol coordinate without its shift: its 52 bits XORed with those of the origin, which the shift alone
/// makes.
std::uint64_t unshifted(const sweep::Design& design, long p, Eigen::Index axis) {
  const auto bits = [&](long point) {
    return static_cast<std::uint64_t>(std::floor(design.point(point)(axis) * 0x1p52));
  };
  return bits(p) ^ bits(0);
}

TEST(SweepDesigns, FirstSobolPointsAsJoeAndKuoPrintThem) {
  // The output of their program for ten points of three axes with new-joe-kuo-6 (F. Y. Kuo's page of Sobol
  // sequence generators, UNSW [pub], from memory, seen again in two public collections of tests).
  const double points[10][3] = {{0, 0, 0},
                                {0.5, 0.5, 0.5},
                                {0.75, 0.25, 0.25},
                                {0.25, 0.75, 0.75},
                                {0.375, 0.375, 0.625},
                                {0.875, 0.875, 0.125},
                                {0.625, 0.125, 0.875},
                                {0.125, 0.625, 0.375},
                                {0.1875, 0.3125, 0.9375},
                                {0.6875, 0.8125, 0.4375}};
  const sweep::Design design = design_of(sweep::DesignKind::sobol_sequence, 10, 3, 77);
  for (long p = 0; p < 10; ++p) {
    for (Eigen::Index axis = 0; axis < 3; ++axis) {
      EXPECT_EQ(static_cast<double>(unshifted(design, p, axis)) * 0x1p-52, points[p][axis])
          << p << ", " << axis;
    }
  }
}

TEST(SweepDesigns, SobolPointsFromJoeAndKuosDirectionNumbers) {
  // Degree s, inner coefficients a of the polynomial and first m of axes 2 to 10: Joe & Kuo, SIAM J. Sci.
  // Comput. 30, 2008, table new-joe-kuo-6 [pub]; m_k = 2 a_1 m_(k-1) ^ ... ^ 2^s m_(k-s) ^ m_(k-s); the point
  // p is the XOR of v_k = m_k/2^k over the bits of p's Gray code (Antonov & Saleev 1979 [pub]).
  struct Axis {
    int s;
    unsigned a;
    std::array<std::uint64_t, 5> m;
  };
  const Axis axes[9] = {{1, 0, {1}},
                        {2, 1, {1, 3}},
                        {3, 1, {1, 3, 1}},
                        {3, 2, {1, 1, 1}},
                        {4, 1, {1, 1, 3, 3}},
                        {4, 4, {1, 3, 5, 13}},
                        {5, 2, {1, 1, 5, 5, 17}},
                        {5, 4, {1, 1, 5, 5, 5}},
                        {5, 7, {1, 1, 7, 11, 19}}};
  const sweep::Design design = design_of(sweep::DesignKind::sobol_sequence, 1L << 40, 10, 5);
  for (Eigen::Index axis = 0; axis < 10; ++axis) {
    std::array<std::uint64_t, 52> v{};
    std::array<std::uint64_t, 52> m{};
    for (std::size_t k = 0; k < 52; ++k) {
      m[k] = 1;
      if (axis > 0) {
        const Axis& of = axes[axis - 1];
        const auto s = static_cast<std::size_t>(of.s);
        if (k < s) {
          m[k] = of.m[k];
        } else {
          m[k] = m[k - s] ^ (m[k - s] << s);
          for (std::size_t i = 1; i < s; ++i) {
            if ((of.a >> (s - 1 - i)) & 1u) m[k] ^= m[k - i] << i;
          }
        }
      }
      v[k] = m[k] << (51 - k);
    }
    std::vector<long> tried(300);
    std::iota(tried.begin(), tried.end(), 0L);
    for (const long p : {4095L, 4096L, 65537L, 999'999L, 123'456'789L, (1L << 40) - 1}) tried.push_back(p);
    for (const long p : tried) {
      const std::uint64_t gray = static_cast<std::uint64_t>(p) ^ (static_cast<std::uint64_t>(p) >> 1);
      std::uint64_t expected = 0;
      for (std::size_t k = 0; k < 52; ++k) {
        if ((gray >> k) & 1u) expected ^= v[k];
      }
      ASSERT_EQ(unshifted(design, p, axis), expected) << "point " << p << ", axis " << axis;
    }
  }
}

/// Product of 1 + c_k (u_k - 1/2): mean 1, variance prod(1 + c_k^2/12) - 1.
double product(const Eigen::ArrayXd& u) {
  return (1.0 + (u - 0.5) * Eigen::Array4d(1.0, 0.8, 0.6, 0.4)).prod();
}
const double product_variance =
    (1.0 + 1.0 / 12.0) * (1.0 + 0.64 / 12.0) * (1.0 + 0.36 / 12.0) * (1.0 + 0.16 / 12.0) - 1.0;

struct Errors {
  double root_mean_square = 0.0, mean = 0.0;
};

Errors errors_of(sweep::DesignKind kind, long points, long seeds) {
  Errors errors;
  for (long seed = 1; seed <= seeds; ++seed) {
    const sweep::Design design = design_of(kind, points, 4, seed);
    double error = -1.0;
    for (long p = 0; p < points; ++p) error += product(design.point(p)) / static_cast<double>(points);
    errors.mean += error / static_cast<double>(seeds);
    errors.root_mean_square += error * error / static_cast<double>(seeds);
  }
  errors.root_mean_square = std::sqrt(errors.root_mean_square);
  return errors;
}

TEST(SweepDesigns, SobolPointsIntegrateFasterThanChanceAndWithoutBias) {
  // Over 40 seeds (shifts). By chance the error is sqrt(V/n). For a smooth function in a few dimensions a
  // shifted net's falls nearly as 1/n (Niederreiter 1992 [hb]): a slope of -0.85 or steeper from 2^4 to 2^12,
  // whose own standard error is sqrt(1/80)/(ln 2 sqrt(60)) = 0.02; and at 2^12 points it is less than a tenth
  // of chance's. Errors of opposite shifts cancel: their mean within four standard errors of 0.
  double x = 0, y = 0, xx = 0, xy = 0, last = 0;
  for (int m = 4; m <= 12; ++m) {
    const Errors errors = errors_of(sweep::DesignKind::sobol_sequence, 1L << m, 40);
    const double a = m * std::log(2.0), b = std::log(errors.root_mean_square);
    x += a / 9.0;
    y += b / 9.0;
    xx += a * a / 9.0;
    xy += a * b / 9.0;
    last = errors.root_mean_square;
    EXPECT_LT(std::abs(errors.mean), 4.0 * errors.root_mean_square / std::sqrt(40.0)) << m;
  }
  RecordProperty("slope", std::to_string((xy - x * y) / (xx - x * x)));
  EXPECT_LT((xy - x * y) / (xx - x * x), -0.85);
  EXPECT_LT(last, 0.1 * std::sqrt(product_variance / 4096.0));
}

TEST(SweepDesigns, LatinHypercubesErrorIsWhatSteinLeavesOfIt) {
  // Stein, Technometrics 29, 1987 [pub]: what is additive is integrated almost exactly, the rest as by
  // chance: the variance is (V - sum of V_k)/n. Here V_k = c_k^2/12. 400 seeds: four standard errors of a
  // root mean square, 1/sqrt(800); and 1/n of V for the places in the slices.
  const long n = 128;
  const Errors errors = errors_of(sweep::DesignKind::latin_hypercube, n, 400);
  const double rest = product_variance - (1.0 + 0.64 + 0.36 + 0.16) / 12.0;
  EXPECT_NEAR(errors.root_mean_square / std::sqrt(rest / static_cast<double>(n)), 1.0,
              4.0 / std::sqrt(800.0) + product_variance / rest / static_cast<double>(n * n));
  EXPECT_LT(std::abs(errors.mean), 4.0 * errors.root_mean_square / std::sqrt(400.0));
}

/// Ishigami & Homma, Proc. ISUMA '90, 1990 [pub]: sin x1 + 7 sin^2 x2 + 0.1 x3^4 sin x1 over -pi..pi.
double ishigami(const Eigen::ArrayXd& u) {
  const Eigen::ArrayXd x = pi * (2.0 * u - 1.0);
  const double s = std::sin(x(1));
  return std::sin(x(0)) + 7.0 * s * s + 0.1 * std::pow(x(2), 4) * std::sin(x(0));
}

TEST(SweepDesigns, IshigamisSharesThroughTheDesign) {
  // 4096 base points. Closed forms of the same paper, to four figures as printed: S 0.3139, 0.4424, 0; ST
  // 0.5576, 0.4424, 0.2437; variance 13.8446. Within the estimate's own 99 % intervals (which take rows for
  // chance and so are wide for Sobol points), and within 0.005 of the printed figures for each of five seeds:
  // the worst of fifty was 0.0033, while by chance so many rows have standard errors of 0.01 and more.
  const double alone[3] = {0.3139, 0.4424, 0.0}, total[3] = {0.5576, 0.4424, 0.2437};
  for (long seed = 1; seed <= 5; ++seed) {
    const sweep::Design design = design_of(sweep::DesignKind::variance_shares, 4096, 3, seed);
    ASSERT_EQ(design.points(), 4096 * 5);
    Eigen::ArrayXXd outputs(4096, 5);
    for (long p = 0; p < design.points(); ++p) outputs(p / 5, p % 5) = ishigami(design.point(p));
    const statistics::VarianceShares found = statistics::variance_shares(outputs, {1, 400, 0.99});
    for (std::size_t k = 0; k < 3; ++k) {
      const statistics::VarianceShare& share = found.factors[k];
      EXPECT_NEAR(share.alone, alone[k], 0.005) << seed << ", factor " << k + 1;
      EXPECT_NEAR(share.total, total[k], 0.005) << seed << ", factor " << k + 1;
      // Half of the printed figures' last place.
      EXPECT_GE(alone[k], share.alone_range.low - 5e-5) << seed << ", factor " << k + 1;
      EXPECT_LE(alone[k], share.alone_range.high + 5e-5) << seed << ", factor " << k + 1;
      EXPECT_GE(total[k], share.total_range.low - 5e-5) << seed << ", factor " << k + 1;
      EXPECT_LE(total[k], share.total_range.high + 5e-5) << seed << ", factor " << k + 1;
      EXPECT_LT(share.alone_range.high - share.alone_range.low, 0.15);
    }
    EXPECT_NEAR(found.variance / 13.8446, 1.0, 0.01) << seed;
  }
}

TEST(SweepDesigns, LognormalQuantilesThroughALinearModel) {
  // Wear = k W with k lognormal is lognormal again, with W times the median and the same spread [hb:
  // Aitchison & Brown 1957]: P10, P50, P90 at m W exp(-+1.281552 b). Order statistics of 300 draws bound each
  // of them with the coverage that they state (David & Nagaraja 2003, 7.1 [hb]), which is exact for
  // independent draws: the share of 1000 seeds covered within four standard errors.
  const statistics::Distribution wear{statistics::Distribution::Kind::lognormal, 1e-17, 0.7};
  const double W = 33e3;
  for (const auto& [share, z] : {std::pair{0.1, -1.281552}, {0.5, 0.0}, {0.9, 1.281552}}) {
    const double truth = 1e-17 * W * std::exp(0.7 * z);
    double covered = 0.0;
    for (std::uint64_t seed = 0; seed < 1000; ++seed) {
      Eigen::ArrayXd draws(300);
      for (Eigen::Index k = 0; k < 300; ++k)
        draws(k) =
            W * statistics::quantile(wear, statistics::uniform_at(seed, 1, static_cast<std::uint64_t>(k)));
      const statistics::QuantileBounds bounds = statistics::quantile_bounds(draws, share, 0.9);
      ASSERT_TRUE(bounds.enough());
      covered += bounds.low <= truth && truth <= bounds.high ? 1e-3 : 0.0;
    }
    const double stated = statistics::quantile_ranks(300, share, 0.9).coverage;
    EXPECT_NEAR(covered, stated, 4.0 * std::sqrt(stated * (1.0 - stated) / 1000.0)) << share;
  }
}

TEST(SweepDesigns, EvenDesignsGiveTheSameQuantilesCloser) {
  // The same law through one axis of a Latin hypercube and of a Sobol sequence of 1024 points: with one point
  // in every slice the order statistic next to a quantile is at most a slice off, whatever the seed: in the
  // logarithm 0.7/1024 over the density at z, 0.17550 at 1.281552 and 0.39894 at 0 [hb], and once more for
  // the estimate being the least draw that the share reaches.
  const statistics::Distribution wear{statistics::Distribution::Kind::lognormal, 1e-17, 0.7};
  for (const sweep::DesignKind kind :
       {sweep::DesignKind::latin_hypercube, sweep::DesignKind::sobol_sequence}) {
    for (long seed = 1; seed <= 20; ++seed) {
      const sweep::Design design = design_of(kind, 1024, 3, seed);
      Eigen::ArrayXd draws(1024);
      for (long p = 0; p < 1024; ++p) draws(p) = statistics::quantile(wear, design.point(p)(2));
      for (const auto& [share, z, density] :
           {std::array{0.1, -1.281552, 0.1755}, {0.5, 0.0, 0.39894}, {0.9, 1.281552, 0.1755}}) {
        const statistics::QuantileBounds bounds = statistics::quantile_bounds(draws, share, 0.95);
        EXPECT_NEAR(std::log(bounds.value / 1e-17), 0.7 * z, 2.0 * 0.7 / 1024.0 / density) << share;
        EXPECT_LE(bounds.low, 1e-17 * std::exp(0.7 * z));
        EXPECT_GE(bounds.high, 1e-17 * std::exp(0.7 * z));
      }
    }
  }
}

TEST(SweepDesigns, ErrorOfAMeanOverDrawsFallsAsTheRootOfTheirNumber) {
  // Mean of a lognormal value over n draws, n = 32 .. 8192, 200 seeds each: the root-mean-square error's
  // logarithm against that of n has slope -1/2. Each logarithm's standard error is sqrt((kurtosis - 1)/(4
  // 200)), with the mean's kurtosis 3 + 8.9/n for a spread of 0.5 (that of the lognormal law over n); the
  // slope's follows from the nine places. Within three of it. The level is sqrt(V/n), V = m^2 e^(b^2)(e^(b^2)
  // - 1).
  const statistics::Distribution value{statistics::Distribution::Kind::lognormal, 2.0, 0.5};
  const double mean = 2.0 * std::exp(0.125), variance = 4.0 * std::exp(0.25) * std::expm1(0.25);
  double x = 0, y = 0, xx = 0, xy = 0;
  for (int m = 5; m <= 13; ++m) {
    const std::uint64_t n = std::uint64_t{1} << m;
    double square = 0.0;
    for (std::uint64_t seed = 0; seed < 200; ++seed) {
      double sum = 0.0;
      for (std::uint64_t k = 0; k < n; ++k)
        sum += statistics::quantile(value, statistics::uniform_at(1000 * n + seed, 1, k)) /
               static_cast<double>(n);
      square += (sum - mean) * (sum - mean) / 200.0;
    }
    const double a = m * std::log(2.0), b = 0.5 * std::log(square);
    EXPECT_NEAR(std::sqrt(square * static_cast<double>(n) / variance), 1.0, 4.0 / std::sqrt(400.0)) << n;
    x += a / 9.0;
    y += b / 9.0;
    xx += a * a / 9.0;
    xy += a * b / 9.0;
  }
  const double slope_error = std::sqrt(1.0 / 400.0) / std::sqrt(9.0 * (xx - x * x));
  EXPECT_NEAR((xy - x * y) / (xx - x * x), -0.5, 3.0 * slope_error);
  EXPECT_LT(slope_error, 0.01) << "narrow enough to tell -1/2 from another law";
}

}  // namespace
}  // namespace dullcast::published
