#include "models/condition/cost.hpp"

#include <gtest/gtest.h>

#include <limits>

#include "support/refusal.hpp"

namespace dullcast::condition {
namespace {

TEST(CostPerLength, AddsBitAndRigOverLength) {
  EXPECT_NEAR(cost_per_length(1000.0, 0.1, 3600.0, 600.0, 1800.0, 50.0), 32.0, 1e-13);
}

TEST(CostPerLength, FallsWithALongerRunOfTheSameTime) {
  EXPECT_LT(cost_per_length(1000.0, 0.1, 3600.0, 0.0, 0.0, 60.0),
            cost_per_length(1000.0, 0.1, 3600.0, 0.0, 0.0, 50.0));
}

TEST(CostPerLength, RefusesWhatHasNoMeaning) {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  EXPECT_EQ(testing::refusal([] { return cost_per_length(1.0, 1.0, 1.0, 1.0, 1.0, 0.0); }),
            "cost_per_length: the length drilled must be above 0 (got 0)");
  for (const double bad : {-1.0, nan}) {
    EXPECT_NE(testing::refusal([&] { return cost_per_length(bad, 1.0, 1.0, 1.0, 1.0, 1.0); }), "");
    EXPECT_NE(testing::refusal([&] { return cost_per_length(1.0, bad, 1.0, 1.0, 1.0, 1.0); }), "");
    EXPECT_NE(testing::refusal([&] { return cost_per_length(1.0, 1.0, bad, 1.0, 1.0, 1.0); }), "");
    EXPECT_NE(testing::refusal([&] { return cost_per_length(1.0, 1.0, 1.0, bad, 1.0, 1.0); }), "");
    EXPECT_NE(testing::refusal([&] { return cost_per_length(1.0, 1.0, 1.0, 1.0, bad, 1.0); }), "");
    EXPECT_NE(testing::refusal([&] { return cost_per_length(1.0, 1.0, 1.0, 1.0, 1.0, bad); }), "");
  }
}

TEST(FuelVolume, IsEnergyOverWhatALitreDelivers) {
  // 36 MJ/L at one third: 12 MJ of work from a litre.
  EXPECT_NEAR(fuel_volume(24e6, 1.0 / 3.0, 36e9), 2e-3, 1e-17);
  EXPECT_EQ(fuel_volume(0.0, 1.0, 36e9), 0.0);
}

TEST(FuelVolume, RefusesAnEngineThatCannotBe) {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  for (const double efficiency : {0.0, -0.3, 1.01, nan})
    EXPECT_NE(testing::refusal([&] { return fuel_volume(1.0, efficiency, 36e9); }).find("efficiency"),
              std::string::npos);
  EXPECT_NE(testing::refusal([] { return fuel_volume(1.0, 0.3, 0.0); }), "");
  EXPECT_NE(testing::refusal([] { return fuel_volume(-1.0, 0.3, 36e9); }), "");
}

}  // namespace
}  // namespace dullcast::condition
