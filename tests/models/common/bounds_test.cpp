#include "models/common/bounds.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

namespace dullcast {
namespace {

TEST(Bounds, HoldANumberAndLetNaNThrough) {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  EXPECT_EQ(at_least(-1.0, 0.0), 0.0);
  EXPECT_EQ(at_least(2.0, 0.0), 2.0);
  EXPECT_EQ(at_most(2.0, 1.0), 1.0);
  EXPECT_EQ(at_most(-2.0, 1.0), -2.0);
  EXPECT_EQ(within(5.0, 0.0, 1.0), 1.0);
  EXPECT_EQ(within(-5.0, 0.0, 1.0), 0.0);
  EXPECT_TRUE(std::isnan(at_least(nan, 0.0)));
  EXPECT_TRUE(std::isnan(at_most(nan, 0.0)));
  EXPECT_TRUE(std::isnan(within(nan, 0.0, 1.0)));
}

TEST(CubicStep, RisesSmoothlyFromNoughtToOneWithItsSlope) {
  EXPECT_EQ(cubic_step(-1.0), 0.0);
  EXPECT_EQ(cubic_step(0.0), 0.0);
  EXPECT_EQ(cubic_step(0.5), 0.5);
  EXPECT_EQ(cubic_step(1.0), 1.0);
  EXPECT_EQ(cubic_step(7.0), 1.0);
  for (const double x : {0.0, 1.0, -3.0, 3.0}) EXPECT_EQ(cubic_step_slope(x), 0.0) << x;
  const double h = 1e-6;  // central differences err by h^2 of the third derivative, 12
  for (double x = 0.05; x < 1.0; x += 0.1)
    EXPECT_NEAR(cubic_step_slope(x), (cubic_step(x + h) - cubic_step(x - h)) / (2.0 * h), 1e-9) << x;
  EXPECT_TRUE(std::isnan(cubic_step(std::nan(""))));
  EXPECT_TRUE(std::isnan(cubic_step_slope(std::nan(""))));
}

}  // namespace
}  // namespace dullcast
