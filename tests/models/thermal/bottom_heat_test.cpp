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

// A face at one temperature over rest on both sides: what it makes goes to the two in proportion to their
// conductances, as by hand for a steel pad of 50 by 22 mm at 0.9 m/s.
TEST(RubbingFace, BodyAndRockShareItsHeatAsTheirConductances) {
  const RubbingFace pad{870.0, 50e-3 * 22e-3, 22e-3, 0.9};
  const double diffusivity = 2.5 / (2600.0 * 850.0), radius = std::sqrt(pad.area / pi);
  const double steel = 3.0 * pi * pi / 8.0 * 42.7 * radius;
  const double fast = 0.75 * std::sqrt(pi) * 2.5 * std::sqrt(0.9 / (diffusivity * 22e-3));
  const double still = 0.375 * pi * 2.5 / radius;
  const double rock = pad.area * std::hypot(fast, still);
  const double into_body = rubbing_heat_into_body(pad, 42.7, limestone());
  EXPECT_NEAR(into_body, 870.0 * steel / (steel + rock), 1e-9 * into_body);
  EXPECT_GT(into_body, 0.05 * 870.0);
  EXPECT_LT(into_body, 0.3 * 870.0);
  EXPECT_EQ(rubbing_heat_into_body({0.0, 1e-3, 0.02, 1.0}, 42.7, limestone()), 0.0);
  EXPECT_EQ(rubbing_heat_into_body({100.0, 0.0, 0.02, 1.0}, 42.7, limestone()), 0.0);
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

TEST(BottomHeat, WhatRubbingPutsIntoTheBodyIsTakenFromTheWorkInTheFluid) {
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
}

}  // namespace
}  // namespace dullcast::thermal
