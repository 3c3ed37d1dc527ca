#include "engine/analysis/drawn_hole.hpp"

#include <gtest/gtest.h>

#include "engine/analysis/priced_bit.hpp"
#include "engine/simulation/run.hpp"

namespace dullcast::analysis {
namespace {

using testing::priced_bit;

const HoleDrawOptions two_draws{2, 1, 1e-2, {}};

simulation::RunOutcome run_once(scenario::Scenario s) {
  s.repeat.holes = 1;
  s.repeat.stop_at = scenario::StopAt::beyond_repair;
  return simulation::run(s);
}

/// Abrasion so fast that 5 m wear a bit by millimetres.
scenario::Scenario wearing() {
  scenario::Scenario s = priced_bit();
  s.numbers.abrasion_coefficient = samples::exactly(3e-14);
  return s;
}

TEST(DrawnHole, AFinishedHoleCostsRigTimeAndWhatTheBitThenBills) {
  const scenario::Scenario s = wearing();
  const simulation::RunOutcome run = run_once(s);
  ASSERT_EQ(run.ended_by, simulation::EndedBy::last_hole);
  const BitBill bill = bit_bill(s, run.end);
  ASSERT_GT(bill.total(), 0.0);
  for (const DrawnHole& drawn : drawn_holes(s, two_draws)) {
    ASSERT_FALSE(drawn.failure) << drawn.trouble;
    EXPECT_TRUE(drawn.finished);
    EXPECT_EQ(drawn.fetched, 0);
    EXPECT_NEAR(drawn.cost.rig, 0.01 * run.elapsed_time, 1e-9);
    EXPECT_NEAR(drawn.cost.after, bill.plan.cost, 1e-9);
    EXPECT_NEAR(drawn.cost.worn, bill.worn_in_part, 1e-9);
    EXPECT_EQ(drawn.cost.before, 0.0);
    EXPECT_EQ(drawn.cost.fetched, 0.0);
  }
}

/// The bit wears past repair on the way; a new one drills what is left of the hole. Both trips count.
TEST(DrawnHole, WhatIsLeftOfAHoleIsDrilledByANewBit) {
  scenario::Scenario s = wearing();
  s.bit.starting_wear.setConstant(4.9e-3);
  const simulation::RunOutcome run = run_once(s);
  ASSERT_EQ(run.ended_by, simulation::EndedBy::beyond_repair);
  ASSERT_GT(run.footage, 0.1);
  ASSERT_LT(run.footage, 4.9);
  const scenario::Scenario rest = rest_of_hole(with_new_bit(s), run.footage);
  const simulation::RunOutcome second = run_once(rest);
  ASSERT_EQ(second.ended_by, simulation::EndedBy::last_hole);
  EXPECT_NEAR(run.footage + second.footage, 5.0, 1e-9);
  const DrawnHole drawn = drawn_holes(s, two_draws).front();
  ASSERT_FALSE(drawn.failure) << drawn.trouble;
  EXPECT_FALSE(drawn.finished);
  EXPECT_FALSE(drawn.endless);
  EXPECT_EQ(drawn.fetched, 1);
  EXPECT_NEAR(drawn.cost.rig, 0.01 * (run.elapsed_time + second.elapsed_time), 1e-6);
  EXPECT_GT(drawn.cost.rig, 0.01 * 2.0 * s.repeat.trip_time);
  EXPECT_NEAR(drawn.cost.after, bit_bill(s, run.end).plan.cost, 1e-6);
  EXPECT_NEAR(drawn.cost.fetched, bit_bill(rest, second.end).total(), 1e-6);
}

TEST(DrawnHole, WhereNoBitGetsDownTheCostHasNoEnd) {
  scenario::Scenario s = priced_bit();
  s.rules.least_progress = 1.0;  // m/s: nothing drills as fast
  const DrawnHole drawn = drawn_holes(s, two_draws).front();
  ASSERT_FALSE(drawn.failure) << drawn.trouble;
  EXPECT_FALSE(drawn.finished);
  EXPECT_TRUE(drawn.endless);
  EXPECT_EQ(drawn.fetched, most_fetched);
}

/// A bit that gets slower than a quarter of a new one's pace in its slowest layer is taken out.
TEST(DrawnHole, NobodyWaitsForABitThatIsFarSlowerThanANewOne) {
  scenario::Scenario s = priced_bit();
  s.bit.starting_wear.setConstant(4e-3);
  const std::vector<DrawnHole> fresh = drawn_holes(with_new_bit(s), two_draws);
  HoleDrawOptions options = two_draws;
  options.least_progress = least_progress_beside(fresh);
  ASSERT_EQ(options.least_progress.size(), 2U);
  const simulation::RunOutcome new_run = run_once(with_new_bit(s)), run = run_once(s);
  const double pace =
      std::min(new_run.passages[0].mean_rate_of_penetration, new_run.passages[1].mean_rate_of_penetration);
  EXPECT_NEAR(options.least_progress[0], 0.25 * pace, 1e-9 * pace);
  ASSERT_LT(run.passages[0].mean_rate_of_penetration, 0.25 * pace);  // this wear is such a bit's
  EXPECT_TRUE(drawn_holes(s, two_draws).front().finished);
  EXPECT_FALSE(drawn_holes(s, options).front().finished);
  options.least_progress[0] *= 0.1;
  EXPECT_TRUE(drawn_holes(s, options).front().finished);
}

TEST(DrawnHole, TheSameOnAnyNumberOfThreads) {
  scenario::Scenario s = wearing();
  s.numbers.abrasion_coefficient = {1e-14, 3e-14, 9e-14, "asm", "invented for tests"};
  s.bit.starting_wear.setConstant(3e-3);
  HoleDrawOptions options{6, 1, 1e-2, {}};
  const std::vector<DrawnHole> one = drawn_holes(s, options);
  options.threads = 3;
  const std::vector<DrawnHole> three = drawn_holes(s, options);
  bool differ = false;
  for (std::size_t k = 0; k < one.size(); ++k) {
    EXPECT_EQ(one[k].cost.total(), three[k].cost.total());
    differ = differ || one[k].cost.rig != one[0].cost.rig;
  }
  EXPECT_TRUE(differ);  // draws are draws
}

TEST(RestOfHole, HoldsWhatLiesBelowUnderTheSamePlan) {
  scenario::Scenario s = priced_bit();
  s.plan.resize(2, s.plan[0]);
  s.plan[0].to = s.plan[1].from = 2.0;
  s.plan[1].weight_on_bit = 15e3;
  s.upsets.resize(2);
  s.upsets[0].from = 1.0;
  s.upsets[1].from = 4.0;
  const scenario::Scenario rest = rest_of_hole(s, 2.5);
  ASSERT_EQ(rest.column.layers.size(), 2U);
  EXPECT_EQ(rest.column.layers[0].top, 2.5);
  EXPECT_EQ(rest.column.layers[0].bottom, 3.0);
  ASSERT_EQ(rest.plan.size(), 1U);
  EXPECT_EQ(rest.plan[0].weight_on_bit, 15e3);
  EXPECT_EQ(rest.plan[0].from, 2.5);
  ASSERT_EQ(rest.upsets.size(), 1U);
  EXPECT_EQ(rest.upsets[0].from, 4.0);
  EXPECT_EQ(rest_of_hole(s, 3.0).column.layers.size(), 1U);
  EXPECT_THROW(rest_of_hole(s, 5.0), std::invalid_argument);
  EXPECT_THROW(rest_of_hole(s, -1.0), std::invalid_argument);
}

/// A bit that wears hardly at all takes as long over the rest as over the same metres of the whole hole, but
/// for the seconds in which heat settles.
TEST(RestOfHole, TakesAsLongAsItDoesOfTheWhole) {
  scenario::Scenario s = testing::even_hole(6.0);
  s.stepping.relative_tolerance = 1e-4;
  const double whole = run_once(s).rotating_time, rest = run_once(rest_of_hole(s, 2.0)).rotating_time;
  EXPECT_NEAR(rest / whole, 4.0 / 6.0, 0.005);
}

}  // namespace
}  // namespace dullcast::analysis
