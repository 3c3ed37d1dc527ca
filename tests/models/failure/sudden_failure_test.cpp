#include "models/failure/sudden_failure.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "models/common/constants.hpp"
#include "support/numbers.hpp"

namespace dullcast::failure {
namespace {

using testing::nan;
const double degree = pi / 180.0;
const BrazeLaw braze{230e6, 250.0 + celsius_zero, 640.0 + celsius_zero};
const BondLaw bond{400e6, 0.5e6, 20.0 + celsius_zero};

geometry::CutterShape cutter() {
  geometry::CutterShape shape;
  shape.radius = 8e-3;
  shape.length = 13e-3;
  shape.table_thickness = 2e-3;
  return shape;
}

TEST(LognormalFailure, FollowsTheTableOfTheNormalDistribution) {
  // Abramowitz & Stegun, Handbook of Mathematical Functions, 1964, table 26.1 [hb, from memory].
  const double rows[][2] = {{0.0, 0.5},          {0.5, 0.691462461}, {1.0, 0.841344746}, {1.5, 0.933192799},
                            {1.96, 0.975002105}, {2.0, 0.977249868}, {3.0, 0.998650102}};
  for (const auto& row : rows) {
    EXPECT_NEAR(lognormal_failure_probability(std::exp(0.2 * row[0]), 0.2), row[1], 1e-9) << row[0];
    EXPECT_NEAR(lognormal_failure_probability(std::exp(-0.2 * row[0]), 0.2), 1.0 - row[1], 1e-9) << row[0];
  }
  // Far tail: Phi(-6) = 9.8659e-10 [hb, as above]; no cancellation.
  EXPECT_NEAR(lognormal_failure_probability(std::exp(-0.9), 0.15) / 9.86588e-10, 1.0, 1e-5);
}

TEST(LognormalFailure, HasItsLimits) {
  EXPECT_EQ(lognormal_failure_probability(0.0, 0.2), 0.0);
  EXPECT_EQ(lognormal_failure_probability(-1.0, 0.2), 0.0);
  EXPECT_EQ(lognormal_failure_probability(1e300, 0.2), 1.0);
  EXPECT_EQ(lognormal_failure_probability(0.999, 0.0), 0.0);
  EXPECT_EQ(lognormal_failure_probability(1.0, 0.0), 0.5);
  EXPECT_EQ(lognormal_failure_probability(1.001, 0.0), 1.0);
  EXPECT_TRUE(std::isnan(lognormal_failure_probability(nan, 0.2)));
  EXPECT_TRUE(std::isnan(lognormal_failure_probability(0.0, nan)));
}

TEST(Braze, NeverGainsStrengthByHeating) {
  double last = 230e6;
  for (double T = -100.0; T < 3000.0; T += 1.0) {
    const double strength = braze_strength(braze, T);
    ASSERT_LE(strength, last) << T;
    last = strength;
  }
  EXPECT_EQ(braze_strength(braze, 250.0 + celsius_zero), 230e6);
  EXPECT_NEAR(braze_strength(braze, 445.0 + celsius_zero), 0.525 * 230e6, 1.0);  // half way by symmetry
  EXPECT_NEAR(braze_strength(braze, 640.0 + celsius_zero), 0.05 * 230e6, 1.0);
  EXPECT_NEAR(braze_strength(braze, 1e6), 0.05 * 230e6, 1.0);
  EXPECT_TRUE(std::isnan(braze_strength(braze, nan)));
}

TEST(Braze, StrengthIsContinuouslyDifferentiable) {
  // Curvature of the cubic: 6 x 0.95/390^2 per K2 = 3.7e-5; a corner would jump by more than 1e-3.
  const auto slope = [](double T) {
    return (braze_strength(braze, T + 5e-3) - braze_strength(braze, T - 5e-3)) / 1e-2 / 230e6;
  };
  for (double T = 500.0; T < 940.0; T += 0.1) ASSERT_NEAR(slope(T + 0.1), slope(T), 5e-6) << T;
}

TEST(Pocket, AreaIsTheCarbidesSideInThePocketAndItsBack) {
  // 2 pi 8 mm x 11 mm x 0.5 = 276.46 mm2; pi 64 = 201.06 mm2.
  EXPECT_NEAR(bonded_pocket_area(cutter(), 0.5, false), 276.460e-6, 1e-9);
  EXPECT_NEAR(bonded_pocket_area(cutter(), 0.5, true), 477.522e-6, 1e-9);
  EXPECT_EQ(bonded_pocket_area(cutter(), 2.0, false), 0.0);
  EXPECT_TRUE(std::isnan(bonded_pocket_area(cutter(), nan, true)));
}

TEST(Pocket, LoadShareIsLoadOverStrengthTimesArea) {
  const double area = bonded_pocket_area(cutter(), 0.5, true);
  EXPECT_NEAR(pocket_load_share(braze, 230e6 * area, area, 1.0, 300.0), 1.0, 1e-14);
  EXPECT_NEAR(pocket_load_share(braze, 230e6 * area, area, 0.5, 300.0), 2.0, 1e-14);
  // At ordinary loads far from failing: 5 kN on a 16 x 13 mm cutter at 150 C.
  const double ordinary = pocket_load_share(braze, 5e3, area, 1.0, 423.0);
  EXPECT_GT(ordinary, 0.02);
  EXPECT_LT(ordinary, 0.1);
  // Near the solidus the same load tears it out.
  EXPECT_GT(pocket_load_share(braze, 7e3, area, 1.0, 640.0 + celsius_zero), 1.0);
  EXPECT_TRUE(std::isfinite(pocket_load_share(braze, 5e3, -1.0, -1.0, 1e9)));
  EXPECT_EQ(pocket_load_share(braze, -5e3, area, 1.0, 300.0), 0.0);
  EXPECT_TRUE(std::isnan(pocket_load_share(braze, nan, area, 1.0, 300.0)));
  EXPECT_TRUE(std::isnan(pocket_load_share(braze, 5e3, area, nan, 300.0)));
  EXPECT_TRUE(std::isnan(pocket_load_share(braze, 5e3, area, 1.0, nan)));
}

TEST(Bond, OnlyTheForceAlongTheFaceShearsIt) {
  const double face = pi * 64e-6, T_0 = 20.0 + celsius_zero;
  // A push square to the face, F_n/F_t = tan(theta), shears nothing.
  EXPECT_NEAR(bond_load_share(bond, 4e3, 4e3 * std::tan(15.0 * degree), cutter(), 15.0 * degree, T_0), 0.0,
              1e-15);
  // A push along it shears with all its size, either way.
  for (const double way : {1.0, -1.0})
    EXPECT_NEAR(bond_load_share(bond, -way * 4e3 * std::sin(15.0 * degree),
                                way * 4e3 * std::cos(15.0 * degree), cutter(), 15.0 * degree, T_0),
                4e3 / face / 400e6, 1e-14);
  // Without force, 200 K from neutral at 0.5 MPa/K: a quarter of 400 MPa, hot or cold.
  EXPECT_NEAR(bond_load_share(bond, 0.0, 0.0, cutter(), 0.3, T_0 + 200.0), 0.25, 1e-14);
  EXPECT_NEAR(bond_load_share(bond, 0.0, 0.0, cutter(), 0.3, T_0 - 200.0), 0.25, 1e-14);
  const double ordinary = bond_load_share(bond, 3.5e3, 3.5e3, cutter(), 15.0 * degree, 423.0);
  EXPECT_GT(ordinary, 0.05);
  EXPECT_LT(ordinary, 0.3);
}

TEST(Bond, IsFiniteForWildNumbersAndLetsANaNThrough) {
  geometry::CutterShape none;
  none.radius = 0.0;
  EXPECT_TRUE(std::isfinite(bond_load_share({0.0, 1e6, 300.0}, 1e6, -1e6, none, 9.0, -1e6)));
  EXPECT_TRUE(std::isnan(bond_load_share(bond, nan, 1e3, cutter(), 0.3, 400.0)));
  EXPECT_TRUE(std::isnan(bond_load_share(bond, 1e3, nan, cutter(), 0.3, 400.0)));
  EXPECT_TRUE(std::isnan(bond_load_share(bond, 1e3, 1e3, cutter(), 0.3, nan)));
}

TEST(Blade, IsACantileverOfRectangularSection) {
  // Outer fibre M c/I with I = b t^3/12 and c = t/2 [hb: beam theory]: 600 N m on 80 x 22 mm.
  const BladeSection section{30e-3, 22e-3, 80e-3};
  const double inertia = 80e-3 * std::pow(22e-3, 3) / 12.0;
  EXPECT_NEAR(blade_load_share(600.0, section, 750e6), 600.0 * 11e-3 / inertia / 750e6, 1e-14);
  EXPECT_GT(blade_load_share(600.0, section, 750e6), 0.05);
  EXPECT_LT(blade_load_share(600.0, section, 750e6), 0.3);
  EXPECT_EQ(blade_load_share(-600.0, section, 750e6), blade_load_share(600.0, section, 750e6));
  EXPECT_TRUE(std::isfinite(blade_load_share(600.0, {}, 0.0)));
  EXPECT_TRUE(std::isnan(blade_load_share(nan, section, 750e6)));
  EXPECT_TRUE(std::isnan(blade_load_share(1.0, {nan, nan, 0.1}, 750e6)));
}

}  // namespace
}  // namespace dullcast::failure
