#include "models/thermal/bottom_water.hpp"

#include <gtest/gtest.h>

#include "models/thermal/pool.hpp"

namespace dullcast::thermal {
namespace {

BottomWaterLaw law() {
  return {0.05, 2.0, 8.0, 0.5, 0.6, 0.02, 0.09};
}

/// Half the water has boiled away under 20 m of standing water, which comes back cold; nothing is pumped.
BottomWater half_full() {
  BottomWater water;
  water.saturation = materials::saturated_water(3e5);
  water.temperature = 300.0;
  water.inlet_temperature = 288.0;
  water.share = 0.5;
  water.full_mass = 6.0;
  water.heat_capacity = 4186.0;
  water.full_capacity = 6.0 * 4186.0;
  water.boils = true;
  water.below_level = 20.0;
  return water;
}

// By hand: water falls back in fall_back_time where no steam hinders it, at the flooding rate where that is
// less; the two act in series. Packed cuttings take packed_pores_loss of the flooding rate.
TEST(BottomWater, FallsBackAsFastAsItsTimeAndTheSteamLetIt) {
  BottomWater water = half_full();
  const double freely = 0.5 / 8.0, flooding = flooding_steam_rate(water.saturation, 0.02, 0.09) / 6.0;
  const auto in_series = [&](double most) { return most * freely / (most + freely); };
  EXPECT_NEAR(bottom_water_rates(law(), water, 0.0).share, in_series(flooding), 1e-14);
  // Cold water mixes in: d T/dt = -(T - T_inlet) fall back/(share + dry share).
  EXPECT_NEAR(bottom_water_rates(law(), water, 0.0).temperature, -12.0 * in_series(flooding) / 0.55, 1e-12);
  water.packing = 1.0;
  EXPECT_NEAR(bottom_water_rates(law(), water, 0.0).share, in_series(0.4 * flooding), 1e-14);
  // At the level itself none comes.
  water.below_level = 0.0;
  EXPECT_EQ(bottom_water_rates(law(), water, 0.0).share, 0.0);
}

TEST(BottomWater, ThePumpFillsWhatIsMissing) {
  BottomWater water = half_full();
  water.boils = false;
  water.pumped = 3.0;
  EXPECT_NEAR(bottom_water_rates(law(), water, 0.0).share, 3.0 / 6.0 * 0.5, 1e-15);
  EXPECT_NEAR(bottom_water_rates(law(), water, 0.0).share_decay, 3.0 / 6.0, 1e-15);
}

}  // namespace
}  // namespace dullcast::thermal
