#include <gtest/gtest.h>

#include <cmath>

#include "models/common/constants.hpp"
#include "models/hydraulics/port_flow.hpp"

// Example of Bourgoyne, Millheim, Chenevert & Young, Applied Drilling Engineering, SPE, 1986, chapter 4 [hb,
// from memory]: 12.0 lbm/gal mud at 400 gal/min through three 13/32 in nozzles, C_d 0.95. Printed: pressure
// drop 1,169 psi, jet impact force 820 lbf.
namespace dullcast::published {
namespace {

// Exact by definition: the inch, the pound, the US gallon of 231 cubic inches and the standard gravity.
constexpr double inch = 0.0254, pound_mass = 0.45359237, gallon = 231.0 * inch * inch * inch;
constexpr double pound_force = pound_mass * standard_gravity, psi = pound_force / (inch * inch);

const double density = 12.0 * pound_mass / gallon;
const double Q = 400.0 * gallon / 60.0;
const double area = 3.0 * 0.25 * pi * std::pow(13.0 / 32.0 * inch, 2);
constexpr double discharge = 0.95;

TEST(NozzleExample, PressureDrop) {
  // Tolerance: half a psi, the last figure printed.
  EXPECT_NEAR(hydraulics::port_pressure_drop(density, Q, area, discharge) / psi, 1169.0, 0.5);
}

TEST(NozzleExample, FlowAtThatPressure) {
  // 0.5 psi in 1,169 is 0.021 % of the flow: 0.09 gal/min.
  EXPECT_NEAR(hydraulics::port_flow_at(density, 1169.0 * psi, area, discharge) * 60.0 / gallon, 400.0, 0.09);
}

TEST(NozzleExample, ImpactForce) {
  const double drop = hydraulics::port_pressure_drop(density, Q, area, discharge);
  const double v = discharge * std::sqrt(2.0 * drop / density);
  const double impact = hydraulics::jet_impact(density, Q, v) / pound_force;
  // 820 as printed from 1,169 psi is 820.47 before rounding; ours is unrounded throughout: one lbf.
  EXPECT_NEAR(impact, 820.0, 1.0);
  // The handbook's own form; its coefficient has four figures.
  const double handbook = 0.01823 * discharge * 400.0 * std::sqrt(12.0 * drop / psi);
  EXPECT_NEAR(impact / handbook, 1.0, 0.5e-5 / 0.01823);
  EXPECT_NEAR(hydraulics::jet_velocity(Q, area), v, 1e-9 * v);
}

TEST(NozzleExample, HydraulicHorsepower) {
  // The handbooks' dp q/1714, its divisor rounded to four figures; 1 hp = 550 ft lbf/s.
  const double horsepower = 550.0 * 12.0 * inch * pound_force;
  const double drop = hydraulics::port_pressure_drop(density, Q, area, discharge);
  EXPECT_NEAR(hydraulics::hydraulic_power(drop, Q) / horsepower / (drop / psi * 400.0 / 1714.0), 1.0,
              0.5 / 1714.0);
}

}  // namespace
}  // namespace dullcast::published
