#include "models/failure/wedge_stress.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "models/common/constants.hpp"
#include "support/numbers.hpp"

namespace dullcast::failure {
namespace {

using testing::nan;
const double degree = pi / 180.0;

geometry::CutterShape cutter(double bevel_angle = 45.0 * degree, double bevel_width = 0.4e-3) {
  geometry::CutterShape shape;
  shape.radius = 8e-3;
  shape.length = 13e-3;
  shape.table_thickness = 2e-3;
  shape.bevel_width = bevel_width;
  shape.bevel_angle = bevel_angle;
  shape.edge_radius = 30e-6;
  return shape;
}

TEST(EdgeWedge, UnwornItStandsBetweenBevelAndSide) {
  for (const double chi : {0.0, 12.0, 20.0, 45.0}) {
    const EdgeWedge wedge = edge_wedge(cutter(chi * degree), 15.0 * degree, 0.0);
    EXPECT_NEAR(wedge.half_angle, (45.0 + chi / 2.0) * degree, 1e-15) << chi;
    EXPECT_NEAR(wedge.load_angle, (60.0 + chi / 2.0) * degree, 1e-15) << chi;
  }
}

TEST(EdgeWedge, AnglesAreThoseOfTheSidesDirections) {
  // Directions from the tip, forward along the travel 0, up 90 deg: bevel at 90 - theta - chi, side at 180 -
  // theta, flat at 180; the impact pushes at 180. Bisectors and openings follow without the header's
  // formulas.
  const double theta = 20.0, chi = 30.0;
  const auto expected = [](double front, double back) {
    return EdgeWedge{0.5 * (back - front) * degree, (180.0 - 0.5 * (front + back)) * degree};
  };
  const geometry::CutterShape shape = cutter(chi * degree);
  // First touch at 0.4 mm tan 30 tan 20 = 0.0841 mm, bevel used up at 0.4 mm.
  const struct {
    double worn;
    EdgeWedge wedge;
  } rows[] = {
      {0.0, expected(90 - theta - chi, 180 - theta)}, {0.08e-3, expected(90 - theta - chi, 180 - theta)},
      {0.12e-3, expected(90 - theta - chi, 180)},     {0.33e-3, expected(90 - theta - chi, 180)},
      {0.41e-3, expected(90 - theta, 180)},           {5e-3, expected(90 - theta, 180)}};
  for (const auto& row : rows) {
    const EdgeWedge wedge = edge_wedge(shape, theta * degree, row.worn);
    EXPECT_NEAR(wedge.half_angle, row.wedge.half_angle, 1e-14) << row.worn;
    EXPECT_NEAR(wedge.load_angle, row.wedge.load_angle, 1e-14) << row.worn;
  }
}

TEST(EdgeWedge, ABevelNarrowerThanTheEdgeRadiusIsNone) {
  const EdgeWedge sharp = edge_wedge(cutter(0.0, 0.0), 15.0 * degree, 0.0);
  // 0 when the width is 0; 0.2 of 30 micrometres shifts the angle by under 5 % of chi.
  EXPECT_EQ(edge_wedge(cutter(45.0 * degree, 0.0), 15.0 * degree, 0.0).half_angle, sharp.half_angle);
  EXPECT_NEAR(edge_wedge(cutter(45.0 * degree, 6e-6), 15.0 * degree, 0.0).half_angle, sharp.half_angle,
              0.05 * 22.5 * degree);
}

TEST(EdgeWedge, IsContinuouslyDifferentiableInWornHeight) {
  // Second derivatives of the cubic steps: at most 6 (0.785 rad)/(60e-6 m)^2/2 and 6 (0.262 rad)/(30e-6
  // m)^2/2 of the half angle, together 1.5e9 rad/m2: slopes 2e-8 m apart differ by at most 31 rad/m, a corner
  // of either step by the order of 1e4.
  const geometry::CutterShape shape = cutter();
  const double step = 2e-8;
  double last_angle = edge_wedge(shape, 15.0 * degree, -step).half_angle, last_slope = 0.0, steepest = 0.0;
  for (double u = 0.0; u < 0.6e-3; u += step) {
    const double angle = edge_wedge(shape, 15.0 * degree, u).half_angle;
    const double slope = (angle - last_angle) / step;
    ASSERT_LT(std::fabs(slope - last_slope), 40.0) << u;
    steepest = std::max(steepest, std::fabs(slope));
    last_angle = angle;
    last_slope = slope;
  }
  EXPECT_GT(steepest, 5e3);  // the steps were met
}

TEST(EdgeWedge, StaysAWedgeForWildInputs) {
  for (const double theta : {-1.0, 0.0, 0.3, 1.5, 1e9})
    for (const double chi : {-1.0, 0.0, 0.7, 3.0})
      for (const double u : {-1.0, 0.0, 1e-4, 1e9})
        for (const double edge : {-1.0, 0.0, 3e-5}) {
          geometry::CutterShape shape = cutter(chi);
          shape.edge_radius = edge;
          const EdgeWedge wedge = edge_wedge(shape, theta, u);
          ASSERT_GE(wedge.half_angle, pi / 4.0 - 1e-15);
          ASSERT_LE(wedge.half_angle, pi / 2.0 + 1e-15);
          ASSERT_TRUE(std::isfinite(wedge_stress_factor(wedge.half_angle, wedge.load_angle)));
        }
}

// Before, within and after each change of the wedge, and where the bevel is none.
TEST(WearingWedge, BreaksAsTheWedgeOfItsWornHeightToTheLastBit) {
  for (const double chi : {0.0, 0.2, 45.0 * degree})
    for (const double theta : {0.0, 15.0 * degree, 0.5}) {
      const geometry::CutterShape shape = cutter(chi);
      const WearingWedge wearing(shape, theta);
      double least = 1e9, most = 0.0;
      for (double u = -1e-4; u < 1e-3; u += 1.7e-6) {
        const EdgeWedge wedge = edge_wedge(shape, theta, u);
        const double factor = wearing.stress_factor(u);
        ASSERT_EQ(factor, wedge_stress_factor(wedge.half_angle, wedge.load_angle)) << u;
        least = std::min(least, factor);
        most = std::max(most, factor);
      }
      if (theta > 0.0) {
        EXPECT_GT(most, 1.05 * least);
      }
      EXPECT_TRUE(std::isnan(wearing.stress_factor(nan)));
    }
}

TEST(EdgeWedge, LetsANaNThrough) {
  EXPECT_TRUE(std::isnan(edge_wedge(cutter(), nan, 0.0).half_angle));
  EXPECT_TRUE(std::isnan(edge_wedge(cutter(), 0.3, nan).half_angle));
  EXPECT_TRUE(std::isnan(edge_wedge(cutter(), 0.3, nan).load_angle));
  EXPECT_TRUE(std::isnan(edge_wedge(cutter(nan), 0.3, 0.0).half_angle));
  EXPECT_TRUE(std::isnan(wedge_stress_factor(nan, 0.3)));
  EXPECT_TRUE(std::isnan(wedge_stress_factor(0.7, nan)));
}

TEST(WedgeStress, IsNoTensionWhereTheLoadPressesStraightIn) {
  for (const double alpha : {0.3, 0.8, 1.2, pi / 2.0}) EXPECT_EQ(wedge_stress_factor(alpha, 0.0), 0.0);
}

}  // namespace
}  // namespace dullcast::failure
