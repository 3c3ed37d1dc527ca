#include "models/bounds.hpp"

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

}  // namespace
}  // namespace dullcast
