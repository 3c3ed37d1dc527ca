#include "models/geometry/cutter.hpp"

#include <gtest/gtest.h>

#include <Eigen/Geometry>
#include <cmath>
#include <limits>

#include "support/numbers.hpp"
#include "support/refusal.hpp"

namespace dullcast::geometry {
namespace {

using testing::degree;

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

TEST(CuttingDirection, WithoutSideRakeIsTheTangentOfRakePlusAngle) {
  const CuttingDirection force = cutting_direction(15.0 * degree, 0.0, some_law());
  EXPECT_NEAR(force.normal, 1.0 / std::sqrt(3.0), 1e-15);
  EXPECT_EQ(force.sideways, 0.0);
  EXPECT_NEAR(force.friction, std::sin(15.0 * degree) / std::cos(30.0 * degree), 1e-15);
}

// The force itself as a vector: N along the face's inward normal and friction along the way of the chip,
// which leaves the edge's normal by the side rake (Stabler 1951); in the plane normal to the edge the two
// enclose psi.
TEST(CuttingDirection, IsThatOfAForceOnTheFaceWithFrictionAlongTheChip) {
  using Eigen::Vector3d;
  for (const double theta : {5.0 * degree, 15.0 * degree, 20.0 * degree}) {
    for (const double beta : {-40.0 * degree, -10.0 * degree, 3.0 * degree, 10.0 * degree, 25.0 * degree}) {
      const double psi = face_friction_angle(theta, some_law());
      // x along the travel, y outward, z into the rock. The face's normal after tilt by theta and turn by
      // beta:
      const Vector3d normal(std::cos(theta) * std::cos(beta), std::cos(theta) * std::sin(beta),
                            std::sin(theta));
      const Vector3d edge(-std::sin(beta), std::cos(beta), 0.0);
      const Vector3d up = edge.cross(normal);  // in the face, off the edge, away from the rock
      ASSERT_LT(up.z(), 0.0);
      const Vector3d chip = std::cos(beta) * up + std::sin(beta) * edge;
      // Per unit of N: friction F has F cos(beta) in the plane normal to the edge, N tan(psi) there.
      const double friction = std::tan(psi) / std::cos(beta);
      const Vector3d on_rock = normal - friction * chip;  // the chip is dragged back against its way
      const Vector3d on_cutter = -on_rock;
      const CuttingDirection force = cutting_direction(theta, beta, some_law());
      EXPECT_NEAR(force.normal, -on_cutter.z() / on_rock.x(), 1e-14);
      EXPECT_NEAR(force.sideways, -on_cutter.y() / on_rock.x(), 1e-14);
      EXPECT_NEAR(force.friction, friction / on_rock.x(), 1e-14);
    }
  }
}

// Coudyzer & Richard, AADE-05-NTCE-75, 2005: side rake acts barely on the forces along and normal to travel.
TEST(CuttingDirection, UsualSideRakeChangesTheNormalForceByLittle) {
  const double without = cutting_direction(15.0 * degree, 0.0, some_law()).normal;
  EXPECT_NEAR(cutting_direction(15.0 * degree, 5.0 * degree, some_law()).normal / without, 1.0, 0.005);
  EXPECT_NEAR(cutting_direction(15.0 * degree, 10.0 * degree, some_law()).normal / without, 1.0, 0.02);
}

TEST(CuttingDirection, RefusesAForceThatPointsBackwards) {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  EXPECT_NE(testing::refusal([] {
              return cutting_direction(86.0 * degree, 0.0, some_law()).normal;
            }).find("cutting_direction"),
            std::string::npos);
  EXPECT_NE(testing::refusal([] { return cutting_direction(0.2, 90.0 * degree, some_law()).normal; }), "");
  EXPECT_NE(testing::refusal([&] { return cutting_direction(nan, 0.0, some_law()).normal; }), "");
  EXPECT_NE(testing::refusal([&] { return cutting_direction(0.2, nan, some_law()).normal; }), "");
}

TEST(BearingLand, IsTheReferenceLandPlusTheEdgeAtTheReference) {
  EXPECT_NEAR(bearing_land(some_cutter(), 15.0 * degree, some_law()), 630e-6, 1e-18);
}

// Over the reference's 600 um as the lengths of the bevels along the travel: half the width on the face is
// half the slope, by cos 45/cos 15 deg, and lies by sin(15 + 15 deg)/sin(15 + 45 deg) = 1/sqrt(3).
TEST(BearingLand, ScalesWithTheBevelsLengthAlongTheTravel) {
  CutterShape shape = some_cutter();
  shape.bevel_width *= 0.5;
  shape.bevel_angle = 15.0 * degree;
  const double slope = std::cos(45.0 * degree) / std::cos(15.0 * degree);
  EXPECT_NEAR(bearing_land(shape, 15.0 * degree, some_law()), 30e-6 + 300e-6 * slope / std::sqrt(3.0), 1e-18);
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
