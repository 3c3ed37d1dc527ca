#include "models/common/wide_functions.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

#include "models/common/wide.hpp"

namespace dullcast {
namespace {

/// How far a value is from what it should be, in units of its last place.
double last_places(double value, long double exact) {
  const double unit =
      std::ldexp(std::numeric_limits<double>::epsilon(), std::ilogb(static_cast<double>(exact)));
  return static_cast<double>(std::fabs(static_cast<long double>(value) - exact) / unit);
}

DULLCAST_WIDE void take(const double* x, double* exponentials, double* logarithms, double* powers,
                        int count) {
  DULLCAST_TURNS_APART
  for (int k = 0; k < count; ++k) {
    exponentials[k] = wide_exp(x[k]);
    logarithms[k] = wide_log(std::abs(x[k]));
    powers[k] = wide_pow(std::abs(x[k]), 0.8);
  }
}

TEST(WideFunctions, AreRightToTheLastPlaces) {
  double worst_exp = 0.0, worst_log = 0.0, worst_pow = 0.0;
  for (double x = -700.0; x < 700.0; x += 0.0171)
    worst_exp = std::max(worst_exp, last_places(wide_exp(x), std::exp(static_cast<long double>(x))));
  for (double x = 1e-300; x < 1e300; x *= 1.0133) {
    worst_log = std::max(worst_log, last_places(wide_log(x), std::log(static_cast<long double>(x))));
    // ln x is up to 690: its last place counts so many times.
    worst_pow =
        std::max(worst_pow, last_places(wide_pow(x, 0.8), std::pow(static_cast<long double>(x), 0.8L)) /
                                (1.0 + std::abs(std::log(x))));
  }
  for (double x = 0.5; x < 2.0; x += 1.07e-5)
    worst_log =
        std::max(worst_log, x == 1.0 ? 0.0 : last_places(wide_log(x), std::log(static_cast<long double>(x))));
  EXPECT_LT(worst_exp, 2.0);
  EXPECT_LT(worst_log, 2.0);
  EXPECT_LT(worst_pow, 2.0);
  EXPECT_EQ(wide_exp(0.0), 1.0);
  EXPECT_EQ(wide_log(1.0), 0.0);
  EXPECT_EQ(wide_pow(1.0, 5.0), 1.0);
}

TEST(WideFunctions, LetANaNThroughAndHoldTheEnds) {
  constexpr double nan = std::numeric_limits<double>::quiet_NaN();
  EXPECT_TRUE(std::isnan(wide_exp(nan)));
  EXPECT_TRUE(std::isnan(wide_log(nan)));
  EXPECT_TRUE(std::isnan(wide_pow(nan, 2.0)));
  EXPECT_TRUE(std::isnan(wide_pow(2.0, nan)));
  EXPECT_EQ(wide_exp(1e4), wide_exp(709.0));
  EXPECT_EQ(wide_exp(-1e4), wide_exp(-708.0));
  EXPECT_TRUE(std::isfinite(wide_pow(1e300, 30.0)));
}

// In loops that take several at once the same bits come out as one by one.
TEST(WideFunctions, AreTheSameSideBySide) {
  constexpr int count = 96;
  double x[count], exponentials[count], logarithms[count], powers[count];
  for (int k = 0; k < count; ++k) x[k] = 0.37 * (k - 40) + 0.011;
  take(x, exponentials, logarithms, powers, count);
  for (int k = 0; k < count; ++k) {
    EXPECT_EQ(exponentials[k], wide_exp(x[k])) << k;
    EXPECT_EQ(logarithms[k], wide_log(std::abs(x[k]))) << k;
    EXPECT_EQ(powers[k], wide_pow(std::abs(x[k]), 0.8)) << k;
  }
}

}  // namespace
}  // namespace dullcast
