#include "models/hydraulics/hydrostatics.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "models/common/constants.hpp"
#include "support/numbers.hpp"
#include "support/refusal.hpp"

namespace dullcast::hydraulics {
namespace {

using testing::nan;

TEST(BottomHolePressure, IsTheAtmosphereAboveTheFluid) {
  EXPECT_EQ(bottom_hole_pressure(1000.0, 20.0, 15.0), standard_atmosphere);
  EXPECT_NEAR(bottom_hole_pressure(1000.0, 20.0, 120.0), 101325.0 + 980665.0, 1e-9);
  EXPECT_NE(testing::refusal([] { return bottom_hole_pressure(1000.0, nan, 120.0); }), "");
  EXPECT_NE(testing::refusal([] { return bottom_hole_pressure(-1.0, 0.0, 120.0); }), "");
}

TEST(FluidLevel, IsTheSurfaceWhileALiquidIsPumpedAndTheGroundsOwnOtherwise) {
  EXPECT_EQ(fluid_level(true, 1e-3, 20.0), 0.0);
  EXPECT_EQ(fluid_level(true, 0.0, 20.0), 20.0);
  EXPECT_EQ(fluid_level(false, 1e-3, 20.0), 20.0) << "air does not fill the hole with water";
}

}  // namespace
}  // namespace dullcast::hydraulics
