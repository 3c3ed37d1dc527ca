#include "models/materials/saturated_water.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "support/numbers.hpp"
#include "support/refusal.hpp"

namespace dullcast::materials {
namespace {

using testing::nan;

TEST(SaturatedWater, MovesOneWayWithPressure) {
  SaturatedWater last = saturated_water(5e3);
  for (double pressure = 5.1e3; pressure < 20e6; pressure *= 1.02) {
    const SaturatedWater water = saturated_water(pressure);
    EXPECT_GT(water.temperature, last.temperature);
    EXPECT_LT(water.latent_heat, last.latent_heat) << pressure;
    EXPECT_LT(water.liquid_density, last.liquid_density);
    EXPECT_GT(water.vapour_density, last.vapour_density);
    EXPECT_LT(water.surface_tension, last.surface_tension);
    EXPECT_LT(water.liquid_viscosity, last.liquid_viscosity);
    EXPECT_GT(water.vapour_heat_capacity, last.vapour_heat_capacity);
    EXPECT_GT(water.vapour_viscosity, last.vapour_viscosity);
    EXPECT_GT(water.vapour_conductivity, last.vapour_conductivity);
    last = water;
  }
}

TEST(SaturatedWater, HasNoJumpsBetweenTheTablesRows) {
  for (double T = 310.0; T < 636.0; T += 10.0) {
    const SaturatedWater below = saturated_water(saturation_pressure(T - 1e-3));
    const SaturatedWater above = saturated_water(saturation_pressure(T + 1e-3));
    // The steepest column changes by 10 % a kelvin at the top: 2e-4 over 2 mK.
    EXPECT_NEAR(above.liquid_heat_capacity / below.liquid_heat_capacity, 1.0, 4e-4);
    EXPECT_NEAR(above.vapour_heat_capacity / below.vapour_heat_capacity, 1.0, 4e-4);
    EXPECT_NEAR(above.liquid_viscosity / below.liquid_viscosity, 1.0, 4e-4);
    EXPECT_NEAR(above.vapour_conductivity / below.vapour_conductivity, 1.0, 4e-4);
  }
}

TEST(SaturatedWater, IsValidToItsEndsAndNotBeyond) {
  EXPECT_EQ(saturated_water(5e3).pressure, 5e3);
  EXPECT_EQ(saturated_water(20e6).pressure, 20e6);
  for (const double pressure : {4.9e3, 20.1e6, -1.0, nan})
    EXPECT_NE(testing::refusal([&] { return saturated_water(pressure).temperature; }).find("saturated_water"),
              std::string::npos)
        << pressure;
  EXPECT_NE(testing::refusal([] { return saturated_liquid_density(273.0); }), "");
  EXPECT_NE(testing::refusal([] { return saturated_vapour_density(648.0); }), "");
  EXPECT_NE(testing::refusal([] { return saturation_pressure(nan); }), "");
  EXPECT_NE(testing::refusal([] { return saturation_pressure(700.0); }), "");
}

TEST(SaturationTemperature, IsValidToItsEndsAndNotBeyond) {
  EXPECT_NEAR(saturation_temperature(611.213), 273.15, 1e-3);    // the equation's own lower end
  EXPECT_NEAR(saturation_temperature(22.064e6), 647.096, 2e-3);  // critical point of water
  for (const double pressure : {611.0, 0.0, -1.0, 22.1e6, nan})
    EXPECT_NE(
        testing::refusal([&] { return saturation_temperature(pressure); }).find("saturation_temperature"),
        std::string::npos)
        << pressure;
}

TEST(SaturationPressure, UndoesTheBackwardEquation) {
  // Both are the same quadratic of IF97 region 4: only rounding parts them.
  for (double T = 274.0; T < 647.0; T += 7.3)
    EXPECT_NEAR(saturation_temperature(saturation_pressure(T)), T, 1e-7) << T;
}

TEST(SaturationPressure, SlopeIsItsDerivative) {
  for (double T = 275.0; T < 646.0; T += 11.0) {
    const double step = 1e-3;
    const double chord = (saturation_pressure(T + step) - saturation_pressure(T - step)) / (2.0 * step);
    EXPECT_NEAR(held_saturation_pressure(T).slope / chord, 1.0, 1e-6) << T;  // rounding of the chord
  }
}

TEST(SaturationPressure, IsHeldOutsideItsRange) {
  EXPECT_EQ(held_saturation_pressure(-500.0).pressure, saturation_pressure(273.15));
  EXPECT_EQ(held_saturation_pressure(-500.0).slope, 0.0);
  EXPECT_EQ(held_saturation_pressure(1e9).pressure, saturation_pressure(647.096));
  EXPECT_EQ(held_saturation_pressure(1e9).slope, 0.0);
  EXPECT_TRUE(std::isnan(held_saturation_pressure(nan).pressure));
}

}  // namespace
}  // namespace dullcast::materials
