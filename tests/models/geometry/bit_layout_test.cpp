#include "models/geometry/bit_layout.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <string>

#include "models/geometry/outline.hpp"
#include "support/numbers.hpp"
#include "tools/samples/made_bits.hpp"

namespace dullcast::geometry {
namespace {

using samples::Draw;
using testing::degree;
constexpr double not_a_number = std::numeric_limits<double>::quiet_NaN();

CutterShape shape_of(double radius) {
  return {radius, 13e-3, 2e-3, 0.0, 0.4e-3, 45.0 * degree, 30e-6};
}

BladePlan plan_of_four() {
  BladePlan plan;
  plan.bit_diameter = 0.2;
  plan.cutters_per_blade.resize(4);
  plan.cutters_per_blade << 5, 4, 5, 4;
  plan.wing_sweep = 30.0 * degree;
  plan.cone_angle = 12.0 * degree;
  plan.gauge_angle = 75.0 * degree;
  plan.inner_back_rake = 15.0 * degree;
  plan.outer_back_rake = 20.0 * degree;
  plan.exposure = 8e-3;
  return plan;
}

TEST(BitLayout, TheOutermostOutlineJustReachesTheBitRadius) {
  Draw draw(1);
  for (int b = 0; b < 50; ++b) {
    const BitLayout bit = samples::random_bit(draw);
    double reach = 0.0;
    for (Eigen::Index i = 0; i < bit.count(); ++i)
      reach = std::max(reach, make_outline(bit, i, 0.0).reach_outer);
    EXPECT_NEAR(reach, bit.bit_radius, 1e-12) << b;
  }
}

TEST(BitLayout, TipsLieOnAConeANoseAndAShoulder) {
  const BladePlan plan = plan_of_four();
  const BitLayout bit = lay_out_blades(plan, shape_of(8e-3));
  ASSERT_EQ(bit.count(), 18);
  const double nose = plan.nose_share * bit.bit_radius;
  for (Eigen::Index i = 1; i < bit.count(); ++i) {
    ASSERT_GT(bit.radius(i), bit.radius(i - 1)) << "cutters are numbered from the axis outward";
    // The profile's slope is minus the tangent of the profile angle; between neighbours it lies between
    // theirs.
    const double slope = (bit.depth(i) - bit.depth(i - 1)) / (bit.radius(i) - bit.radius(i - 1));
    EXPECT_LE(slope, -std::tan(bit.profile_angle(i - 1)) + 1e-12) << i;
    EXPECT_GE(slope, -std::tan(bit.profile_angle(i)) - 1e-12) << i;
    EXPECT_LE(bit.depth(i), 0.0);
    EXPECT_EQ(bit.profile_angle(i) > 0.0, bit.radius(i) > nose) << i;
  }
  EXPECT_NEAR(bit.profile_angle(0), -12.0 * degree, 1e-12);
  EXPECT_NEAR(bit.profile_angle(17), 75.0 * degree, 1e-12);
}

TEST(BitLayout, BladesGetTheCuttersAskedForAndTrailWithTheSweep) {
  const BladePlan plan = plan_of_four();
  const BitLayout bit = lay_out_blades(plan, shape_of(8e-3));
  Eigen::Array4i cutters = Eigen::Array4i::Zero();
  for (Eigen::Index i = 0; i < bit.count(); ++i) {
    ++cutters(bit.blade(i));
    ASSERT_GE(bit.azimuth(i), 0.0);
    ASSERT_LT(bit.azimuth(i), two_pi);
    // Azimuth runs with the rotation, so a wing that trails has less of it further out.
    const double expected = bit.blade(i) * 0.5 * pi - plan.wing_sweep * bit.radius(i) / bit.bit_radius;
    EXPECT_NEAR(std::remainder(bit.azimuth(i) - expected, two_pi), 0.0, 1e-12) << i;
    EXPECT_NEAR(bit.back_rake(i), (bit.radius(i) > 2.0 / 3.0 * bit.bit_radius ? 20.0 : 15.0) * degree, 1e-12)
        << i;
  }
  EXPECT_TRUE((cutters == plan.cutters_per_blade).all());
}

TEST(BitLayout, LargerCuttersInsideAndSmallerOnesOutsideStandOnOneProfile) {
  BladePlan plan = plan_of_four();
  plan.exposure.reset();
  plan.side_rake = 8.0 * degree;
  const BitLayout even = lay_out_blades(plan, shape_of(6.5e-3));
  plan.zones = {{0.5, 1}};
  plan.fitted = {{3, 1}, {12, 0}};
  const BitLayout bit = lay_out_mixed(plan, {shape_of(8e-3), shape_of(6.5e-3)});
  double reach = 0.0;
  for (Eigen::Index i = 0; i < bit.count(); ++i) {
    const int kind = i == 3 ? 1 : i == 12 ? 0 : bit.radius(i) >= 0.5 * bit.radius(17) ? 1 : 0;
    EXPECT_EQ(bit.kind(i), kind) << i;
    EXPECT_EQ(bit.exposure(i), kind == 1 ? 6.5e-3 : 8e-3) << i;
    // Tips are where they would be were all cutters as the outermost one.
    EXPECT_NEAR(bit.radius(i), even.radius(i), 1e-15) << i;
    EXPECT_NEAR(bit.depth(i), even.depth(i), 1e-15) << i;
    reach = std::max(reach, make_outline(bit, i, 0.0).reach_outer);
  }
  EXPECT_NEAR(reach, 0.1, 1e-12);
  EXPECT_EQ(cutter_radii(bit)(3), 6.5e-3);
}

TEST(BitLayout, ATwistedWingTurnsLinearlyFromItsFirstToItsLastCutter) {
  BladePlan plan = plan_of_four();
  plan.wing_twist = {{40.0 * degree, 0.0}, {0.0, 0.02}, {}, {-10.0 * degree, 0.0}};
  const BitLayout bit = lay_out_blades(plan, shape_of(8e-3));
  const double angle[] = {40.0 * degree, 0.2, 0.0, -10.0 * degree};
  for (int blade = 0; blade < 4; ++blade) {
    double inner = 1.0, outer = 0.0;
    for (Eigen::Index i = 0; i < bit.count(); ++i)
      if (bit.blade(i) == blade)
        inner = std::min(inner, bit.radius(i)), outer = std::max(outer, bit.radius(i));
    for (Eigen::Index i = 0; i < bit.count(); ++i) {
      if (bit.blade(i) != blade) continue;
      const double trails = angle[blade] * (bit.radius(i) - inner) / (outer - inner);
      EXPECT_NEAR(std::remainder(bit.azimuth(i) + trails - 0.5 * pi * blade, two_pi), 0.0, 1e-12) << i;
    }
  }
}

TEST(BitLayout, CrowdingMovesCuttersToGaugeAndOneSpacesEvenly) {
  BladePlan plan = plan_of_four();
  plan.crowding = 1.0;
  const BitLayout even = lay_out_blades(plan, shape_of(8e-3));
  const double spacing = even.radius(1) - even.radius(0);
  for (Eigen::Index i = 1; i < even.count(); ++i)
    EXPECT_NEAR(even.radius(i) - even.radius(i - 1), spacing, 1e-12);
  plan.crowding = 0.7;
  const BitLayout crowded = lay_out_blades(plan, shape_of(8e-3));
  EXPECT_GT(crowded.radius.mean(), even.radius.mean());
  EXPECT_NEAR(crowded.radius(17), even.radius(17), 1e-15);
}

TEST(BitLayout, ARadiusThatNoCutterReachesIsFound) {
  BitLayout bit = lay_out_blades(plan_of_four(), shape_of(8e-3));
  const UncoveredBand none = first_uncovered_band(bit);
  EXPECT_EQ(none.inner, none.outer);
  // Two cutters of 8 mm radius, 20 mm apart on a flat face, leave 4 mm.
  const BitLayout apart = samples::flat_faced_bit(2, 1, 8e-3, 15.0 * degree, 20e-3);
  const UncoveredBand band = first_uncovered_band(apart);
  EXPECT_NEAR(band.inner, 18e-3, 1e-12);
  EXPECT_NEAR(band.outer, 22e-3, 1e-12);
  EXPECT_EQ(first_uncovered_band(apart, 5e-3).outer, 0.0);
}

/// The sentence with which a plan is refused; empty when it is not.
std::string refusal_of(const BladePlan& plan, const CutterShape& shape) {
  try {
    (void)lay_out_blades(plan, shape);
  } catch (const std::invalid_argument& error) {
    return error.what();
  }
  return {};
}

TEST(BitLayout, WhatAPlanOrACutterDoesNotSayIsUsual) {
  EXPECT_EQ(BladePlan{}.nose_share, 0.6);
  EXPECT_EQ(BladePlan{}.crowding, 0.75);
  EXPECT_EQ(CutterShape{}.edge_radius, 30e-6);
}

TEST(BitLayout, RefusesPlansThatCannotBeLaidOut) {
  const CutterShape shape = shape_of(8e-3);
  EXPECT_EQ(refusal_of(plan_of_four(), shape), "");
  const auto with = [](auto change) {
    BladePlan plan = plan_of_four();
    change(plan);
    return plan;
  };
  EXPECT_EQ(refusal_of(with([](BladePlan& p) { p.bit_diameter = -0.2; }), shape),
            "blade plan: the bit diameter must be above 0");
  EXPECT_NE(refusal_of(with([](BladePlan& p) { p.bit_diameter = not_a_number; }), shape), "");
  EXPECT_EQ(refusal_of(plan_of_four(), shape_of(60e-3)),
            "blade plan: a cutter must be narrower than half the bit");
  EXPECT_EQ(refusal_of(with([](BladePlan& p) { p.cutters_per_blade(2) = 0; }), shape),
            "blade plan: every blade needs at least one cutter");
  EXPECT_EQ(refusal_of(with([](BladePlan& p) { p.cutters_per_blade.resize(0); }), shape),
            "blade plan: there must be at least one blade");
  EXPECT_EQ(refusal_of(with([](BladePlan& p) { p.nose_share = 1.0; }), shape),
            "blade plan: the nose must lie between axis and gauge");
  EXPECT_EQ(refusal_of(with([](BladePlan& p) { p.nose_share = 0.999; }), shape),
            "blade plan: the nose lies outside the outermost cutter");
  EXPECT_EQ(refusal_of(with([](BladePlan& p) { p.gauge_angle = 0.0; }), shape),
            "blade plan: the gauge angle must lie above 0 and up to 90 deg");
  EXPECT_NE(refusal_of(with([](BladePlan& p) { p.gauge_angle = not_a_number; }), shape), "");
  EXPECT_NE(refusal_of(with([](BladePlan& p) { p.cone_angle = not_a_number; }), shape), "");
  EXPECT_NE(refusal_of(with([](BladePlan& p) { p.cone_angle = 0.51 * pi; }), shape), "");
  EXPECT_NE(refusal_of(with([](BladePlan& p) { p.crowding = 0.0; }), shape), "");
  EXPECT_EQ(refusal_of(with([](BladePlan& p) { p.wing_twist.resize(3); }), shape),
            "blade plan: there must be one twist for every blade");
  EXPECT_EQ(refusal_of(with([](BladePlan& p) {
                         p.zones = {{0.5, 1}};
                       }),
                       shape),
            "blade plan: a zone has cutters of a kind that is not there");
  EXPECT_EQ(refusal_of(with([](BladePlan& p) {
                         p.zones = {{0.5, 0}, {0.5, 0}};
                       }),
                       shape),
            "blade plan: zones must be in rising order");
  EXPECT_EQ(refusal_of(with([](BladePlan& p) {
                         p.fitted = {{18, 0}};
                       }),
                       shape),
            "blade plan: a cutter is fitted that the bit does not have");
  EXPECT_EQ(refusal_of(with([](BladePlan& p) {
                         p.fitted = {{3, -1}};
                       }),
                       shape),
            "blade plan: a cutter is fitted of a kind that is not there");
}

}  // namespace
}  // namespace dullcast::geometry
