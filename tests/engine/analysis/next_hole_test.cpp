#include "engine/analysis/next_hole.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "engine/analysis/priced_bit.hpp"

namespace dullcast::analysis {
namespace {

using testing::priced_bit;

constexpr auto again = static_cast<std::size_t>(BitChoice::run_again),
               rework = static_cast<std::size_t>(BitChoice::rework_first),
               fresh = static_cast<std::size_t>(BitChoice::new_bit);

DrawnHole drawn(bool finished, double rig, double fetched, double after, double worn) {
  DrawnHole hole;
  hole.finished = finished;
  hole.fetched = finished ? 0 : 1;
  hole.cost.rig = rig;
  hole.cost.fetched = fetched;
  hole.cost.after = after;
  hole.cost.worn = worn;
  return hole;
}

/// Two cutters due (100 + 2 x 38 = 176), five half used (5 x 19 = 95): the bit bills 271 as it is.
scenario::Scenario found() {
  scenario::Scenario s = priced_bit();
  s.bit.starting_wear << 1.5e-3, 1.5e-3, 0.5e-3, 0.5e-3, 0.5e-3, 0.5e-3, 0.5e-3;
  return s;
}

/// Two draws, worked by hand. In the second the bit that runs again does not finish, comes out as scrap and a
/// new one is fetched.
ChoiceDraws by_hand() {
  ChoiceDraws draws;
  draws[again] = {drawn(true, 400, 0, 214, 60), drawn(false, 700, 30, 1900, 0)};
  draws[rework] = {drawn(true, 380, 0, 0, 190), drawn(true, 420, 0, 138, 100)};
  draws[fresh] = {drawn(true, 360, 0, 0, 70), drawn(true, 400, 0, 0, 90)};
  return draws;
}

TEST(NextHole, EveryLineIsAsWorkedByHand) {
  const NextHole hole = compare_choices(found(), by_hand());
  EXPECT_NEAR(hole.now.total(), 271.0, 1e-9);
  EXPECT_EQ(hole.draws, 2);
  // Again: 400 + 214 + 60 - 271 = 403 and 700 + 30 + 1900 - 271 = 2359; rework pays 176 first: 475 and 563;
  // a new bit 1900: 2059 and 2119.
  const ChoiceOutlook &one = *hole.of(BitChoice::run_again), &two = *hole.of(BitChoice::rework_first),
                      &three = *hole.of(BitChoice::new_bit);
  EXPECT_NEAR(one.cost.mean, (403.0 + 2359.0) / 2.0, 1e-9);
  EXPECT_NEAR(two.cost.mean, (475.0 + 563.0) / 2.0, 1e-9);
  EXPECT_NEAR(three.cost.mean, (2059.0 + 2119.0) / 2.0, 1e-9);
  EXPECT_NEAR(one.cost.low, 403.0, 1e-9);
  EXPECT_NEAR(one.cost.high, 2359.0, 1e-9);
  EXPECT_NEAR(one.mean.rig, 550.0, 1e-9);
  EXPECT_NEAR(one.mean.fetched, 15.0, 1e-9);
  EXPECT_NEAR(one.mean.after, 1057.0, 1e-9);
  EXPECT_NEAR(one.mean.worn, 30.0, 1e-9);
  EXPECT_NEAR(two.mean.before, 176.0, 1e-9);
  EXPECT_NEAR(three.mean.before, 1900.0, 1e-9);
  for (const auto& choice : hole.choices) {
    EXPECT_NEAR(choice->mean.already, 271.0, 1e-9);
    EXPECT_NEAR(choice->mean.total(), choice->cost.mean, 1e-9);
  }
  EXPECT_EQ(one.probability, 0.5);
  EXPECT_EQ(two.probability, 1.0);
  // The standard error of two values is half their difference.
  EXPECT_NEAR(two.cost.error, 44.0, 1e-9);
}

/// The draws are compared pair by pair: the runner-up is dearer by -72 in one and by 1796 in the other.
TEST(NextHole, DifferencesAreThoseOfTheSameDraw) {
  NextHole hole = compare_choices(found(), by_hand());
  EXPECT_EQ(*hole.cheapest, BitChoice::rework_first);
  EXPECT_EQ(*hole.runner_up, BitChoice::run_again);
  EXPECT_NEAR(hole.of(BitChoice::run_again)->more, (1796.0 - 72.0) / 2.0, 1e-9);
  EXPECT_NEAR(hole.of(BitChoice::run_again)->more_error, (1796.0 + 72.0) / 2.0, 1e-9);
  EXPECT_TRUE(hole.too_near_to_call());
  ChoiceDraws draws = by_hand();
  // Dearer by about as much in either draw: no doubt, however unlike the draws are.
  draws[again]->at(1) = drawn(true, 1388, 0, 214, 60);
  draws[rework]->at(1) = drawn(true, 1368, 0, 0, 190);
  hole = compare_choices(found(), draws);
  EXPECT_EQ(*hole.cheapest, BitChoice::run_again);
  EXPECT_NEAR(hole.of(BitChoice::rework_first)->more, 72.0, 1e-9);
  EXPECT_NEAR(hole.of(BitChoice::rework_first)->more_error, 0.0, 1e-9);
  EXPECT_FALSE(hole.too_near_to_call());
}

TEST(NextHole, ADrawThatFailsIsLeftOutOfAllAndOneWithoutEndOutOfTheCosts) {
  ChoiceDraws draws = by_hand();
  for (auto& choice : draws) {
    choice->push_back(drawn(true, 100, 0, 0, 0));
    choice->push_back(drawn(true, 100, 0, 0, 0));
  }
  draws[rework]->at(2).failure = std::make_exception_ptr(std::runtime_error("no balance"));
  draws[rework]->at(2).trouble = "no balance";
  draws[again]->at(3).finished = false;
  draws[again]->at(3).endless = true;
  const NextHole hole = compare_choices(found(), draws);
  EXPECT_EQ(hole.failed, 1);
  EXPECT_EQ(hole.first_failure, "no balance");
  EXPECT_EQ(hole.draws, 3);
  EXPECT_EQ(hole.endless, 1);
  EXPECT_NEAR(hole.of(BitChoice::run_again)->probability, 1.0 / 3.0, 1e-12);
  EXPECT_NEAR(hole.of(BitChoice::new_bit)->cost.mean, (2059.0 + 2119.0) / 2.0, 1e-9);
}

TEST(NextHole, WithoutPricesOnlyChancesAreTold) {
  scenario::Scenario s = found();
  s.costs.cutter = 0.0;
  const NextHole hole = compare_choices(s, by_hand());
  EXPECT_EQ(hole.unpriced, std::vector<std::string>{"cutter"});
  EXPECT_FALSE(hole.cheapest);
  EXPECT_EQ(hole.of(BitChoice::rework_first)->probability, 1.0);
}

TEST(NextHole, WhereEveryDrawFailsTheFirstOnesWordsAreTold) {
  ChoiceDraws draws = by_hand();
  for (DrawnHole& hole : *draws[again])
    hole.failure = std::make_exception_ptr(std::runtime_error("no balance"));
  EXPECT_THROW(compare_choices(found(), draws), std::runtime_error);
}

/// Drilled: a sound bit has nothing to rework and is not scrapped; one that goes past repair in the hole
/// finishes it once reworked, and scrap is not reworked.
TEST(NextHole, DrillsEachChoiceFromHowTheBitIs) {
  scenario::Scenario s = priced_bit();
  s.numbers.abrasion_coefficient = samples::exactly(3e-14);
  const HoleDrawOptions options{2, 1, 1e-2, {}};
  NextHole hole = next_hole(s, options);
  EXPECT_FALSE(hole.of(BitChoice::rework_first));
  EXPECT_EQ(*hole.cheapest, BitChoice::run_again);
  EXPECT_NEAR(hole.of(BitChoice::new_bit)->more, 1900.0, 1e-6);  // it would do the same
  EXPECT_FALSE(hole.too_near_to_call());

  s.bit.starting_wear.setConstant(4.9e-3);
  hole = next_hole(s, options);
  ASSERT_TRUE(hole.of(BitChoice::rework_first));
  EXPECT_EQ(hole.of(BitChoice::run_again)->finished, 0);
  EXPECT_EQ(hole.of(BitChoice::rework_first)->finished, 2);
  EXPECT_NEAR(hole.of(BitChoice::rework_first)->mean.before, 100.0 + 7 * 38.0, 1e-9);
  // All cutters new: as a new bit drills, for the price of the repair.
  EXPECT_NEAR(hole.of(BitChoice::new_bit)->cost.mean - hole.of(BitChoice::rework_first)->cost.mean,
              1900.0 - 366.0, 1e-6);

  s.costs.replacement = 400.0;
  EXPECT_FALSE(next_hole(s, options).of(BitChoice::rework_first));
  EXPECT_THROW(next_hole(s, {1, 1, 1e-2, {}}), std::invalid_argument);
}

}  // namespace
}  // namespace dullcast::analysis
