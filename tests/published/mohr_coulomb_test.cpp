#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "models/common/constants.hpp"
#include "models/materials/rock.hpp"

// Mohr-Coulomb failure of intact rock: Jaeger, Cook & Zimmerman, Fundamentals of Rock Mechanics, ch. 4 [hb].
namespace dullcast::published {
namespace {

materials::Rock rock_of(double strength, double friction_angle) {
  materials::Rock rock;
  rock.unconfined_strength = strength;
  rock.friction_angle = friction_angle;
  return rock;
}

TEST(MohrCoulomb, TriaxialStrengthIsUcsPlusConfinementTimesTheSquaredTangent) {
  // sigma_1 = UCS + sigma_3 tan^2(45 deg + phi/2); rounding only.
  for (const double degrees : {0.0, 15.0, 30.0, 46.0, 60.0}) {
    const double phi = degrees * pi / 180.0, tangent = std::tan(pi / 4.0 + phi / 2.0);
    EXPECT_NEAR(materials::bottom_hole_strength(rock_of(50e6, phi), 20e6) / (50e6 + 20e6 * tangent * tangent),
                1.0, 1e-14);
  }
}

TEST(MohrCoulomb, SierraWhiteGranite) {
  // UCS 150 MPa, friction angle 46 deg: Ye & Ghassemi, J. Geophys. Res. Solid Earth 123, 2018 [pub]. tan^2(68
  // deg) = 6.126 (four-figure table), so 30 MPa of confinement adds 183.8 MPa; tolerance half of the last
  // figure.
  EXPECT_NEAR(materials::bottom_hole_strength(rock_of(150e6, 46.0 * pi / 180.0), 30e6), 333.8e6, 0.05e6);
}

TEST(MohrCoulomb, CircleAtFailureJustTouchesTheStrengthLine) {
  // On every plane through the rock |tau| <= c + sigma tan(phi), and on one plane equality: searched over all
  // planes, with c = UCS (1 - sin phi)/(2 cos phi). The scan's spacing of 1e-5 rad misses the touching point
  // by at most radius * (1e-5)^2.
  for (const double degrees : {10.0, 30.0, 46.0}) {
    const double phi = degrees * pi / 180.0, strength = 80e6, confinement = 12e6;
    const double most = materials::bottom_hole_strength(rock_of(strength, phi), confinement);
    const double cohesion = strength * (1.0 - std::sin(phi)) / (2.0 * std::cos(phi));
    const double centre = 0.5 * (most + confinement), radius = 0.5 * (most - confinement);
    double excess = -1e300;
    for (double plane = 0.0; plane < pi; plane += 1e-5)
      excess = std::max(excess, radius * std::sin(plane) -
                                    (cohesion + (centre + radius * std::cos(plane)) * std::tan(phi)));
    EXPECT_NEAR(excess / radius, 0.0, 2e-10) << degrees;
  }
}

TEST(ThermalDiffusivity, OfMetalsAsTabulated) {
  // Incropera & DeWitt, Fundamentals of Heat and Mass Transfer, table A.1 at 300 K [hb, from memory]:
  // density, heat capacity, conductivity, diffusivity. Tolerance half of the last figure printed.
  struct Row {
    double density, heat_capacity, conductivity, diffusivity, half_figure;
  };
  for (const Row& row : {Row{8933.0, 385.0, 401.0, 117e-6, 0.5e-6},        // copper, pure
                         Row{2702.0, 903.0, 237.0, 97.1e-6, 0.05e-6},      // aluminium, pure
                         Row{19300.0, 132.0, 174.0, 68.3e-6, 0.05e-6}}) {  // tungsten
    materials::Rock rock;
    rock.density = row.density;
    rock.heat_capacity = row.heat_capacity;
    rock.conductivity = row.conductivity;
    EXPECT_NEAR(materials::thermal_diffusivity(rock), row.diffusivity, row.half_figure);
  }
}

}  // namespace
}  // namespace dullcast::published
