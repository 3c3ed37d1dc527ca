#include <gtest/gtest.h>

#include "models/common/constants.hpp"
#include "models/materials/saturated_water.hpp"

namespace dullcast::published {
namespace {

TEST(Saturation, ReproducesTheVerificationValuesOfIapwsIf97) {
  // IAPWS R7-97(2012), table 36 [pub]; tolerance half of the ninth figure printed.
  EXPECT_NEAR(materials::saturation_temperature(0.1e6), 372.755919, 5e-7);
  EXPECT_NEAR(materials::saturation_temperature(1e6), 453.035632, 5e-7);
  EXPECT_NEAR(materials::saturation_temperature(10e6), 584.149488, 5e-7);
}

TEST(Saturation, WaterBoilsAtItsNormalBoilingPoint) {
  // 99.974 C at one atmosphere, IAPWS-95 (NIST Chemistry WebBook) [pub, from memory]; IF97 may differ by some
  // mK.
  EXPECT_NEAR(materials::saturation_temperature(standard_atmosphere), celsius_zero + 99.974, 3e-3);
}

}  // namespace
}  // namespace dullcast::published
