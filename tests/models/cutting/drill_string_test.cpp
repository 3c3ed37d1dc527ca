#include "models/cutting/drill_string.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

#include "support/refusal.hpp"

namespace dullcast::cutting {
namespace {

DrillString some_string() {
  DrillString string;
  string.pipe_weight = 200.0;
  string.collar_weight = 1000.0;
  string.collar_length = 20.0;
  string.steel_density = 8000.0;
  return string;
}

TEST(BuoyedStringWeight, HangsCollarsFirstThenPipe) {
  EXPECT_EQ(buoyed_string_weight(some_string(), 0.0, 0.0), 0.0);
  EXPECT_NEAR(buoyed_string_weight(some_string(), 10.0, 0.0), 10000.0, 1e-9);
  EXPECT_NEAR(buoyed_string_weight(some_string(), 20.0, 0.0), 20000.0, 1e-9);
  EXPECT_NEAR(buoyed_string_weight(some_string(), 120.0, 0.0), 40000.0, 1e-9);
}

TEST(BuoyedStringWeight, LosesTheShareOfItsDensityInFluid) {
  EXPECT_NEAR(buoyed_string_weight(some_string(), 120.0, 1000.0), 35000.0, 1e-9);
}

TEST(WeightOnBit, IsPullDownPlusStringLessHoldback) {
  EXPECT_EQ(weight_on_bit(1000.0, 500.0, 300.0), 1200.0);
  EXPECT_EQ(weight_on_bit(0.0, 500.0, 700.0), 0.0);
}

TEST(DepthWhereStringWeighs, IsTheInverseOfTheWeight) {
  for (const double depth : {0.0, 3.0, 20.0, 20.5, 400.0}) {
    const double limit = buoyed_string_weight(some_string(), depth, 1200.0);
    EXPECT_NEAR(depth_where_string_weighs(some_string(), limit, 1200.0), depth, 1e-12 * (1.0 + depth));
  }
}

TEST(DepthWhereStringWeighs, IsNeverReachedWithoutPipeWeight) {
  DrillString string = some_string();
  string.pipe_weight = 0.0;
  EXPECT_TRUE(std::isinf(depth_where_string_weighs(string, 20001.0, 0.0)));
  EXPECT_NEAR(depth_where_string_weighs(string, 20000.0, 0.0), 20.0, 1e-12);
  EXPECT_TRUE(std::isinf(depth_where_string_weighs(DrillString{}, 1.0, 0.0)));
}

TEST(DrillString, RefusesWhatHasNoMeaning) {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  EXPECT_NE(testing::refusal([] { return buoyed_string_weight(some_string(), -1.0, 0.0); }), "");
  EXPECT_NE(testing::refusal([] { return buoyed_string_weight(some_string(), 1.0, 8000.0); }), "");
  EXPECT_NE(testing::refusal([&] { return buoyed_string_weight(some_string(), nan, 0.0); }), "");
  EXPECT_NE(testing::refusal([&] { return buoyed_string_weight(some_string(), 1.0, nan); }), "");
  EXPECT_NE(testing::refusal([&] { return weight_on_bit(nan, 0.0, 0.0); }), "");
  EXPECT_NE(testing::refusal([&] { return depth_where_string_weighs(some_string(), nan, 0.0); }), "");
  DrillString string = some_string();
  string.collar_weight = -1.0;
  EXPECT_NE(testing::refusal([&] { return buoyed_string_weight(string, 1.0, 0.0); }), "");
}

}  // namespace
}  // namespace dullcast::cutting
