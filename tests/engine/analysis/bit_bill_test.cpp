#include "engine/analysis/bit_bill.hpp"

#include <gtest/gtest.h>

#include "engine/analysis/priced_bit.hpp"
#include "support/short_scenario.hpp"

namespace dullcast::analysis {
namespace {

using condition::RepairClass;
using testing::priced_bit;

TEST(BitBill, ANewBitBillsNothing) {
  const scenario::Scenario s = priced_bit();
  const BitBill bill = bit_bill(s, condition_at_start(s));
  EXPECT_EQ(bill.plan.kind, RepairClass::none);
  EXPECT_EQ(bill.total(), 0.0);
}

/// Seven cutters whose allowance is 2 mm, so that 1 mm is a whole life: 1.5 mm is due (100 to set up and 38),
/// five at 0.25 mm have used a quarter of 38 each, one whose table has borne half its heat half of it.
TEST(BitBill, WhatIsDueAndWhatIsWornInPart) {
  scenario::Scenario s = priced_bit();
  s.bit.starting_wear << 1.5e-3, 0.25e-3, 0.25e-3, 0.25e-3, 0.25e-3, 0.25e-3, 0.25e-3;
  s.bit.starting_damage(6) = 0.5;
  const BitBill bill = bit_bill(s, condition_at_start(s));
  EXPECT_EQ(bill.plan.cutters, 1);
  EXPECT_NEAR(bill.plan.cost, 138.0, 1e-9);
  EXPECT_NEAR(bill.worn_in_part, 5 * 0.25 * 38.0 + 0.5 * 38.0, 1e-9);
  EXPECT_NEAR(bill.total(), 138.0 + 66.5, 1e-9);
}

/// But for the setting up, the bill goes on evenly as a cutter passes the limit at 1 mm.
TEST(BitBill, DoesNotLeapWhereACutterFallsDue) {
  scenario::Scenario s = priced_bit();
  s.bit.starting_wear(2) = 0.999e-3;
  const double before = bit_bill(s, condition_at_start(s)).total();
  s.bit.starting_wear(2) = 1.001e-3;
  const double after = bit_bill(s, condition_at_start(s)).total();
  EXPECT_NEAR(after - before, 100.0 + 38.0 * 0.001, 1e-9);
}

TEST(BitBill, PastRepairItIsANewBitAndNothingElse) {
  const scenario::Scenario s = priced_bit();
  const BitBill bill = bit_bill(s, condition_at_start(s), true);
  EXPECT_EQ(bill.plan.kind, RepairClass::scrap);
  EXPECT_EQ(bill.total(), 1900.0);
}

TEST(Reworked, NewCuttersWhereThePlanSaysAndNoOthers) {
  scenario::Scenario s = priced_bit();
  s.bit.starting_wear << 1.5e-3, 0.25e-3, 0.3e-3, 0.25e-3, 0.25e-3, 0.25e-3, 0.25e-3;
  s.bit.starting_damage(0) = 0.4;
  s.bit.starting_lost = Eigen::ArrayXi::Zero(7);
  s.bit.starting_lost(2) = 1;
  const scenario::Scenario done = reworked(s, bit_bill(s, condition_at_start(s)).plan);
  EXPECT_EQ(done.bit.starting_wear(0), 0.0);
  EXPECT_EQ(done.bit.starting_damage(0), 0.0);
  EXPECT_EQ(done.bit.starting_wear(2), 0.0);
  EXPECT_EQ(done.bit.starting_lost(2), 0);
  EXPECT_EQ(done.bit.starting_wear(1), 0.25e-3);
  EXPECT_EQ(bit_bill(done, condition_at_start(done)).plan.kind, RepairClass::none);
}

TEST(Reworked, BladesAreBuiltUpWithTheirPocketsOnly) {
  scenario::Scenario s = priced_bit();
  s.costs.pocket = 1.0;
  s.bit.starting_wear(0) = 1.5e-3;
  s.bit.starting_erosion = 0.1e-3;
  EXPECT_EQ(reworked(s, bit_bill(s, condition_at_start(s)).plan).bit.starting_erosion, 0.1e-3);
  s.bit.starting_erosion = 3e-3;  // of pockets about half a cutter deep
  const BitBill bill = bit_bill(s, condition_at_start(s));
  ASSERT_EQ(bill.plan.kind, RepairClass::rebuild_pockets);
  EXPECT_EQ(reworked(s, bill.plan).bit.starting_erosion, 0.0);
}

TEST(Reworked, ScrapIsRefused) {
  const scenario::Scenario s = priced_bit();
  EXPECT_THROW(reworked(s, bit_bill(s, condition_at_start(s), true).plan), std::invalid_argument);
}

TEST(WithNewBit, NothingIsWornLostOrEroded) {
  scenario::Scenario s = priced_bit();
  s.bit.starting_wear.setConstant(1e-3);
  s.bit.starting_lost = Eigen::ArrayXi::Ones(7);
  s.bit.starting_erosion = 2e-3;
  s = with_new_bit(s);
  EXPECT_EQ(bit_bill(s, condition_at_start(s)).total(), 0.0);
  EXPECT_EQ(s.bit.starting_erosion, 0.0);
  EXPECT_EQ(s.bit.starting_lost.sum(), 0);
}

TEST(MissingPrices, AreNamed) {
  scenario::Costs costs = priced_bit().costs;
  EXPECT_TRUE(missing_prices(costs).empty());
  costs.rig_per_second = costs.replacement = 0.0;
  EXPECT_EQ(missing_prices(costs), (std::vector<std::string>{"rig", "bit"}));
}

}  // namespace
}  // namespace dullcast::analysis
