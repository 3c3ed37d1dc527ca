#include "engine/statistics/distribution.hpp"

#include <gtest/gtest.h>

#include <boost/math/special_functions/erf.hpp>
#include <cmath>
#include <limits>

#include "engine/statistics/counter_random.hpp"
#include "support/refusal.hpp"

namespace dullcast::statistics {
namespace {

using Kind = Distribution::Kind;
constexpr double not_a_number = std::numeric_limits<double>::quiet_NaN();
constexpr double infinite = std::numeric_limits<double>::infinity();

/// The k-th of a row of uniform numbers.
double uniform(std::uint64_t k) {
  return uniform_at(2024, 0, k);
}

/// One of each kind that has a density, far from 0, around it, skewed and not.
std::vector<Distribution> continuous_ones() {
  return {{Kind::normal, 291.15, 3.0},        {Kind::normal, 0.0, 1.0},
          {Kind::lognormal, 2e-17, 0.8},      {Kind::uniform, -2.0, 5.0},
          {Kind::triangular, 1.0, 1.5, 4.0},  {Kind::triangular, 1.0, 1.0, 4.0},
          {Kind::triangular, 1.0, 4.0, 4.0},  {Kind::percentiles, 0.5, 0.7, 1.6},
          {Kind::percentiles, -1.0, 0.5, 0.9}};
}

TEST(Distribution, NormalQuantilesAsInTheTables) {
  // [hb: percentage points of the normal distribution as in Abramowitz & Stegun, table 26.5 and 26.6, and the
  // NIST/SEMATECH e-Handbook, 1.3.6.7.1; from memory]. To half of the last figure printed.
  const struct {
    double share, z, half_figure;
  } table[] = {{0.5, 0.0, 1e-300},         {0.75, 0.67449, 5e-6},     {0.8, 0.84162, 5e-6},
               {0.9, 1.281552, 5e-7},      {0.95, 1.644854, 5e-7},    {0.975, 1.959964, 5e-7},
               {0.99, 2.326348, 5e-7},     {0.995, 2.575829, 5e-7},   {0.999, 3.090232, 5e-7},
               {0.9999, 3.719016, 5e-7},   {0.99999, 4.264891, 5e-7}, {0.999999, 4.753424, 5e-7},
               {0.841344746, 1.0, 2.1e-9}, {0.977249868, 2.0, 9.3e-9}};
  const Distribution standard{Kind::normal, 0.0, 1.0};
  for (const auto& row : table) {
    EXPECT_NEAR(quantile(standard, row.share), row.z, row.half_figure) << row.share;
    // 1 - share is rounded to 1.1e-16, over the density at the far end, 4.9e-6.
    EXPECT_NEAR(quantile(standard, 1.0 - row.share), -row.z, row.half_figure + 3e-11) << row.share;
    EXPECT_NEAR(quantile({Kind::normal, 10.0, 2.5}, row.share), 10.0 + 2.5 * row.z,
                2.5 * row.half_figure + 4e-15)
        << row.share;
  }
  // The tail that a table of the error function gives: erfc(5/sqrt 2)/2 = 2.866516e-7 [hb: A&S 26.2.6].
  EXPECT_NEAR(cdf(standard, -5.0), 2.866516e-7, 5e-14);
  EXPECT_NEAR(quantile(standard, 2.866516e-7), -5.0, 5e-14 / 1.4867e-6);
}

TEST(Distribution, NormalAndUniformDrawsAreTheirFormulasToTheLastBit) {
  // Sweeps are repeated by seed and number: another last bit of a draw would be another sweep.
  const Distribution normal{Kind::normal, 0.0, 1.0}, uneven{Kind::uniform, 1.3, 7.7};
  const double root_two = std::sqrt(2.0);
  long differ = 0;
  for (std::uint64_t k = 0; k < 20000; ++k) {
    const double even = uniform(k), tail = std::pow(10.0, -16.0 * even);
    for (const double u : {even, tail, 1.0 - tail}) {
      if (!(u > 1e-16 && u < 1.0)) continue;
      const double z = u < 0.5 ? -root_two * boost::math::erfc_inv(2.0 * u)
                               : root_two * boost::math::erfc_inv(2.0 * (1.0 - u));
      differ += quantile(normal, u) != z;
      differ += quantile(uneven, u) != 1.3 + u * (7.7 - 1.3);
    }
    differ += standard_normal_at(2024, 0, k) != -root_two * boost::math::erfc_inv(2.0 * even);
    const double x = 1.3 + even * 6.4;
    differ += cdf(uneven, x) != (x - 1.3) / (7.7 - 1.3);
  }
  EXPECT_EQ(differ, 0);
}

TEST(Distribution, LognormalMedianAndOneDeviationUp) {
  // The median is a; 84.134 % lie below a e^b [hb: Aitchison & Brown, The Lognormal Distribution, 1957].
  const Distribution rock{Kind::lognormal, 80e6, 0.25};
  EXPECT_DOUBLE_EQ(quantile(rock, 0.5), 80e6);
  // The share is given to 5e-10; a e^b b over the density at 1, 0.242.
  EXPECT_NEAR(quantile(rock, 0.841344746) / (80e6 * std::exp(0.25)), 1.0, 0.25 * 5e-10 / 0.242 + 1e-15);
  EXPECT_NEAR(quantile(rock, 0.158655254) / (80e6 * std::exp(-0.25)), 1.0, 0.25 * 5e-10 / 0.242 + 1e-15);
  // The mean, by 20,000 mid-shares, is a exp(b^2/2): the middle rule leaves out what the ends curve, some
  // 1e-5 (the last slice, 5e-5 of the share, is 2.7 medians high and known to a few per cent).
  double mean = 0.0;
  for (int k = 0; k < 20000; ++k) mean += quantile(rock, (k + 0.5) / 20000.0) / 20000.0;
  EXPECT_NEAR(mean / (80e6 * std::exp(0.5 * 0.25 * 0.25)), 1.0, 1e-5);
}

TEST(Distribution, UniformAndTriangularClosedForms) {
  EXPECT_DOUBLE_EQ(quantile({Kind::uniform, 2.0, 6.0}, 0.25), 3.0);
  EXPECT_DOUBLE_EQ(quantile({Kind::uniform, -1.0, 1.0}, 0.75), 0.5);
  // Inverse of (x - a)^2/((c - a)(b - a)) below b and of 1 - (c - x)^2/((c - a)(c - b)) above.
  const Distribution triangle{Kind::triangular, 0.0, 1.0, 4.0};
  EXPECT_DOUBLE_EQ(quantile(triangle, 0.25), 1.0) << "the share below the peak";
  EXPECT_DOUBLE_EQ(quantile(triangle, 0.0625), 0.5);
  EXPECT_DOUBLE_EQ(quantile(triangle, 1.0 - 1.0 / 12.0), 3.0);
  EXPECT_DOUBLE_EQ(quantile(triangle, 0.75), 4.0 - std::sqrt(3.0));
  // Right triangles.
  EXPECT_DOUBLE_EQ(quantile({Kind::triangular, 0.0, 0.0, 2.0}, 0.75), 1.0);
  EXPECT_DOUBLE_EQ(quantile({Kind::triangular, 0.0, 2.0, 2.0}, 0.25), 1.0);
  // The mean is (a + b + c)/3, the variance (a^2 + b^2 + c^2 - ab - ac - bc)/18: middle rule over 20,000
  // shares, whose ends go with the root of the share (error of order 20,000^-1.5 = 4e-7).
  double mean = 0.0, square = 0.0;
  for (int k = 0; k < 20000; ++k) {
    const double x = quantile(triangle, (k + 0.5) / 20000.0);
    mean += x / 20000.0;
    square += x * x / 20000.0;
  }
  EXPECT_NEAR(mean, 5.0 / 3.0, 1e-6);
  EXPECT_NEAR(square - mean * mean, 13.0 / 18.0, 1e-5);
}

TEST(Distribution, PercentilesGoThroughTheirThreePoints) {
  // Logarithms and powers round a few times.
  const double triples[][3] = {{0.5, 0.7, 1.6}, {3e-18, 1e-17, 5e-17}, {-1.0, 0.5, 0.9},
                               {0.0, 0.2, 1.0}, {2.0, 2.0, 3.0},       {1.0, 2.0, 2.0}};
  for (const auto& p : triples) {
    const Distribution d{Kind::percentiles, p[0], p[1], p[2]};
    const double rounding = 8e-16 * std::max(std::abs(p[0]), std::abs(p[2]));
    EXPECT_NEAR(quantile(d, 0.1), p[0], rounding);
    EXPECT_EQ(quantile(d, 0.5), p[1]);
    EXPECT_NEAR(quantile(d, 0.9), p[2], rounding);
  }
  // Between and beyond: normal in the logarithm where all are above 0, else normal; z(0.975)/z(0.9)
  // = 1.529367.
  const double steps = 1.959964 / 1.281552;
  EXPECT_NEAR(quantile({Kind::percentiles, 0.5, 1.0, 3.0}, 0.975), std::pow(3.0, steps), 1e-5);
  EXPECT_NEAR(quantile({Kind::percentiles, 0.5, 1.0, 3.0}, 0.025), std::pow(0.5, steps), 1e-6);
  EXPECT_NEAR(quantile({Kind::percentiles, -1.0, 1.0, 4.0}, 0.975), 1.0 + 3.0 * steps, 4e-6);
  EXPECT_NEAR(quantile({Kind::percentiles, -1.0, 1.0, 4.0}, 0.025), 1.0 - 2.0 * steps, 3e-6);
}

TEST(Distribution, ShareBelowUndoesQuantile) {
  for (const Distribution& d : continuous_ones()) {
    for (std::uint64_t k = 0; k < 2000; ++k) {
      const double u = uniform(k);
      // One rounding of x moves the share by its density times x: at worst 97 deviations of 1e-16 here.
      EXPECT_NEAR(cdf(d, quantile(d, u)), u, 2e-14) << distribution_words(d) << " at " << u;
    }
    EXPECT_EQ(cdf(d, -infinite), 0.0) << distribution_words(d);
    EXPECT_EQ(cdf(d, infinite), 1.0) << distribution_words(d);
    EXPECT_TRUE(std::isnan(cdf(d, not_a_number))) << distribution_words(d);
  }
  EXPECT_EQ(cdf({Kind::fixed, 3.0}, 2.9), 0.0);
  EXPECT_EQ(cdf({Kind::fixed, 3.0}, 3.0), 1.0);
  EXPECT_TRUE(std::isnan(cdf({Kind::fixed, 3.0}, not_a_number)));
}

TEST(Distribution, QuantilesRiseWithTheShare) {
  for (Distribution d : continuous_ones()) {
    for (const bool bounded : {false, true}) {
      if (bounded) {
        d.not_below = quantile(d, 0.2);
        d.not_above = quantile({d.kind, d.a, d.b, d.c}, 0.7);
      }
      double last = -infinite;
      for (int k = 0; k <= 4096; ++k) {
        const double x = quantile(d, k / 4096.0);
        ASSERT_TRUE(std::isfinite(x)) << distribution_words(d) << " at " << k;
        ASSERT_GT(x, last) << distribution_words(d) << " at " << k;
        last = x;
      }
    }
  }
}

TEST(Distribution, BoundsConditionTheDistribution) {
  // Every value inside, and its share is what lies between the bound and it over what lies between the
  // bounds.
  for (Distribution d : continuous_ones()) {
    const Distribution free = d;
    d.not_below = quantile(free, 0.15);
    d.not_above = quantile(free, 0.6);
    for (std::uint64_t k = 0; k < 1000; ++k) {
      const double u = uniform(k), x = quantile(d, u);
      ASSERT_GE(x, d.not_below);
      ASSERT_LE(x, d.not_above);
      ASSERT_NEAR((cdf(free, x) - 0.15) / 0.45, u, 1e-13) << distribution_words(d);
    }
    EXPECT_NEAR(quantile(d, 0.0) / d.not_below, 1.0, 1e-14);
    EXPECT_NEAR(quantile(d, 1.0) / d.not_above, 1.0, 1e-14);
  }
  // Half a normal distribution: its median is the free one's 75 % point, 0.67449 [hb, as above].
  EXPECT_NEAR(quantile({Kind::normal, 0.0, 1.0, 0.0, 0.0}, 0.5), 0.67449, 5e-6);
  // Bounds that hold all change nothing.
  const Distribution inside{Kind::triangular, 1.0, 2.0, 4.0, 0.0, 9.0};
  EXPECT_EQ(quantile(inside, 0.3), quantile({Kind::triangular, 1.0, 2.0, 4.0}, 0.3));
}

TEST(Distribution, WhatLiesOnALowerBoundStays) {
  // Half of these draws are 0, the bound itself; conditioning on being 0 or more must take nothing away.
  const Distribution d{Kind::percentiles, 0.0, 0.0, 0.1, 0.0, 1.0};
  EXPECT_EQ(quantile(d, 0.1), 0.0);
  EXPECT_EQ(quantile(d, 0.5), 0.0);
  EXPECT_NEAR(quantile(d, 0.9), 0.1, 1e-15);
  for (const Kind kind : {Kind::fixed, Kind::normal, Kind::uniform, Kind::triangular, Kind::percentiles}) {
    const double b = kind == Kind::normal ? 0.0 : 2.0;
    EXPECT_EQ(quantile({kind, 2.0, b, 2.0, 2.0, 2.0}, 0.3), 2.0) << "no spread, on its bound";
    EXPECT_EQ(quantile({kind, 2.0, b, 2.0, 1.0, 3.0}, 0.3), 2.0) << "no spread, between bounds";
  }
  EXPECT_EQ(quantile({Kind::lognormal, 2.0, 0.0, 0.0, 2.0, 2.0}, 0.3), 2.0);
}

TEST(Distribution, TheEndsAreFarButFinite) {
  // 1e-16 from the end: z = 8.2221 [hb: tables of the normal tail, from memory]; at the far end 1 - 1e-16 is
  // 1 - 1.1e-16 in a double, z = 8.2095.
  EXPECT_NEAR(quantile({Kind::normal, 0.0, 1.0}, 0.0), -8.2221, 5e-5);
  EXPECT_NEAR(quantile({Kind::normal, 0.0, 1.0}, 1.0), 8.2095, 5e-5);
  EXPECT_NEAR(quantile({Kind::uniform, 3.0, 4.0}, 0.0), 3.0, 1e-15);
  EXPECT_NEAR(quantile({Kind::uniform, 3.0, 4.0}, 1.0), 4.0, 1e-15);
}

TEST(Distribution, WhatIsNoDistributionIsRefused) {
  const auto refused = [](const Distribution& d, double u = 0.5) {
    return testing::refusal([&] { return quantile(d, u); });
  };
  const Distribution sound{Kind::normal, 0.0, 1.0};
  EXPECT_EQ(refused(sound), "");
  for (const double u : {-1e-9, 1.0 + 1e-9, not_a_number, infinite}) EXPECT_NE(refused(sound, u), "") << u;
  EXPECT_EQ(refused({Kind::normal, 0.0, -1.0}), "a spread below 0");
  EXPECT_EQ(refused({Kind::lognormal, 1.0, -1.0}), "a spread below 0");
  for (const double median : {0.0, -2.0}) {
    EXPECT_EQ(refused({Kind::lognormal, median, 1.0}), "a lognormal median that is not above 0");
  }
  EXPECT_EQ(refused({Kind::uniform, 2.0, 1.0}), "a uniform distribution from above its end");
  for (const Kind kind : {Kind::triangular, Kind::percentiles}) {
    EXPECT_EQ(refused({kind, 2.0, 1.0, 3.0}), "three points of a distribution that do not rise");
    EXPECT_EQ(refused({kind, 1.0, 3.0, 2.0}), "three points of a distribution that do not rise");
  }
  const auto bounds = "a distribution's bounds are out of order";
  EXPECT_EQ(refused({Kind::normal, 0.0, 1.0, 0.0, 2.0, 1.0}), bounds);
  EXPECT_EQ(refused({Kind::normal, 0.0, 1.0, 0.0, not_a_number, 1.0}), bounds);
  EXPECT_EQ(refused({Kind::normal, 0.0, 1.0, 0.0, -1.0, not_a_number}), bounds);
  // No parameter may be NaN or infinite, not even one that a kind does without.
  for (const double bad : {not_a_number, infinite, -infinite}) {
    for (const Kind kind :
         {Kind::fixed, Kind::normal, Kind::lognormal, Kind::uniform, Kind::triangular, Kind::percentiles}) {
      EXPECT_NE(refused({kind, bad, 2.0, 3.0}), "") << distribution_words({kind, 1, 2, 3});
      EXPECT_NE(refused({kind, 1.0, bad, 3.0}), "");
      EXPECT_NE(refused({kind, 1.0, 2.0, bad}), "");
      EXPECT_NE(testing::refusal([&] { return cdf({kind, bad, 2.0, 3.0}, 1.0); }), "");
    }
  }
}

TEST(Distribution, BoundsThatHoldNothingAreRefused) {
  // Else every draw would be the bound nearest to the distribution, as if that were known.
  const auto nothing = "bounds that leave nothing of a distribution";
  for (const Distribution& d : {Distribution{Kind::normal, 0.0, 1.0, 0.0, 9.0, 12.0},
                                Distribution{Kind::normal, 0.0, 1.0, 0.0, -12.0, -9.0},
                                Distribution{Kind::uniform, 0.0, 1.0, 0.0, 2.0, 3.0},
                                Distribution{Kind::lognormal, 1.0, 0.5, 0.0, -3.0, 0.0},
                                Distribution{Kind::fixed, 5.0, 0.0, 0.0, -1.0, 3.0}}) {
    EXPECT_EQ(testing::refusal([&] { return quantile(d, 0.5); }), nothing) << distribution_words(d);
  }
  // A tail of one in a million is still drawn truly: 4.7534 is the free 1e-6 point [hb], and
  // half of the tail beyond it lies below the 5e-7 point, 4.8916 (from memory).
  EXPECT_NEAR(quantile({Kind::normal, 0.0, 1.0, 0.0, 4.753424, 1e300}, 0.5), 4.8916, 5e-5);
}

TEST(Distribution, WordsSayItAll) {
  EXPECT_EQ(distribution_words({Kind::normal, 3.0, 1.0, 0.0, 0.0}),
            "normal, mean 3, deviation 1, not below 0");
  EXPECT_EQ(distribution_words({Kind::percentiles, 1.0, 2.0, 4.0}),
            "10 % below 1, half below 2, 90 % below 4");
}

}  // namespace
}  // namespace dullcast::statistics
