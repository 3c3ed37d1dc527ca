#include <gtest/gtest.h>

#include "models/condition/cost.hpp"

// Bit-selection example of Bourgoyne, Millheim, Chenevert & Young, Applied Drilling Engineering, SPE, 1986,
// chapter 1 (drilling cost per foot) [hb]: rig 400 $/h, trip 7 h. Tolerance: the printed cent.
namespace dullcast::published {
namespace {

struct Bit {
  double cost, rotating_hours, connection_hours, feet_per_hour, dollars_per_foot;
};

TEST(CostPerFoot, ReproducesTheThreeBitsOfAppliedDrillingEngineering) {
  for (const Bit& bit : {Bit{800.0, 14.8, 0.1, 13.8, 46.81}, Bit{4900.0, 57.7, 0.4, 12.6, 42.56},
                         Bit{4500.0, 95.8, 0.5, 10.2, 46.89}}) {
    const double feet = bit.feet_per_hour * bit.rotating_hours;
    EXPECT_NEAR(
        condition::cost_per_length(bit.cost, 400.0, bit.rotating_hours, bit.connection_hours, 7.0, feet),
        bit.dollars_per_foot, 0.005);
  }
}

TEST(CostPerFoot, IsTheSameInSecondsAndMetres) {
  const double foot = 0.3048, hour = 3600.0;  // exact, ISO 80000-3
  const double feet = 12.6 * 57.7;
  EXPECT_NEAR(
      condition::cost_per_length(4900.0, 400.0 / hour, 57.7 * hour, 0.4 * hour, 7.0 * hour, feet * foot) *
          foot,
      42.56, 0.005);
}

}  // namespace
}  // namespace dullcast::published
