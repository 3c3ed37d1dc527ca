#include "engine/analysis/wear_flip.hpp"

#include <gtest/gtest.h>

#include "engine/analysis/priced_bit.hpp"

namespace dullcast::analysis {
namespace {

using testing::priced_bit;

const HoleDrawOptions two_draws{2, 2, 1e-2, {}};

/// Half the cutters worn as much again as the others.
scenario::Scenario found() {
  scenario::Scenario s = priced_bit();
  s.numbers.abrasion_coefficient = samples::exactly(1e-14);
  s.bit.starting_wear << 1e-3, 1e-3, 1e-3, 2e-3, 2e-3, 2e-3, 2e-3;
  return s;
}

TEST(WearFlip, OnOneSideOfItRunningAgainIsCheaperOnTheOtherItIsNot) {
  const WearFlip flip = wear_flip(found(), two_draws);
  ASSERT_EQ(flip.kind, WearFlip::Kind::flips);
  EXPECT_NEAR(flip.as_found.greatest, 2e-3, 1e-12);
  EXPECT_NEAR(flip.as_found.mean, (3 * 1e-3 + 4 * 2e-3) / 7.0, 1e-12);
  EXPECT_NEAR(flip.usable.greatest, 0.9 * 6e-3, 1e-12);
  EXPECT_NEAR(flip.at->greatest / flip.at->mean, flip.as_found.greatest / flip.as_found.mean, 1e-9);
  const double apart = flip.usable.greatest / 128.0;
  for (const double beside : {-1.0, 1.0}) {
    scenario::Scenario s = found();
    s.bit.starting_wear *= (flip.at->greatest + 1.01 * beside * apart) / 2e-3;
    const NextHole hole = next_hole(s, two_draws);
    EXPECT_EQ(*hole.cheapest == BitChoice::run_again, beside < 0.0) << flip.at->greatest;
  }
  EXPECT_LT(flip.clear_below->greatest, flip.at->greatest);
  EXPECT_GT(flip.clear_above->greatest, flip.at->greatest);
}

TEST(WearFlip, NeverWhereNothingElseIsCheaper) {
  scenario::Scenario s = found();
  s.costs.rig_per_second = 1e-9;  // a dull bit that takes its time costs no more, and wears no new cutters
  const WearFlip flip = wear_flip(s, two_draws);
  EXPECT_EQ(flip.kind, WearFlip::Kind::never);
  EXPECT_FALSE(flip.at);
}

/// A hole that a bit with two cutters gone cannot drill fast: at any wear it is better repaired first.
TEST(WearFlip, FromTheStartWhereWearDoesNotDecide) {
  scenario::Scenario s = found();
  s.bit.starting_lost = Eigen::ArrayXi::Zero(7);
  s.bit.starting_lost(0) = s.bit.starting_lost(5) = 1;
  s.costs.rig_per_second = 10.0;
  const WearFlip flip = wear_flip(s, two_draws);
  EXPECT_EQ(flip.kind, WearFlip::Kind::from_the_start);
}

TEST(WearFlip, ABitWithoutWearIsTakenToWearEvenly) {
  scenario::Scenario s = found();
  s.bit.starting_wear.setZero();
  const WearFlip flip = wear_flip(s, two_draws);
  EXPECT_EQ(flip.as_found.greatest, 0.0);
  ASSERT_EQ(flip.kind, WearFlip::Kind::flips);
  EXPECT_NEAR(flip.at->greatest, flip.at->mean, 1e-12);
}

TEST(WearFlip, IsNotPricedWithoutPrices) {
  scenario::Scenario s = found();
  s.costs.rework = 0.0;
  EXPECT_EQ(wear_flip(s, two_draws).kind, WearFlip::Kind::not_priced);
}

}  // namespace
}  // namespace dullcast::analysis
