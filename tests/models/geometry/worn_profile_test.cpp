#include "models/geometry/worn_profile.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <vector>

#include "models/geometry/wear_flat.hpp"
#include "support/numbers.hpp"
#include "tools/samples/made_bits.hpp"

namespace dullcast::geometry {
namespace {

using samples::Draw;
using testing::degree;

TEST(WornProfile, CellsTileTheRadiusAndKeepToTheSpacing) {
  Draw draw(8);
  for (int b = 0; b < 40; ++b) {
    const BitLayout bit = samples::random_bit(draw);
    const double spacing = usual_spacing(bit);
    WornProfile profile(bit, samples::made_edge_law(), spacing);
    profile.update(Eigen::ArrayXd::Zero(bit.count()));
    EXPECT_NEAR(profile.outer_radius(), bit.bit_radius, 1e-12);
    double at = profile.core_radius();
    for (const ProfileCell& cell : profile.cells()) {
      // Slivers under 1e-9 of the spacing are skipped.
      ASSERT_NEAR(cell.inner, at, 2e-9 * spacing);
      ASSERT_LE(cell.outer - cell.inner, spacing * (1.0 + 1e-9));
      at = cell.outer;
    }
    EXPECT_NEAR(at, profile.outer_radius(), 2e-9 * spacing);
  }
}

TEST(WornProfile, SegmentsRunFromOutlineToOutlineInPassingOrder) {
  Draw draw(9);
  for (int b = 0; b < 20; ++b) {
    const BitLayout bit = samples::random_bit(draw);
    const Eigen::ArrayXd u = samples::random_wear(bit, draw);
    WornProfile profile(bit, samples::made_edge_law(), usual_spacing(bit));
    profile.update(u);
    for (const ProfileCell& cell : profile.cells()) {
      double phase = 2.0;
      for (int k = 0; k < cell.count; ++k) {
        const OutlineSegment s = profile.segment(cell, k);
        ASSERT_LE(s.pass_phase, phase);
        phase = s.pass_phase;
        ASSERT_NEAR(s.pass_phase, bit.azimuth(s.cutter) / two_pi, 1e-15);
        const double middle = 0.5 * (cell.inner + cell.outer);
        const auto lowest = samples::lowest_point(bit, s.cutter, u(s.cutter), middle);
        ASSERT_TRUE(lowest.has_value());
        // A chord lies inside the arc.
        ASSERT_LE(0.5 * (s.depth_inner + s.depth_outer), *lowest + 1e-12);
      }
      // Nobody is missing: every face that reaches the middle has a segment.
      int standing = 0;
      const double middle = 0.5 * (cell.inner + cell.outer);
      for (Eigen::Index i = 0; i < bit.count(); ++i) {
        if (samples::lowest_point(bit, i, u(i), middle).has_value()) ++standing;
      }
      ASSERT_EQ(cell.count, standing);
    }
  }
}

/// A single cutter on a flat face at worn height u, in fine cells.
WornProfile single(double u, double back_rake, const EdgeLaw& law = samples::made_edge_law()) {
  const BitLayout bit = samples::flat_faced_bit(1, 1, 8e-3, back_rake, 40e-3);
  WornProfile profile(bit, law, 8e-3 / 512.0);
  profile.update(Eigen::ArrayXd::Constant(1, u));
  return profile;
}

TEST(WornProfile, ContactLengthsAreThoseOfTheWornCylinder) {
  const double a = 8e-3, l = 13e-3, t = 2e-3, theta = 15.0 * degree, u = 2e-3;
  const WornProfile profile = single(u, theta);
  const double land = bearing_land(profile.bit().shapes.front(), theta, samples::made_edge_law());
  const double centre = profile.bit().radius(0);
  for (const ProfileCell& cell : profile.cells()) {
    const OutlineSegment s = profile.segment(cell, 0);
    const double x = 0.5 * (cell.inner + cell.outer) - centre;
    const double worn = std::max(0.0, u - a + std::sqrt(a * a - x * x));
    const double flat = std::min(worn / std::sin(theta), l / std::cos(theta));
    const double table = t / std::cos(theta);
    ASSERT_NEAR(s.diamond_length, std::max(land, std::min(flat, table)), 1e-14) << x;
    ASSERT_NEAR(s.carbide_length, std::max(0.0, flat - table), 1e-14) << x;
  }
}

TEST(WornProfile, FlatWeightsIntegrateToTheFlatAreaOfTheWornCylinder) {
  // The strips along the edge and the closed forms of the wear flat are two ways to one area.
  double worst = 0.0;
  for (const double theta : {5.0 * degree, 15.0 * degree, 25.0 * degree}) {
    for (const double u : {0.1e-3, 0.5e-3, 2e-3, 5e-3}) {
      const WornProfile profile = single(u, theta);
      const WearFlat flat = wear_flat(8e-3, 13e-3, 2e-3, theta, u);
      const double diamond = profile.flat_weight_total()(0);
      worst = std::max(worst, std::abs(diamond / flat.diamond_area - 1.0));
      double carbide = 0.0;
      for (const ProfileCell& cell : profile.cells()) {
        const OutlineSegment s = profile.segment(cell, 0);
        carbide += s.carbide_length * (cell.outer - cell.inner) / s.cosine;
      }
      EXPECT_NEAR(carbide, flat.carbide_area, 2e-3 * flat.diamond_area);
    }
  }
  std::printf("  flat areas agree within %.2g\n", worst);
  // Cells of a/512 put 180 strips across the narrowest of these flats; the midpoint rule then errs as
  // 1/(180)^2, with a coefficient of order one and kinks where the flat meets the carbide.
  EXPECT_LT(worst, 1e-3);
}

TEST(WornProfile, AnUnwornCutterBearsOnItsLandAndNoFlat) {
  const WornProfile profile = single(0.0, 15.0 * degree);
  const double land = bearing_land(profile.bit().shapes.front(), 15.0 * degree, samples::made_edge_law());
  EXPECT_NEAR(land, 0.53e-3, 1e-12);
  for (const ProfileCell& cell : profile.cells()) {
    const OutlineSegment s = profile.segment(cell, 0);
    ASSERT_EQ(s.diamond_length, land);
    ASSERT_EQ(s.carbide_length, 0.0);
  }
}

TEST(WornProfile, ContactLengthNeverShrinksWithWear) {
  // Where the flat takes over from the land of the bevel, nothing drops; with the tip's own radius always a
  // node the same stretch of edge is followed.
  double before_d = 0.0, before_c = 0.0;
  for (double u = 0.0; u < 7e-3; u += 0.01e-3) {
    const WornProfile profile = single(u, 20.0 * degree);
    double diamond = 0.0, carbide = 0.0;
    for (const ProfileCell& cell : profile.cells()) {
      const double centre = profile.bit().radius(0);
      if (cell.inner > centre + 1e-3 || cell.outer < centre - 1e-3) continue;
      const OutlineSegment s = profile.segment(cell, 0);
      diamond = std::max(diamond, s.diamond_length);
      carbide = std::max(carbide, s.carbide_length);
    }
    ASSERT_GE(diamond, before_d - 1e-9) << u;
    ASSERT_GE(carbide, before_c - 1e-9) << u;
    before_d = diamond;
    before_c = carbide;
  }
  EXPECT_NEAR(before_d, 2e-3 / std::cos(20.0 * degree), 1e-12);
  EXPECT_GT(before_c, 5e-3);
}

TEST(WornProfile, AtNoBackRakeAWornStripBearsAlongTheWholeCutter) {
  const WornProfile profile = single(1e-3, 0.0);
  const double half_flat = std::sqrt(1e-3 * (16e-3 - 1e-3)), centre = profile.bit().radius(0);
  for (const ProfileCell& cell : profile.cells()) {
    const OutlineSegment s = profile.segment(cell, 0);
    const double x = std::abs(0.5 * (cell.inner + cell.outer) - centre);
    // At 1 deg 0.23 mm of wear reach the cutter's end.
    if (x > 0.85 * half_flat && x < half_flat) continue;
    ASSERT_NEAR(
        s.diamond_length,
        x < half_flat ? 2e-3 : bearing_land(profile.bit().shapes.front(), 0.0, samples::made_edge_law()),
        1e-15);
    ASSERT_NEAR(s.carbide_length, x < half_flat ? 11e-3 : 0.0, 1e-15);
  }
}

TEST(WornProfile, AtNoBackRakeTheFlatGrowsFromNothing) {
  double carbide = 0.0;
  const WornProfile profile = single(1e-7, 0.0);
  for (const ProfileCell& cell : profile.cells())
    carbide = std::max(carbide, profile.segment(cell, 0).carbide_length);
  EXPECT_EQ(carbide, 0.0) << "0.1 um of wear has not bared the carbide";
}

TEST(WornProfile, RefusesMoreCuttersOverOneRadiusThanItCanHold) {
  const BitLayout crowd = samples::flat_faced_bit(60, 4, 8e-3, 0.2, 0.1e-3);
  WornProfile profile(crowd, samples::made_edge_law(), 0.5e-3);
  EXPECT_THROW(profile.update(Eigen::ArrayXd::Zero(60)), std::length_error);
}

TEST(WornProfile, ASecondUpdateForgetsTheFirst) {
  Draw draw(10);
  const BitLayout bit = samples::random_bit(draw);
  const Eigen::ArrayXd u = samples::random_wear(bit, draw);
  WornProfile once(bit, samples::made_edge_law(), usual_spacing(bit)), twice = once;
  once.update(u);
  twice.update(samples::random_wear(bit, draw));
  twice.update(u);
  ASSERT_EQ(once.cells().size(), twice.cells().size());
  ASSERT_EQ(once.strips().depth_outer, twice.strips().depth_outer);
  ASSERT_EQ(once.strips().diamond_length, twice.strips().diamond_length);
  EXPECT_TRUE((once.flat_weight_total() == twice.flat_weight_total()).all());
}

TEST(WornProfile, ACopyHasItsOutlinesAndRoomForAnyWear) {
  Draw draw(12);
  const BitLayout bit = samples::random_bit(draw);
  WornProfile first(bit, samples::made_edge_law(), usual_spacing(bit));
  first.update(Eigen::ArrayXd::Zero(bit.count()));
  WornProfile copy = first;
  EXPECT_EQ(copy.changes(), first.changes());
  EXPECT_EQ(copy.strips().depth_outer, first.strips().depth_outer);
  EXPECT_EQ(copy.inner(), first.inner());
  EXPECT_EQ(copy.most_cells(), first.most_cells());
  EXPECT_EQ(copy.most_strips(), first.most_strips());
  copy.update(Eigen::ArrayXd::Zero(bit.count()));
  EXPECT_EQ(copy.changes(), first.changes()) << "nothing to find anew";
  const Eigen::ArrayXd u = samples::random_wear(bit, draw);
  first.update(u);
  copy.update(u);
  EXPECT_EQ(copy.strips().depth_inner, first.strips().depth_inner);
  EXPECT_EQ(copy.strips().carbide_length, first.strips().carbide_length);
  EXPECT_EQ(copy.outer_radius(), first.outer_radius());
}

// A profile takes cells of the spacing at the nose and of an eighth of it at gauge at the least: no more work
// than that.
TEST(WornProfile, HasNoMoreCellsThanItsSpacingAsksFor) {
  const BitLayout flat = samples::flat_faced_bit(12, 3, 6.5e-3, 0.3, 8e-3);
  const double spacing = usual_spacing(flat);
  WornProfile profile(flat, samples::made_edge_law(), spacing);
  profile.update(Eigen::ArrayXd::Zero(12));
  // Each cutter adds its two reaches and the two ends of its edge; the outermost three cells more.
  EXPECT_LT(static_cast<double>(profile.cells().size()), profile.outer_radius() / spacing + 4.0 * 12.0 + 6.0);
}

}  // namespace
}  // namespace dullcast::geometry
