#include "models/materials/fluid.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "models/common/constants.hpp"
#include "support/numbers.hpp"
#include "support/refusal.hpp"

namespace dullcast::materials {
namespace {

using testing::nan;
const Fluid air{1.225, 1.8e-5, 0.025, 1005.0};

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
  EXPECT_NE(testing::refusal([] { return gas_with_mist(air, 0.0, 1e-4, 1e5, 288.0); }).find("gas_with_mist"),
            std::string::npos);
  EXPECT_NE(testing::refusal([] { return gas_with_mist(air, -0.1, 0.0, 1e5, 288.0); }), "");
  EXPECT_NE(testing::refusal([] { return gas_with_mist(air, 0.1, nan, 1e5, 288.0); }), "");
  EXPECT_NE(testing::refusal([] { return gas_with_mist(air, 0.1, 0.0, 0.0, 288.0); }), "");
  EXPECT_NE(testing::refusal([] { return gas_with_mist(air, 0.1, 0.0, 1e5, nan); }), "");
  EXPECT_EQ(testing::refusal([] { return gas_with_mist(air, 0.0, 0.0, 1e5, 288.0).density; }),
            "");  // pump off
}

}  // namespace
}  // namespace dullcast::materials
