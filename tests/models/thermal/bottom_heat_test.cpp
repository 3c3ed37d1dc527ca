#include "models/thermal/bottom_heat.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "models/common/constants.hpp"
#include "models/thermal/heat.hpp"

namespace dullcast::thermal {
namespace {

materials::Rock limestone() {
  materials::Rock rock;
  rock.conductivity = 2.5;
  rock.density = 2600.0;
  rock.heat_capacity = 850.0;
  return rock;
}

constexpr Softening never{1e6, 2e6};
const double steel_at_50_by_22 = 3.0 * pi * pi / 8.0 * 42.7 * std::sqrt(50e-3 * 22e-3 / pi);  // W/K

/// Of a pad of 50 by 22 mm at 0.9 m/s on limestone, by hand, W/K.
double rock_at_50_by_22() {
  const double area = 50e-3 * 22e-3, diffusivity = 2.5 / (2600.0 * 850.0), radius = std::sqrt(area / pi);
  const double fast = 0.75 * std::sqrt(pi) * 2.5 * std::sqrt(0.9 / (diffusivity * 22e-3));
  return area * std::hypot(fast, 0.375 * pi * 2.5 / radius);
}

RubbingFaces pads_of(double heat, double count) {
  return {heat, count, 50e-3 * 22e-3, 22e-3, 0.9};
}

// A face at one temperature over rest on both sides: what it makes goes to the two in proportion to their
// conductances.
TEST(RubbingFaces, BodyAndRockShareTheirHeatAsTheirConductances) {
  const double steel = steel_at_50_by_22, rock = rock_at_50_by_22();
  const RubbingHeat found = rubbing_heat(pads_of(870.0, 1.0), 42.7, limestone(), never, 300.0, 290.0);
  EXPECT_NEAR(found.into_body, 870.0 * steel / (steel + rock), 1e-9 * found.into_body);
  EXPECT_GT(found.into_body, 0.05 * 870.0);
  EXPECT_LT(found.into_body, 0.3 * 870.0);
  EXPECT_EQ(found.unmade, 0.0);
  for (const RubbingFaces& none : {RubbingFaces{0.0, 1.0, 1e-3, 0.02, 1.0}, {100.0, 1.0, 0.0, 0.02, 1.0}}) {
    EXPECT_EQ(rubbing_heat(none, 42.7, limestone(), never, 300.0, 290.0).into_body, 0.0);
    EXPECT_EQ(rubbing_heat(none, 42.7, limestone(), never, 300.0, 290.0).unmade, 0.0);
  }
}

// By hand: friction falls straight from 1173 K to nothing at 1523 K, and the contact stands where what is
// made flows off: heat (1523 - T)/350 = steel (T - T_body) + rock (T - T_warm).
TEST(RubbingFaces, SoftenTheRockUnderThemAndMakeLess) {
  const Softening law{1173.15, 1523.15};
  const double steel = steel_at_50_by_22, rock = rock_at_50_by_22(), heat = 40e3, T_body = 900.0,
               T_warm = 400.0;
  const double T = (heat / 350.0 * 1523.15 + steel * T_body + rock * T_warm) / (heat / 350.0 + steel + rock);
  const double made = steel * (T - T_body) + rock * (T - T_warm);
  ASSERT_GT(T, 1173.15);
  const RubbingHeat one = rubbing_heat(pads_of(heat, 1.0), 42.7, limestone(), law, T_body, T_warm);
  EXPECT_NEAR(one.unmade, heat - made, 1e-9 * heat);
  EXPECT_NEAR(one.into_body, made * steel / (steel + rock), 1e-9 * made);
  EXPECT_NEAR(one.into_rock, made * rock / (steel + rock), 1e-9 * made);
  const RubbingHeat three = rubbing_heat(pads_of(3.0 * heat, 3.0), 42.7, limestone(), law, T_body, T_warm);
  EXPECT_NEAR(three.unmade, 3.0 * one.unmade, 1e-9 * heat);
  EXPECT_NEAR(three.into_body, 3.0 * one.into_body, 1e-9 * heat);
  // A body at which rock melts makes nothing more.
  EXPECT_NEAR(rubbing_heat(pads_of(heat, 1.0), 42.7, limestone(), law, 3e4, T_warm).into_body, 0.0, 1e-9);
}

// By hand: the stream leaves with the water's share of its capacity, 12 K warmer than it came; the rest
// stays.
TEST(BottomHeat, TheStreamCarriesOffItsShareAndWarmsWhatIsMissing) {
  const BottomHeatLaw law{1e4, 0.06, 0.03, 6e-3};
  BottomHeatDemand demand;
  demand.inlet_temperature = 288.0;
  demand.rock_temperature = 300.0;
  demand.flow_capacity = 4000.0;
  demand.water_share = 0.75;
  HeatBalance balance(1);
  exchange_bottom_heat(law, Cooling{}, demand, {300.0, 300.0, 300.0}, balance);
  EXPECT_NEAR(balance.into(Sink::carried_off), 0.75 * 4000.0 * 12.0, 1e-9);
  EXPECT_NEAR(balance.into(Sink::taken_by_filling), 0.25 * 4000.0 * 12.0, 1e-9);
}

TEST(BottomHeat, WhatRubbingPutsIntoBodyAndRockIsTakenFromTheWorkInTheFluid) {
  const BottomHeatLaw law{1e4, 0.06, 0.03, 6e-3};
  Cooling cooling;
  BottomHeatDemand demand;
  demand.power = 20e3;
  demand.inlet_temperature = demand.rock_temperature = 288.0;
  const SharedTemperatures rest{288.0, 288.0, 288.0};
  HeatBalance plain(1), rubbed(1);
  exchange_bottom_heat(law, cooling, demand, rest, plain);
  demand.rubbing_into_body = 100.0;
  exchange_bottom_heat(law, cooling, demand, rest, rubbed);
  EXPECT_NEAR(rubbed.into(body_store) - plain.into(body_store), 100.0, 1e-9);
  EXPECT_NEAR(rubbed.into(fluid_store) - plain.into(fluid_store), -100.0, 1e-9);
  demand.rubbing_into_rock = 300.0;
  HeatBalance in_gas(1);
  exchange_bottom_heat(law, cooling, demand, rest, in_gas);
  EXPECT_NEAR(in_gas.into(warm_rock_store) - rubbed.into(warm_rock_store), 300.0, 1e-9);
  EXPECT_NEAR(in_gas.into(fluid_store) - rubbed.into(fluid_store), -300.0, 1e-9);
  EXPECT_EQ(in_gas.into(body_store), rubbed.into(body_store));
}

}  // namespace
}  // namespace dullcast::thermal
