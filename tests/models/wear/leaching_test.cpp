#include "models/wear/leaching.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "models/common/constants.hpp"

namespace dullcast::wear {
namespace {

constexpr double theta = 20.0 * two_pi / 360.0;

geometry::CutterShape shape(double face, double side) {
  geometry::CutterShape shape;
  shape.radius = 8e-3;
  shape.length = 13e-3;
  shape.table_thickness = 2e-3;
  shape.leach_depth = face;
  shape.leach_side_depth = side;
  return shape;
}

/// The share by counting points of the flat, in its own plane: s along travel from the face, y across. A
/// point lies s cos(theta) behind the face, and its height above the axis is a - u + s sin(theta).
double counted_share(const geometry::CutterShape& c, double back_rake, double u) {
  constexpr int n = 1500;
  const double longest = c.table_thickness / std::cos(back_rake);
  long diamond = 0, leached = 0;
  for (int i = 0; i < n; ++i) {
    const double s = longest * (i + 0.5) / n;
    const double height = c.radius - u + s * std::sin(back_rake);
    for (int k = 0; k < n; ++k) {
      const double y = c.radius * (k + 0.5) / n, from_axis = std::hypot(height, y);
      if (from_axis > c.radius) continue;
      ++diamond;
      if (s * std::cos(back_rake) < c.leach_depth || from_axis > c.radius - c.leach_side_depth) ++leached;
    }
  }
  return static_cast<double>(leached) / static_cast<double>(diamond);
}

TEST(LeachedShare, IsThatOfPointsCountedOnTheFlat) {
  for (const double face : {0.0, 0.2e-3, 0.6e-3}) {
    for (const double side : {0.0, 0.3e-3}) {
      if (face + side == 0.0) continue;
      for (const double u : {0.2e-3, 0.5e-3, 1e-3, 3e-3, 6e-3}) {
        // A flat of millimetres is counted in cells of 1 to 5 micrometres: its border is known to a few of
        // them.
        EXPECT_NEAR(leached_share(shape(face, side), theta, u), counted_share(shape(face, side), theta, u),
                    0.01)
            << face << " " << side << " " << u;
      }
    }
  }
}

TEST(LeachedShare, TheFirstTenthsAreLeachedThroughoutAndThenTheLeadIsLost) {
  const geometry::CutterShape c = shape(0.3e-3, 0.0);
  const double first = 0.3e-3 * std::tan(theta);
  EXPECT_EQ(leached_share(c, theta, 0.0), 1.0);
  EXPECT_NEAR(leached_share(c, theta, 0.99 * first), 1.0, 1e-12);
  double before = 1.0;
  for (double u = 1.1 * first; u < 2e-3 * std::tan(theta); u += 0.05e-3) {
    const double share = leached_share(c, theta, u);
    EXPECT_LT(share, before) << u;
    before = share;
  }
  EXPECT_LT(before, 0.4);
  EXPECT_EQ(leached_share(shape(0.0, 0.0), theta, 1e-3), 0.0);
}

TEST(LeachedShare, OfAFlatAlongTheAxisIsThatOfTheTable) {
  EXPECT_NEAR(leached_share(shape(0.5e-3, 0.0), 0.0, 2e-3), 0.25, 1e-6);
}

TEST(DepthUnderLeached, IsHalfTheLayerSeenAlongTheFlatsNormal) {
  EXPECT_NEAR(depth_under_leached(shape(0.2e-3, 0.0), theta, 1e-3), 0.1e-3 / std::sin(theta), 1e-12);
  EXPECT_NEAR(depth_under_leached(shape(0.0, 0.5e-3), theta, 0.2e-3), 0.3e-3, 1e-12);
  EXPECT_EQ(depth_under_leached(shape(0.0, 0.5e-3), theta, 0.7e-3), 0.0);
}

}  // namespace
}  // namespace dullcast::wear
