#include "models/hydraulics/settling.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

#include "models/hydraulics/bottom_cleaning.hpp"

namespace dullcast::hydraulics {
namespace {

const materials::Fluid water{999.0, 1.1e-3, 0.59, 4186.0};
constexpr double rock_density = 2600.0, grain = 0.5e-3;

CleaningLaw law() {
  CleaningLaw law;
  law.slots = {4e-3, 5e-4, 9e-3, 0.58, 0.0, 0.0, grain, std::numeric_limits<double>::infinity()};
  law.hole_area = 11.3e-3;
  law.bit_diameter = 0.12;
  law.blades = 3;
  law.packed_share = 0.3;
  law.suspending_transport = 0.5;
  law.burying_depth = 8e-3;
  return law;
}

Bed bed_at(double Q, double c) {
  const SlotFlow slot = slot_flow(law().slots, water, Q, c, 1.0);
  return bed_round_cutters(law(), water, rock_density, slot, c);
}

TEST(Settling, AllLiesOnTheBottomWhereGrainsSinkFasterThanTheWaterRises) {
  EXPECT_EQ(settled_share(0.0, 0.07, 0.5), 1.0);
  EXPECT_EQ(settled_share(0.07, 0.07, 0.5), 1.0);
}

// A transport ratio of 1/2 is a flow twice as fast as the grains sink.
TEST(Settling, NothingLiesThereFromTheTransportRatioThatSuspends) {
  EXPECT_EQ(settled_share(0.14, 0.07, 0.5), 0.0);
  EXPECT_EQ(settled_share(1.0, 0.07, 0.5), 0.0);
  EXPECT_NEAR(settled_share(0.07 / 0.75, 0.07, 0.5), 0.5, 1e-12);
}

TEST(Settling, FallsSmoothlyAsTheFlowGrows) {
  double last = 1.0;
  for (double v = 0.07; v < 0.15; v += 1e-4) {
    const double share = settled_share(v, 0.07, 0.5);
    EXPECT_LE(share, last);
    EXPECT_LT(last - share, 5e-3);
    last = share;
  }
}

TEST(Settling, ANaNComesBackAndWildValuesAreHeld) {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  EXPECT_TRUE(std::isnan(settled_share(nan, 0.07, 0.5)));
  EXPECT_TRUE(std::isnan(buried_share(nan, 8e-3)));
  EXPECT_TRUE(std::isnan(settled_depth(nan, 1.0, 0.58, 0.01)));
  EXPECT_EQ(settled_share(-1.0, -1.0, 0.5), 1.0);
  EXPECT_EQ(buried_share(1.0, 0.0), 1.0);
  EXPECT_EQ(settled_depth(-1.0, 1.0, 0.58, 0.01), 0.0);
}

// Volumes: rock of a hole z deeper lies z/packed_fraction deep over the hole's area.
TEST(Settling, TheBedIsAsDeepAsTheHoleGrewOverThePackedFraction) {
  const double z = 4e-3, area = 0.0314;
  EXPECT_NEAR(settled_depth(z * area, 1.0, 0.58, area), z / 0.58, 1e-15);
}

TEST(Settling, MillimetresOfHoleBuryTheCuttersWithoutFlow) {
  const CleaningLaw slots = law();
  const double after_5_mm = 5e-3 * slots.hole_area / slots.slots.volume;
  EXPECT_EQ(slot_flow(slots.slots, water, 0.0, after_5_mm, 1.0).packing, 0.0) << "slots are far from packed";
  EXPECT_EQ(bed_at(0.0, after_5_mm).buried, 1.0);
  EXPECT_LT(bed_at(0.0, 0.2 * after_5_mm).buried, 0.2);
}

TEST(Settling, UsualFlowLeavesTheCuttersBareUntilTheSlotsPack) {
  EXPECT_EQ(bed_at(3.8e-3, 0.05).buried, 0.0);
  EXPECT_EQ(bed_at(3.8e-3, 0.2).buried, 0.0);
  EXPECT_GT(bed_at(3.8e-3, 0.4).buried, 0.0);
  EXPECT_EQ(bed_at(3.8e-3, 0.4).buried, slot_flow(law().slots, water, 3.8e-3, 0.4, 1.0).packing);
}

TEST(Settling, ABuriedBitGrindsItsCuttingsAgain) {
  EXPECT_EQ(regrinding_efficiency(law(), 0.0, 0.0), 1.0);
  EXPECT_NEAR(regrinding_efficiency(law(), 1.0, 0.0), 0.3, 1e-15);
}

}  // namespace
}  // namespace dullcast::hydraulics
