#include "models/wear/body_wear.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "models/common/constants.hpp"
#include "models/geometry/outline.hpp"
#include "support/numbers.hpp"
#include "tools/samples/made_bits.hpp"

namespace dullcast::wear {
namespace {

using testing::infinity;
using testing::nan;

TEST(ErosionRate, GrowsWithSolidsAndThePowerTwoAndAHalfOfSpeed) {
  EXPECT_NEAR(erosion_rate(2e-8, 1.0, 0.03, 1.0), 6e-10, 1e-22);
  EXPECT_NEAR(erosion_rate(2e-8, 4.0, 0.03, 1.0) / erosion_rate(2e-8, 1.0, 0.03, 1.0), 32.0, 1e-12);
  EXPECT_NEAR(erosion_rate(2e-8, 1.0, 0.06, 1.0) / erosion_rate(2e-8, 1.0, 0.03, 1.0), 2.0, 1e-12);
  // Soft matrix at a quarter of the resistance erodes four times as fast.
  EXPECT_NEAR(erosion_rate(2e-8, 1.0, 0.03, 0.25), 2.4e-9, 1e-21);
}

TEST(ErosionRate, IsTotal) {
  EXPECT_EQ(erosion_rate(2e-8, -1.0, 0.03, 1.0), 0.0);
  EXPECT_EQ(erosion_rate(2e-8, 1.0, -0.03, 1.0), 0.0);
  EXPECT_EQ(erosion_rate(2e-8, 1.0, 5.0, 1.0), 2e-8);
  EXPECT_TRUE(std::isfinite(erosion_rate(2e-8, 1.0, 0.03, 0.0)));
  EXPECT_TRUE(std::isnan(erosion_rate(2e-8, nan, 0.03, 1.0)));
  EXPECT_TRUE(std::isnan(erosion_rate(2e-8, 1.0, nan, 1.0)));
}

TEST(RubbingWear, IsArchardsVolumeOverTheFace) {
  // A volume of coefficient times force times way, spread over the face.
  const double hours = 3.0 * 3600.0, way = 0.9 * hours, volume = 1e-15 * 1000.0 * way;
  EXPECT_NEAR(rubbing_wear_rate(1e-15, 1000.0, 2e-4, 0.9) * hours, volume / 2e-4, 1e-18);
  EXPECT_EQ(rubbing_wear_rate(1e-15, -1.0, 2e-4, 0.9), 0.0);
  EXPECT_EQ(rubbing_wear_rate(1e-15, 1000.0, 2e-4, -0.9), 0.0);
  EXPECT_TRUE(std::isfinite(rubbing_wear_rate(1e-15, 1000.0, 0.0, 0.9)));
  EXPECT_TRUE(std::isnan(rubbing_wear_rate(1e-15, nan, 2e-4, 0.9)));
}

TEST(PocketDepth, IsWhatTheExposureLeavesOfTheCutter) {
  samples::Draw draw(9);
  geometry::BitLayout bit = samples::random_bit(draw);
  bit.exposure.setConstant(0.5 * bit.shapes.front().radius);
  EXPECT_NEAR(pocket_depth(bit), 1.5 * bit.shapes.front().radius, 1e-15);
  bit.exposure.setConstant(2.0 * bit.shapes.front().radius);
  EXPECT_NEAR(pocket_depth(bit), 0.1 * bit.shapes.front().radius, 1e-15);
}

TEST(GrainSpeed, IsTheFluidsForFineGrainsAndLagsInAGas) {
  EXPECT_EQ(grain_speed(2.0, 1000.0, 2600.0, 0.0, 0.2), 2.0);
  EXPECT_NEAR(grain_speed(30.0, 1.2, 2600.0, 0.2 * 1.2 / 2600.0, 0.2), 15.0, 1e-12) << "as heavy as its path";
  EXPECT_LT(grain_speed(30.0, 1.2, 2600.0, 1e-3, 0.2), 0.1 * 30.0);
  EXPECT_GT(grain_speed(1.0, 1000.0, 2600.0, 1e-3, 0.2), 0.98);
}

TEST(PocketFit, FallsWithSeatAndArm) {
  EXPECT_EQ(pocket_fit(0.0, 0.0, 8e-3), 1.0);
  EXPECT_NEAR(pocket_fit(2e-3, 2e-3, 8e-3), 0.25, 1e-15);  // half the seat at half the arm
  EXPECT_EQ(pocket_fit(6e-3, 4e-3, 8e-3), 0.0);
  EXPECT_EQ(pocket_fit(-1.0, -1.0, 8e-3), 1.0);
  EXPECT_TRUE(std::isfinite(pocket_fit(1e-3, 0.0, 0.0)));
  EXPECT_TRUE(std::isnan(pocket_fit(nan, 0.0, 8e-3)));
  EXPECT_TRUE(std::isnan(pocket_fit(0.0, nan, 8e-3)));
  EXPECT_TRUE(std::isnan(pocket_fit(0.0, 0.0, nan)));
}

}  // namespace
}  // namespace dullcast::wear
