#include "models/common/dual.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

#include "models/common/bounds.hpp"

namespace dullcast {
namespace {

/// Value and slope of a law against itself on double and against its central difference.
template <class Law>
void expect_differentiates(const Law& law) {
  const double step = 1e-5;
  for (double x = 0.5; x < 3.0; x += 0.13) {
    const Dual y = law(variable(x));
    EXPECT_EQ(y.value, law(x)) << x;
    // Truncation step^2/6 of third derivatives, under 200; rounding 1e-16/step of values under 10.
    EXPECT_NEAR(y.slope, (law(x + step) - law(x - step)) / (2.0 * step), 5e-9) << x;
  }
}

TEST(Dual, HasTheValueToTheLastBitAndTheSlopeOfEveryOperation) {
  using std::sqrt, std::hypot, std::pow, std::exp;
  expect_differentiates([](auto x) { return 3.0 + x * x - 2.0 * x - x * 0.5; });
  expect_differentiates([](auto x) { return x / (1.0 + x) / 3.0 + 2.0 / x; });
  expect_differentiates([](auto x) { return sqrt(1.0 + x * x); });
  expect_differentiates([](auto x) { return hypot(x, 0.7); });
  expect_differentiates([](auto x) { return pow(x, 0.6375) - pow(x, -1.3); });
  expect_differentiates([](auto x) { return exp(-0.5 * (x - 2.0)); });
  expect_differentiates([](auto x) { return cubic_step(0.5 * x - 0.21); });
}

TEST(Dual, ComparesByValue) {
  EXPECT_TRUE(Dual(1.0, 5.0) < Dual(2.0, -5.0));
  EXPECT_TRUE(variable(1.0) <= 1.0);
  EXPECT_FALSE(variable(std::nan("")) < 1.0);
  EXPECT_FALSE(variable(std::nan("")) > 1.0);
}

TEST(Dual, HeldByABoundHasNoSlope) {
  EXPECT_EQ(at_least(variable(-1.0), 0.0).slope, 0.0);
  EXPECT_EQ(at_least(variable(1.0), 0.0).slope, 1.0);
  EXPECT_EQ(at_most(variable(2.0), 1.0).slope, 0.0);
  EXPECT_EQ(within(variable(0.5), 0.0, 1.0).slope, 1.0);
  EXPECT_EQ(within(variable(1.0), 0.0, 1.0).slope, 1.0);
  EXPECT_TRUE(std::isnan(within(variable(std::nan("")), 0.0, 1.0).value));
}

TEST(StraightPast, GoesOnAlongTheTangent) {
  const auto cube = [](const auto& x) { return x * x * x; };
  EXPECT_EQ(straight_past(cube, 2.0, 3.0), 8.0);
  EXPECT_EQ(straight_past(cube, 3.0, 3.0), 27.0);
  EXPECT_EQ(straight_past(cube, 5.0, 3.0), 27.0 + 2.0 * 27.0);
  EXPECT_EQ(straight_past(cube, variable(2.0), 3.0).slope, 12.0);
  EXPECT_EQ(straight_past(cube, variable(5.0), 3.0).slope, 27.0);
  EXPECT_TRUE(std::isnan(straight_past(cube, std::nan(""), 3.0)));
}

}  // namespace
}  // namespace dullcast
