#include "models/geometry/wear_flat.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <boost/multiprecision/cpp_bin_float.hpp>
#include <cmath>
#include <limits>

#include "models/common/constants.hpp"
#include "support/refusal.hpp"

namespace dullcast::geometry {
namespace {

// A hundred digits, in which the closed forms of the header can cancel and still leave all that a double
// holds.
using Long = boost::multiprecision::cpp_bin_float_100;

Long exact_segment(const Long& a, const Long& u) {
  if (u <= 0) return 0;
  return a * a * acos((a - u) / a) - (a - u) * sqrt(2 * a * u - u * u);
}

Long exact_integral(const Long& a, const Long& u) {
  if (u <= 0) return 0;
  const Long q = sqrt(2 * a * u - u * u);
  return a * a * (q - (a - u) * acos((a - u) / a)) - q * q * q / 3;
}

double relative_error(double value, const Long& exact) {
  if (exact == 0) return std::abs(value);
  return static_cast<double>(abs((Long(value) - exact) / exact));
}

const double a = 8e-3, l = 13e-3, t = 2e-3;

TEST(SegmentArea, KeepsItsDigitsFromTheFaintestScratchToTheWholeDisc) {
  double worst = 0.0, worst_integral = 0.0;
  for (double share = 1e-18; share < 2.0; share *= 1.07) {
    const double u = share * a;
    worst = std::max(worst, relative_error(segment_area(a, u), exact_segment(a, u)));
    worst_integral =
        std::max(worst_integral, relative_error(segment_area_integral(a, u), exact_integral(a, u)));
  }
  // A few roundings each.
  EXPECT_LT(worst, 3e-15);
  EXPECT_LT(worst_integral, 5e-15);
}

TEST(SegmentArea, OfTheHalfAndTheWholeDisc) {
  EXPECT_NEAR(segment_area(a, a) / (pi * a * a / 2.0), 1.0, 1e-15);
  EXPECT_NEAR(segment_area(a, 2.0 * a) / (pi * a * a), 1.0, 1e-15);
  EXPECT_EQ(segment_area(a, 0.0), 0.0);
  EXPECT_EQ(segment_area(a, -1e-3), 0.0);
  EXPECT_EQ(segment_area_integral(a, -1e-3), 0.0);
}

TEST(WearFlat, KeepsTwelveDigitsAtEveryRakeAndWornHeight) {
  double worst = 0.0, worst_u = 0.0, worst_rake = 0.0;
  int diamond_only = 0, with_carbide = 0;
  const auto check = [&](double value, const Long& exact, double u, double rake) {
    const double error = relative_error(value, exact);
    if (!(error <= worst)) worst = error, worst_u = u, worst_rake = rake;
  };
  for (const double rake :
       {1e-20, 1e-16, 1e-12, 1e-8, 1e-5, 1e-3, 0.05, 0.1745, 0.2618, 0.35, 0.6, 1.0, 1.4, 1.57}) {
    const Long sine = sin(Long(rake)), tangent = sine / cos(Long(rake));
    for (double share = 1e-15; share <= 2.0; share *= 1.17) {
      const double u = share * a;
      const WearFlat flat = wear_flat(a, l, t, rake, u);
      const Long at_bond = Long(u) - Long(t) * tangent, at_end = Long(u) - Long(l) * tangent;
      check(flat.diamond_area, (exact_segment(a, u) - exact_segment(a, at_bond)) / sine, u, rake);
      check(flat.diamond_volume, (exact_integral(a, u) - exact_integral(a, at_bond)) / tangent, u, rake);
      // Just past the bond the carbide's height u - t tan(theta) is a small difference of the inputs, so its
      // digits are lost in the inputs themselves; the grid keeps off that spot.
      if (at_bond > 0 && at_bond < Long(u) * 0.01) continue;
      check(flat.carbide_area, (exact_segment(a, at_bond) - exact_segment(a, at_end)) / sine, u, rake);
      check(flat.carbide_volume, (exact_integral(a, at_bond) - exact_integral(a, at_end)) / tangent, u, rake);
      (at_bond > 0 ? with_carbide : diamond_only)++;
    }
  }
  EXPECT_LT(worst, 1e-12) << "at u = " << worst_u << " m, rake " << worst_rake;
  EXPECT_GT(diamond_only, 100);
  EXPECT_GT(with_carbide, 100);
  RecordProperty("worst_relative_error", std::to_string(worst * 1e15) + "e-15");
}

TEST(WearFlat, WithoutRakeIsChordAndSegmentTimesLength) {
  const double u = 0.7e-3, chord = 2.0 * std::sqrt(2.0 * a * u - u * u);
  const WearFlat flat = wear_flat(a, l, t, 0.0, u);
  EXPECT_NEAR(flat.diamond_area / (chord * t), 1.0, 1e-14);
  EXPECT_NEAR(flat.carbide_area / (chord * (l - t)), 1.0, 1e-14);
  EXPECT_NEAR(flat.diamond_volume / (segment_area(a, u) * t), 1.0, 1e-14);
  EXPECT_NEAR(flat.carbide_volume / (segment_area(a, u) * (l - t)), 1.0, 1e-14);
}

TEST(WearFlat, GoesOverSmoothlyIntoNoRake) {
  const double u = 0.7e-3;
  const WearFlat none = wear_flat(a, l, t, 0.0, u);
  for (const double rake : {1e-14, 1e-17, 1e-25, 1e-295, 1e-310}) {
    const WearFlat flat = wear_flat(a, l, t, rake, u);
    // The true change is of order l tan(theta)/u: 2e-13 at the largest of these rakes.
    EXPECT_NEAR(flat.diamond_area / none.diamond_area, 1.0, 1e-12) << rake;
    EXPECT_NEAR(flat.carbide_area / none.carbide_area, 1.0, 1e-12) << rake;
    EXPECT_NEAR(flat.diamond_volume / none.diamond_volume, 1.0, 1e-12) << rake;
    EXPECT_NEAR(flat.carbide_volume / none.carbide_volume, 1.0, 1e-12) << rake;
  }
}

TEST(WearFlat, NewCutterHasNone) {
  const WearFlat flat = wear_flat(a, l, t, 0.26, 0.0);
  EXPECT_EQ(flat.diamond_area, 0.0);
  EXPECT_EQ(flat.carbide_area, 0.0);
  EXPECT_EQ(flat.diamond_volume, 0.0);
  EXPECT_EQ(flat.carbide_volume, 0.0);
}

TEST(WearFlat, ReachesTheCarbideOnceTheTableIsCutThrough) {
  const double rake = 0.2618, bond = t * std::tan(rake);
  EXPECT_EQ(wear_flat(a, l, t, rake, 0.999 * bond).carbide_area, 0.0);
  EXPECT_GT(wear_flat(a, l, t, rake, 1.001 * bond).carbide_area, 0.0);
}

TEST(WearFlat, IsContinuousWhereTheTableIsCutThrough) {
  const double rake = 0.2618, bond = t * std::tan(rake), step = 1e-12 * bond;
  const WearFlat before = wear_flat(a, l, t, rake, bond - step),
                 after = wear_flat(a, l, t, rake, bond + step);
  // Relative slope of area and volume in u is a few over u, so 2e-12 of a step moves them by some 1e-11 at
  // most.
  EXPECT_NEAR(after.diamond_area / before.diamond_area, 1.0, 1e-11);
  EXPECT_NEAR(after.diamond_volume / before.diamond_volume, 1.0, 1e-11);
  EXPECT_LT(after.carbide_area, 1e-10 * after.diamond_area);
}

TEST(WearFlat, VolumesNeverFallAsWearGrows) {
  for (const double rake : {0.0, 0.1, 0.35, 1.2}) {
    WearFlat last;
    for (int i = 0; i <= 4000; ++i) {
      const WearFlat flat = wear_flat(a, l, t, rake, i * 2.0 * a / 4000.0);
      ASSERT_GE(flat.diamond_volume, last.diamond_volume) << rake << " " << i;
      ASSERT_GE(flat.carbide_volume, last.carbide_volume) << rake << " " << i;
      last = flat;
    }
  }
}

TEST(WearFlat, TableOfNoThicknessIsAllCarbide) {
  const WearFlat flat = wear_flat(a, l, 0.0, 0.26, 1e-3), all_diamond = wear_flat(a, l, l, 0.26, 1e-3);
  EXPECT_EQ(flat.diamond_area, 0.0);
  EXPECT_NEAR(flat.carbide_area / all_diamond.diamond_area, 1.0, 1e-14);
  EXPECT_EQ(all_diamond.carbide_area, 0.0);
}

TEST(WearFlat, RefusesWhatHasNoMeaning) {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  EXPECT_EQ(testing::refusal([] { return wear_flat(a, l, t, 0.2, -1e-9); }),
            "wear_flat: the worn height must be between 0 and the diameter (got -1e-09)");
  EXPECT_NE(testing::refusal([] { return wear_flat(a, l, t, 0.2, 2.001 * a); }), "");
  EXPECT_NE(testing::refusal([&] { return wear_flat(a, l, t, 0.2, nan); }), "");
  EXPECT_NE(testing::refusal([] { return wear_flat(a, l, t, -0.01, 1e-3); }), "");
  EXPECT_NE(testing::refusal([] { return wear_flat(a, l, t, pi / 2.0, 1e-3); }), "");
  EXPECT_NE(testing::refusal([&] { return wear_flat(a, l, t, nan, 1e-3); }), "");
  EXPECT_NE(testing::refusal([] { return wear_flat(0.0, l, t, 0.2, 0.0); }), "");
  EXPECT_NE(testing::refusal([] { return wear_flat(a, t, l, 0.2, 1e-3); }), "");
  EXPECT_NE(testing::refusal([] { return wear_flat(a, l, -t, 0.2, 1e-3); }), "");
  EXPECT_NE(testing::refusal([] { return segment_area(a, 2.1 * a); }).find("segment_area"),
            std::string::npos);
  EXPECT_NE(testing::refusal([&] { return segment_area_integral(a, nan); }), "");
}

}  // namespace
}  // namespace dullcast::geometry
