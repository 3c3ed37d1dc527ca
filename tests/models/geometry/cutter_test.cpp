#include "models/geometry/cutter.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

#include "models/common/constants.hpp"
#include "support/refusal.hpp"

namespace dullcast::geometry {
namespace {

constexpr double degree = pi / 180.0;

EdgeLaw some_law() {
  EdgeLaw law;
  EXPECT_EQ(law.bevel_width_reference, 4e-4) << "the conventional bevel, unless another is given";
  law.land_reference = 6e-4;
  law.bevel_width_reference = 4e-4;
  law.bevel_angle_reference = 45.0 * degree;
  law.back_rake_reference = 15.0 * degree;
  law.psi_at_reference = 15.0 * degree;
  law.psi_slope = 0.8;
  law.psi_least = 5.0 * degree;
  return law;
}

CutterShape some_cutter() {
  CutterShape shape;
  shape.radius = 8e-3;
  shape.length = 13e-3;
  shape.table_thickness = 2e-3;
  shape.bevel_width = 4e-4;
  shape.bevel_angle = 45.0 * degree;
  shape.edge_radius = 30e-6;
  return shape;
}

TEST(FaceFrictionAngle, FallsAsRakeGrowsDownToItsLeast) {
  EXPECT_NEAR(face_friction_angle(15.0 * degree, some_law()), 15.0 * degree, 1e-15);
  EXPECT_NEAR(face_friction_angle(10.0 * degree, some_law()), 19.0 * degree, 1e-15);
  EXPECT_NEAR(face_friction_angle(25.0 * degree, some_law()), 7.0 * degree, 1e-15);
  EXPECT_EQ(face_friction_angle(30.0 * degree, some_law()), 5.0 * degree);
}

TEST(ForceInclination, IsTheTangentOfRakePlusAngle) {
  EXPECT_NEAR(force_inclination(15.0 * degree, some_law()), 1.0 / std::sqrt(3.0), 1e-15);
}

TEST(ForceInclination, RefusesAForceThatPointsBackwards) {
  EXPECT_NE(
      testing::refusal([] { return force_inclination(86.0 * degree, some_law()); }).find("force_inclination"),
      std::string::npos);
  EXPECT_NE(testing::refusal(
                [] { return force_inclination(std::numeric_limits<double>::quiet_NaN(), some_law()); }),
            "");
}

TEST(BearingLand, IsTheReferenceLandPlusTheEdgeAtTheReference) {
  EXPECT_NEAR(bearing_land(some_cutter(), 15.0 * degree, some_law()), 630e-6, 1e-18);
}

TEST(BearingLand, ScalesWithWidthAndWithTheSineOfTheBevelsRake) {
  CutterShape shape = some_cutter();
  shape.bevel_width *= 0.5;
  shape.bevel_angle = 15.0 * degree;  // sin(15 + 15 deg)/sin(15 + 45 deg) = 1/sqrt(3)
  EXPECT_NEAR(bearing_land(shape, 15.0 * degree, some_law()), 30e-6 + 300e-6 / std::sqrt(3.0), 1e-18);
}

TEST(BearingLand, IsTheEdgeRadiusAloneWithoutABevel) {
  CutterShape no_width = some_cutter(), no_angle = some_cutter();
  no_width.bevel_width = 0.0;
  no_angle.bevel_angle = 0.0;
  EXPECT_EQ(bearing_land(no_width, 15.0 * degree, some_law()), 30e-6);
  EXPECT_EQ(bearing_land(no_angle, 15.0 * degree, some_law()), 30e-6);
}

TEST(BearingLand, RefusesAReferenceThatDividesByZero) {
  EdgeLaw no_width = some_law(), no_angle = some_law();
  no_width.bevel_width_reference = 0.0;
  no_angle.bevel_angle_reference = no_angle.back_rake_reference = 0.0;
  EXPECT_NE(testing::refusal([&] { return bearing_land(some_cutter(), 0.2, no_width); }), "");
  EXPECT_NE(testing::refusal([&] { return bearing_land(some_cutter(), 0.2, no_angle); }), "");
  CutterShape shape = some_cutter();
  shape.bevel_width = std::numeric_limits<double>::quiet_NaN();
  EXPECT_NE(testing::refusal([&] { return bearing_land(shape, 0.2, some_law()); }), "");
}

}  // namespace
}  // namespace dullcast::geometry
