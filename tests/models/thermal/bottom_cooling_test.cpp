#include "models/thermal/bottom_cooling.hpp"

#include <gtest/gtest.h>

namespace dullcast::thermal {
namespace {

CoolingLaw law() {
  CoolingLaw law;
  law.cutter_diameter = 0.013;
  law.boiling_surface_factor = 0.0128;
  law.steam_convection = 150.0;
  return law;
}

TEST(SurfaceHeat, WhereNothingBoilsIsConvection) {
  Cooling cooling;
  cooling.boils = false;
  const SurfaceHeat heat = surface_heat(law(), cooling, 600.0, 300.0, 2000.0);
  EXPECT_DOUBLE_EQ(heat.flux, 6e5);
  EXPECT_DOUBLE_EQ(heat.surface_slope, 2000.0);
  EXPECT_DOUBLE_EQ(heat.fluid_slope, 2000.0);
  EXPECT_EQ(heat.regime, BoilingRegime::single_phase);
}

// Cold water below saturation convects; steam takes the share of the surface that water does not reach.
TEST(SurfaceHeat, IsSharedBetweenWaterAndSteam) {
  Cooling cooling;
  cooling.boils = true;
  cooling.water = materials::saturated_water(1e6);
  cooling.critical_flux = 3e6;
  for (const double share : {0.0, 0.25, 1.0}) {
    cooling.wetted_share = share;
    const SurfaceHeat heat = surface_heat(law(), cooling, 350.0, 300.0, 2000.0);
    const double h = share * 2000.0 + (1.0 - share) * 150.0;
    EXPECT_DOUBLE_EQ(heat.flux, h * 50.0);
    EXPECT_DOUBLE_EQ(heat.surface_slope, h);
    EXPECT_DOUBLE_EQ(heat.fluid_slope, h);
  }
}

}  // namespace
}  // namespace dullcast::thermal
