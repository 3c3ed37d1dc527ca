#include <gtest/gtest.h>

#include <cmath>

#include "models/thermal/convection.hpp"
#include "support/numbers.hpp"
#include "support/refusal.hpp"

namespace dullcast::thermal {
namespace {

using testing::nan;
const materials::Fluid water{998.0, 1.0e-3, 0.6, 4180.0};

TEST(ChurchillBernstein, ApproachesItsOwnLimitInStillFluid) {
  EXPECT_EQ(churchill_bernstein(0.0, 7.0), 0.3);
  EXPECT_NEAR(churchill_bernstein(1e-8, 7.0), 0.3, 2e-4);
}

TEST(ChurchillBernstein, NeverFallsAsFlowGrows) {
  double last = 0.0;
  for (double reynolds = 1e-6; reynolds < 1e7; reynolds *= 1.3) {
    const double nusselt = churchill_bernstein(reynolds, 7.0);
    EXPECT_GT(nusselt, last);
    last = nusselt;
  }
}

TEST(ChurchillBernstein, RefusesWhatHasNoMeaning) {
  EXPECT_EQ(testing::refusal([] { return churchill_bernstein(-1.0, 7.0); }),
            "churchill_bernstein: the Reynolds number must be 0 or more (got -1)");
  EXPECT_NE(testing::refusal([] { return churchill_bernstein(1.0, 0.0); }), "");
  EXPECT_NE(testing::refusal([] { return churchill_bernstein(nan, 7.0); }), "");
  EXPECT_NE(testing::refusal([] { return churchill_bernstein(1.0, nan); }), "");
}

TEST(CutterConvection, IsTheNusseltNumberOnTheCuttersDiameter) {
  const double reynolds = 998.0 * 2.0 * 0.016 / 1.0e-3, prandtl = 1.0e-3 * 4180.0 / 0.6;
  EXPECT_NEAR(cutter_convection(water, 2.0, 0.016), churchill_bernstein(reynolds, prandtl) * 0.6 / 0.016,
              1e-9);
}

TEST(CutterConvection, RefusesWhatHasNoMeaning) {
  EXPECT_NE(testing::refusal([] { return cutter_convection(water, -1.0, 0.016); }), "");
  EXPECT_NE(testing::refusal([] { return cutter_convection(water, nan, 0.016); }), "");
  EXPECT_NE(testing::refusal([] { return cutter_convection(water, 1.0, 0.0); }), "");
  EXPECT_NE(testing::refusal([] { return cutter_convection(materials::Fluid{}, 1.0, 0.016); }), "");
}

TEST(SpeedPastCutter, AddsFlowAndRotationAtRightAngles) {
  // 3 m/s of flow and 4 m/s of rotation.
  EXPECT_NEAR(speed_past_cutter(3.0, 4.0 / (two_pi * 0.1), 0.1), 5.0, 1e-14);
}

}  // namespace
}  // namespace dullcast::thermal
