#include "models/materials/rock.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

#include "models/common/constants.hpp"
#include "support/refusal.hpp"

namespace dullcast::materials {
namespace {

Rock some_rock() {
  Rock rock;
  rock.unconfined_strength = 120e6;
  rock.friction_angle = pi / 6.0;
  rock.conductivity = 3.0;
  rock.density = 2500.0;
  rock.heat_capacity = 800.0;
  return rock;
}

TEST(BottomHoleStrength, IsTheUnconfinedStrengthInABalancedHole) {
  EXPECT_EQ(bottom_hole_strength(some_rock(), 0.0), 120e6);
}

TEST(BottomHoleStrength, GrowsThreefoldWithPressureAtThirtyDegrees) {
  // (1 + 1/2)/(1 - 1/2) = 3; rounding of the sine only.
  EXPECT_NEAR(bottom_hole_strength(some_rock(), 2e6), 126e6, 1e-6);
}

TEST(BottomHoleStrength, AddsThePressureItselfWithoutFriction) {
  Rock rock = some_rock();
  rock.friction_angle = 0.0;
  EXPECT_EQ(bottom_hole_strength(rock, 2e6), 122e6);
}

TEST(BottomHoleStrength, RefusesWhatHasNoMeaning) {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  EXPECT_EQ(
      testing::refusal([] { return bottom_hole_strength(some_rock(), -5.0); }),
      "bottom_hole_strength: the excess of bottom-hole over pore pressure must be 0 Pa or more (got -5)");
  EXPECT_NE(testing::refusal([&] { return bottom_hole_strength(some_rock(), nan); }), "");
  for (const double angle : {-0.1, pi / 2.0, nan}) {
    Rock rock = some_rock();
    rock.friction_angle = angle;
    EXPECT_NE(testing::refusal([&] { return bottom_hole_strength(rock, 0.0); }).find("friction angle"),
              std::string::npos)
        << angle;
  }
}

TEST(ThermalDiffusivity, IsConductivityOverHeatPerVolume) {
  EXPECT_NEAR(thermal_diffusivity(some_rock()), 1.5e-6, 1e-20);
}

TEST(ThermalDiffusivity, RefusesARockWithoutHeatCapacity) {
  EXPECT_NE(testing::refusal([] { return thermal_diffusivity(Rock{}); }).find("thermal_diffusivity"),
            std::string::npos);
}

}  // namespace
}  // namespace dullcast::materials
