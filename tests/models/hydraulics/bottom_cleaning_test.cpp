#include "models/hydraulics/bottom_cleaning.hpp"

#include <gtest/gtest.h>

#include "models/common/constants.hpp"

namespace dullcast::hydraulics {
namespace {

CleaningLaw small_bit() {
  CleaningLaw law;
  law.bit_diameter = 0.2;
  law.hole_area = 0.0314;
  law.blades = 4;
  law.packed_share = 0.3;
  law.slots.area = 0.35 * law.hole_area;
  law.slots.volume = law.slots.area * law.bit_diameter;
  law.slots.annulus_area = 0.8 * law.hole_area;
  law.slots.packed_fraction = 0.58;
  law.slots.discharge = 0.95;
  law.slots.pressure_limit = 1e99;
  return law;
}

// The pump is off and the bit drills on: what it pushes up fills the hole to the collar and no further.
TEST(BottomCleaning, APlugGrowsNoTallerThanTheHole) {
  const CleaningLaw law = small_bit();
  const materials::Fluid water{999.0, 1.1e-3, 0.6, 4190.0};
  Solids solids;
  const double depth = 1.0, progress = 20.0 / 3600.0, dt = 0.1;
  double height = 0.0;
  for (int k = 0; k < 200000; ++k) {
    const BottomFlow flow = bottom_flow(law, water, 0.0, 2600.0, solids, 0.0, 2e-3, 0.0);
    const SolidsRates rates = solids_rates(law, flow, solids, progress, depth);
    solids.fraction += dt * rates.rate.fraction;
    solids.plug += dt * rates.rate.plug;
    height = flow.plug.height;
    ASSERT_LE(height, depth);
  }
  EXPECT_GT(height, 0.9 * depth);
}

TEST(BottomCleaning, TheCollarIsNotFeltFromDeepBelow) {
  const CleaningLaw law = small_bit();
  const materials::Fluid water{999.0, 1.1e-3, 0.6, 4190.0};
  const Solids solids{0.57, 1.0};
  const BottomFlow flow = bottom_flow(law, water, 0.0, 2600.0, solids, 0.0, 2e-3, 0.0);
  EXPECT_EQ(solids_rates(law, flow, solids, 1e-3, 10.0).rate.plug,
            solids_rates(law, flow, solids, 1e-3, 1e4).rate.plug);
}

// By hand: half a bit's diameter of hole is left above the plug, so half of what is pushed up falls out at
// the top.
TEST(BottomCleaning, NearTheCollarWhatIsPushedUpFallsOut) {
  const CleaningLaw law = small_bit();
  const materials::Fluid water{999.0, 1.1e-3, 0.6, 4190.0};
  const Solids solids{0.57, 1.0};
  const BottomFlow flow = bottom_flow(law, water, 2e-3, 2600.0, solids, 0.1, 2e-3, 0.0);
  const auto pushed = [&](double hole) {
    return solids_rates(law, flow, solids, 1e-3, hole).rate.plug + flow.plug.flushed;
  };
  const double all = flow.slot.overflow / 0.58;
  ASSERT_GT(all, 0.0);
  EXPECT_NEAR(pushed(flow.plug.height + 0.2), all, 1e-12 * all);
  EXPECT_NEAR(pushed(flow.plug.height + 0.1), 0.5 * all, 1e-9 * all);
  EXPECT_NEAR(pushed(flow.plug.height), 0.0, 1e-9 * all);
  EXPECT_EQ(flow.renewal, 2e-3 / law.slots.volume);
}

// Where slots and plug have settled nothing of them moves any more; without flow there is no such place.
TEST(BottomCleaning, SettledSolidsStandWhereTheirRatesAreNone) {
  const CleaningLaw law = small_bit();
  const materials::Fluid water{999.0, 1.1e-3, 0.6, 4190.0};
  const double d = 2e-3, turns = 1.5, depth = 100.0, Q = 4e-3, rising = Q / law.slots.annulus_area;
  const Solids settled = settled_solids(law, water, Q, 2600.0, {0.0, 0.1}, rising, d, turns, depth);
  EXPECT_GT(settled.fraction, 0.0);
  EXPECT_LT(settled.fraction, law.slots.packed_fraction);
  const BottomFlow flow = bottom_flow(law, water, Q, 2600.0, settled, rising, d, two_pi * turns);
  const SolidsRates rates = solids_rates(law, flow, settled, d * turns, depth);
  EXPECT_NEAR(rates.rate.fraction / rates.decay.fraction, 0.0, 1e-6);
  EXPECT_NEAR(rates.rate.plug / rates.decay.plug, 0.0, 1e-6);
  const Solids from{0.2, 0.1}, none = settled_solids(law, water, 0.0, 2600.0, from, 0.0, d, turns, depth);
  EXPECT_EQ(none.fraction, from.fraction);
  EXPECT_EQ(none.plug, from.plug);
}

// Two cutters by hand: a quarter of the cutting speed, sin 30 deg at 20 and at 60 mm, one of them looking
// inward.
TEST(ThrowingRadius, IsTheMeanOutwardSpeedOfChipsOverTheBitsTurning) {
  const Eigen::Array2d radius(20e-3, 60e-3);
  EXPECT_NEAR(throwing_radius(radius, Eigen::Array2d(pi / 6.0, pi / 6.0), 0.25),
              0.25 * 0.5 * (20.0 * 20.0 + 60.0 * 60.0) / 80.0 * 1e-3, 1e-15);
  EXPECT_NEAR(throwing_radius(radius, Eigen::Array2d(pi / 6.0, -pi / 6.0), 0.25),
              0.25 * 0.5 * (20.0 * 20.0 - 60.0 * 60.0) / 80.0 * 1e-3, 1e-15);
  EXPECT_EQ(throwing_radius(Eigen::ArrayXd(), Eigen::ArrayXd(), 0.25), 0.0);
}

}  // namespace
}  // namespace dullcast::hydraulics
