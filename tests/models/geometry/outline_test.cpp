#include "models/geometry/outline.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "tools/samples/made_bits.hpp"

namespace dullcast::geometry {
namespace {

using samples::Draw;

TEST(Outline, IsTheLowestPointOfTheTiltedDisc) {
  Draw draw(2);
  for (int b = 0; b < 40; ++b) {
    const BitLayout bit = samples::random_bit(draw);
    for (Eigen::Index i = 0; i < bit.count(); ++i) {
      const double u = draw.between(0.0, 1.0) * bit.shapes.front().radius;
      const Outline outline = make_outline(bit, i, u);
      for (int k = 0; k < 20; ++k) {
        const double r = draw.between(outline.reach_inner, outline.reach_outer);
        const auto lowest = samples::lowest_point(bit, i, u, r);
        ASSERT_TRUE(lowest.has_value()) << "bit " << b << " cutter " << i << " at " << r;
        // The ellipse stands upright at its ends, where rounding of r counts as a root: 1e-16 under a root of
        // 1e-2.
        ASSERT_NEAR(outline.depth_at(r), *lowest, 1e-10);
      }
      for (const double outside : {outline.reach_inner - 1e-9, outline.reach_outer + 1e-9})
        EXPECT_FALSE(samples::lowest_point(bit, i, u, outside).has_value()) << "bit " << b << " cutter " << i;
    }
  }
}

TEST(Outline, TheTipOfAnUnwornCutterLiesOnIt) {
  Draw draw(4);
  const BitLayout bit = samples::random_bit(draw);
  for (Eigen::Index i = 0; i < bit.count(); ++i) {
    const Outline outline = make_outline(bit, i, 0.0);
    EXPECT_NEAR(outline.depth_at(bit.radius(i)), bit.depth(i), 1e-14);
    EXPECT_NEAR(outline.across_face(bit.radius(i), bit.depth(i)), 0.0, 1e-15);
  }
}

// Points of the disc, carried to the (r, z) plane by tilt, turn and profile angle, are found on it again.
TEST(Outline, TellsWhereOnTheFaceAPointLies) {
  BitLayout bit = samples::flat_faced_bit(1, 1, 8e-3, 0.3, 60e-3);
  bit.side_rake(0) = 0.25;
  bit.profile_angle(0) = 0.7;
  const Outline outline = make_outline(bit, 0, 0.0);
  for (const double x : {-5e-3, 0.0, 3e-3}) {
    for (const double y : {-4e-3, 1e-3, 6e-3}) {
      const double along = x * std::cos(0.25) - y * std::sin(0.3) * std::sin(0.25),
                   normal = y * std::cos(0.3);
      const double r = outline.centre_r + along * std::cos(0.7) + normal * std::sin(0.7);
      const double z = outline.centre_z - along * std::sin(0.7) + normal * std::cos(0.7);
      EXPECT_NEAR(outline.across_face(r, z), x, 1e-16);
    }
  }
}

TEST(Outline, TheFlatEndsWhereItsChordDoes) {
  const BitLayout bit = samples::flat_faced_bit(1, 1, 8e-3, 0.3, 20e-3);
  const double u = 1.5e-3, a = 8e-3;
  const Outline outline = make_outline(bit, 0, u);
  const double half_chord = std::sqrt(u * (2.0 * a - u));
  EXPECT_NEAR(outline.flat_outer - outline.flat_inner, 2.0 * half_chord, 1e-15);
  // Worn u in the face is u cos(theta) along the bit axis.
  for (const double r : {outline.flat_inner, bit.radius(0), outline.flat_outer})
    EXPECT_NEAR(outline.depth_at(r), bit.depth(0) - u * std::cos(0.3), 1e-14);
}

TEST(Outline, NeverDeepensAsItWears) {
  Draw draw(6);
  for (int b = 0; b < 20; ++b) {
    const BitLayout bit = samples::random_bit(draw);
    for (Eigen::Index i = 0; i < bit.count(); ++i) {
      Outline before = make_outline(bit, i, 0.0);
      for (double u = 1e-4; u < 1.2 * bit.shapes.front().radius; u *= 1.5) {
        const Outline after = make_outline(bit, i, u);
        ASSERT_LE(after.reach_outer, before.reach_outer + 1e-15);
        ASSERT_GE(after.reach_inner, before.reach_inner - 1e-15);
        const double r = draw.between(after.reach_inner, after.reach_outer);
        ASSERT_LE(after.depth_at(r), before.depth_at(r) + 1e-14);
        before = after;
      }
    }
  }
}

}  // namespace
}  // namespace dullcast::geometry
