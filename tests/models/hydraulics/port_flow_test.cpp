#include "models/hydraulics/port_flow.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "support/numbers.hpp"
#include "support/refusal.hpp"

namespace dullcast::hydraulics {
namespace {

using testing::nan;

TEST(PortFlow, ADropIsOneVelocityHeadOfTheContractedJet) {
  // Torricelli: 2 m3/s through 1 m2 at C_d 0.5 contracts to 4 m/s; half of 1000 times 16.
  EXPECT_NEAR(port_pressure_drop(1000.0, 2.0, 1.0, 0.5), 8000.0, 1e-9);
  EXPECT_EQ(port_pressure_drop(1000.0, 0.0, 1.0, 0.95), 0.0);
}

TEST(PortFlow, PressureAndFlowAreInverse) {
  for (double Q = 1e-5; Q < 1.0; Q *= 3.0) {
    const double drop = port_pressure_drop(1040.0, Q, 2.3e-4, 0.95);
    EXPECT_NEAR(port_flow_at(1040.0, drop, 2.3e-4, 0.95) / Q, 1.0, 1e-14);
  }
  EXPECT_EQ(port_flow_at(1000.0, 0.0, 1e-4, 0.95), 0.0);
}

TEST(PortFlow, QuarterOfTheAreaTakesSixteenTimesThePressure) {
  EXPECT_NEAR(port_pressure_drop(1000.0, 3e-3, 1e-4, 0.95) / port_pressure_drop(1000.0, 3e-3, 4e-4, 0.95),
              16.0, 1e-12);
}

TEST(PortFlow, JetSpeedIsThatOfTheFreeJetOfThePressure) {
  // v = C_d sqrt(2 dp/rho) is Q/A.
  const double drop = port_pressure_drop(998.0, 4e-3, 2e-4, 0.95);
  EXPECT_NEAR(jet_velocity(4e-3, 2e-4), 0.95 * std::sqrt(2.0 * drop / 998.0), 1e-12);
}

TEST(PortFlow, ImpactIsMomentumAndPowerIsPressureTimesFlow) {
  EXPECT_NEAR(jet_impact(1000.0, 4e-3, 20.0), 80.0, 1e-12);
  EXPECT_NEAR(hydraulic_power(2e6, 4e-3), 8000.0, 1e-9);
  // Of an ideal port the power is what the jet carries: half its momentum times its speed.
  const double v = jet_velocity(4e-3, 2e-4);
  EXPECT_NEAR(hydraulic_power(port_pressure_drop(1000.0, 4e-3, 2e-4, 1.0), 4e-3),
              0.5 * jet_impact(1000.0, 4e-3, v) * v, 1e-9);
}

TEST(PortFlow, RefusesWhatHasNoMeaning) {
  EXPECT_EQ(testing::refusal([] { return port_pressure_drop(1000.0, 1e-3, 0.0, 0.95); }),
            "port_pressure_drop: the area of the ports must be above 0 m2 (got 0)");
  for (const double bad : {-1.0, nan}) {
    EXPECT_NE(testing::refusal([&] { return port_pressure_drop(bad, 1e-3, 1e-4, 0.95); }), "");
    EXPECT_NE(testing::refusal([&] { return port_pressure_drop(1000.0, bad, 1e-4, 0.95); }), "");
    EXPECT_NE(testing::refusal([&] { return port_pressure_drop(1000.0, 1e-3, 1e-4, bad); }), "");
    EXPECT_NE(testing::refusal([&] { return jet_velocity(bad, 1e-4); }), "");
    EXPECT_NE(testing::refusal([&] { return jet_velocity(1e-3, bad); }), "");
    EXPECT_NE(testing::refusal([&] { return jet_impact(bad, 1e-3, 1.0); }), "");
    EXPECT_NE(testing::refusal([&] { return jet_impact(1000.0, bad, 1.0); }), "");
    EXPECT_NE(testing::refusal([&] { return jet_impact(1000.0, 1e-3, bad); }), "");
    EXPECT_NE(testing::refusal([&] { return port_flow_at(bad, 1e5, 1e-4, 0.95); }), "");
    EXPECT_NE(testing::refusal([&] { return port_flow_at(1000.0, bad, 1e-4, 0.95); }), "");
    EXPECT_NE(testing::refusal([&] { return port_flow_at(1000.0, 1e5, bad, 0.95); }), "");
  }
  EXPECT_NE(testing::refusal([] { return port_flow_at(0.0, 1e5, 1e-4, 0.95); }), "");
  EXPECT_NE(testing::refusal([] { return port_flow_at(1000.0, 1e5, 1e-4, 1.1); }), "");
  EXPECT_TRUE(std::isnan(hydraulic_power(nan, 1.0)));
}

}  // namespace
}  // namespace dullcast::hydraulics
