#include "models/cooling.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

#include "models/letters.hpp"
#include "refusal.hpp"

namespace dullcast {
namespace {

const double nan = std::numeric_limits<double>::quiet_NaN();
const Fluid water{998.0, 1.0e-3, 0.6, 4180.0};
const Fluid air{1.225, 1.8e-5, 0.025, 1005.0};

TEST(ChurchillBernstein, ApproachesItsOwnLimitInStillFluid) {
  EXPECT_EQ(churchill_bernstein(0.0, 7.0), 0.3);
  EXPECT_NEAR(churchill_bernstein(1e-8, 7.0), 0.3, 2e-4);
}

TEST(ChurchillBernstein, NeverFallsAsFlowGrows) {
  double last = 0.0;
  for (double reynolds = 1e-6; reynolds < 1e7; reynolds *= 1.3) {
    const double nusselt = churchill_bernstein(reynolds, 7.0);
    EXPECT_GT(nusselt, last);
    last = nusselt;
  }
}

TEST(ChurchillBernstein, RefusesWhatHasNoMeaning) {
  EXPECT_EQ(refusal([] { return churchill_bernstein(-1.0, 7.0); }),
            "churchill_bernstein: the Reynolds number must be 0 or more (got -1)");
  EXPECT_NE(refusal([] { return churchill_bernstein(1.0, 0.0); }), "");
  EXPECT_NE(refusal([] { return churchill_bernstein(nan, 7.0); }), "");
  EXPECT_NE(refusal([] { return churchill_bernstein(1.0, nan); }), "");
}

TEST(CutterConvection, IsTheNusseltNumberOnTheCuttersDiameter) {
  const double reynolds = 998.0 * 2.0 * 0.016 / 1.0e-3, prandtl = 1.0e-3 * 4180.0 / 0.6;
  EXPECT_NEAR(cutter_convection(water, 2.0, 0.016), churchill_bernstein(reynolds, prandtl) * 0.6 / 0.016,
              1e-9);
}

TEST(CutterConvection, RefusesWhatHasNoMeaning) {
  EXPECT_NE(refusal([] { return cutter_convection(water, -1.0, 0.016); }), "");
  EXPECT_NE(refusal([] { return cutter_convection(water, nan, 0.016); }), "");
  EXPECT_NE(refusal([] { return cutter_convection(water, 1.0, 0.0); }), "");
  EXPECT_NE(refusal([] { return cutter_convection(Fluid{}, 1.0, 0.016); }), "");
}

TEST(SpeedPastCutter, AddsFlowAndRotationAtRightAngles) {
  // 3 m/s of flow and 4 m/s of rotation.
  EXPECT_NEAR(speed_past_cutter(3.0, 4.0 / (two_pi * 0.1), 0.1), 5.0, 1e-14);
}

TEST(BottomHolePressure, IsTheAtmosphereAboveTheFluid) {
  EXPECT_EQ(bottom_hole_pressure(1000.0, 20.0, 15.0), standard_atmosphere);
  EXPECT_NEAR(bottom_hole_pressure(1000.0, 20.0, 120.0), 101325.0 + 980665.0, 1e-9);
  EXPECT_NE(refusal([] { return bottom_hole_pressure(1000.0, nan, 120.0); }), "");
  EXPECT_NE(refusal([] { return bottom_hole_pressure(-1.0, 0.0, 120.0); }), "");
}

TEST(SaturationTemperature, IsValidToItsEndsAndNotBeyond) {
  EXPECT_NEAR(saturation_temperature(611.213), 273.15, 1e-3);    // the equation's own lower end
  EXPECT_NEAR(saturation_temperature(22.064e6), 647.096, 2e-3);  // critical point of water
  for (const double pressure : {611.0, 0.0, -1.0, 22.1e6, nan})
    EXPECT_NE(refusal([&] { return saturation_temperature(pressure); }).find("saturation_temperature"),
              std::string::npos)
        << pressure;
}

TEST(GasWithMist, DryGasIsIdeal) {
  const Fluid dry = gas_with_mist(air, 0.2, 0.0, 2.0 * standard_atmosphere, 2.0 * 288.15);
  EXPECT_NEAR(dry.density, 1.225, 1e-15);
  EXPECT_NEAR(gas_with_mist(air, 0.2, 0.0, 3.0 * standard_atmosphere, 288.15).density, 3.675, 1e-14);
  EXPECT_EQ(dry.heat_capacity, 1005.0);
  EXPECT_EQ(dry.viscosity, 1.8e-5);
  EXPECT_EQ(dry.conductivity, 0.025);
}

TEST(GasWithMist, CarriesTheWatersMassAndHeat) {
  // As much water as air by mass: 0.2 m3/s of free air is 0.245 kg/s.
  const double water_flow = 0.2 * 1.225 / 999.1;
  const Fluid wet = gas_with_mist(air, 0.2, water_flow, standard_atmosphere, 288.15);
  EXPECT_NEAR(wet.density, 2.45, 1e-12);
  EXPECT_NEAR(wet.heat_capacity, 0.5 * (1005.0 + 4186.0), 1e-9);
  EXPECT_EQ(wet.viscosity, 1.8e-5);
}

TEST(GasWithMist, RefusesWhatHasNoMeaning) {
  EXPECT_NE(refusal([] { return gas_with_mist(air, 0.0, 1e-4, 1e5, 288.0); }).find("gas_with_mist"),
            std::string::npos);
  EXPECT_NE(refusal([] { return gas_with_mist(air, -0.1, 0.0, 1e5, 288.0); }), "");
  EXPECT_NE(refusal([] { return gas_with_mist(air, 0.1, nan, 1e5, 288.0); }), "");
  EXPECT_NE(refusal([] { return gas_with_mist(air, 0.1, 0.0, 0.0, 288.0); }), "");
  EXPECT_NE(refusal([] { return gas_with_mist(air, 0.1, 0.0, 1e5, nan); }), "");
  EXPECT_EQ(refusal([] { return gas_with_mist(air, 0.0, 0.0, 1e5, 288.0).density; }), "");  // pump off
}

}  // namespace
}  // namespace dullcast
