#include "engine/analysis/uncertainty_ranking.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <set>

#include "engine/scenario/number_fields.hpp"
#include "support/short_scenario.hpp"

namespace dullcast::analysis {
namespace {

/// A short hole in one rock with two uncertain numbers; everything else exactly known.
scenario::Scenario two_uncertain_numbers() {
  scenario::Scenario s = testing::short_scenario();
  testing::give_one_layer(s, 2.0, samples::invented_rock("sandstone", 60e6, 3.0));
  s.repeat.holes = 80;
  s.repeat.connection_time = 0.0;
  s.rules.worn_height = 0.03e-3;
  scenario::Quantity& coefficient = s.numbers.abrasion_coefficient;
  coefficient.low = 0.5 * coefficient.central;
  coefficient.high = 2.0 * coefficient.central;
  scenario::Quantity& resistance = s.bit.kinds.front().grade.wear_resistance;
  resistance.low = resistance.central / 1.1;
  resistance.high = resistance.central * 1.1;
  return s;
}

const RankedNumber* ranked_number(const UncertaintyRanking& ranking, const std::string& part) {
  for (const RankedNumber& number : ranking.numbers)
    if (number.name.find(part) != std::string::npos) return &number;
  return nullptr;
}

TEST(UncertaintyRanking, SharesAreSquaresOfSpreadsOverTheirSum) {
  // ln(life) = 0.3 a - 0.4 b + 0 c with independent a, b, c: 9/25, 16/25 and nothing, in closed form.
  std::vector<RankedNumber> numbers(3);
  numbers[0].spread = 0.3;
  numbers[1].spread = -0.4;
  numbers[2].spread = 0.0;
  share_out(numbers);
  EXPECT_NEAR(numbers[0].share, 0.64, 1e-15);
  EXPECT_NEAR(numbers[1].share, 0.36, 1e-15);
  EXPECT_EQ(numbers[2].share, 0.0);
  EXPECT_EQ(numbers[0].spread, -0.4);
}

TEST(UncertaintyRanking, WithNothingUncertainThereIsNothingToShare) {
  std::vector<RankedNumber> numbers(2);
  share_out(numbers);
  EXPECT_EQ(numbers[0].share + numbers[1].share, 0.0);
}

TEST(UncertaintyRanking, EveryNumberWithASpreadIsVisited) {
  scenario::Scenario s = two_uncertain_numbers();
  std::set<std::string> spread;
  scenario::for_each_number(s, [&](const std::string& name, scenario::Quantity& quantity) {
    if (quantity.low < quantity.high) spread.insert(name);
    EXPECT_NE(scenario::dimension_of_number(name), nullptr) << name;
  });
  UncertaintyOptions options;
  options.whole_lives = 0;
  const UncertaintyRanking ranking = rank_uncertainties(s, options);
  std::set<std::string> visited;
  for (const RankedNumber& number : ranking.numbers) visited.insert(number.name);
  EXPECT_EQ(visited, spread);
  EXPECT_EQ(visited.size(), 2U);
}

// Below the temperature from which diamond wears faster, wear goes with the abrasion coefficient over the
// wear resistance: a life in hours goes inversely (Archard's law), but for what a sharper or duller bit
// drills.
TEST(UncertaintyRanking, MoreAbrasionShortensLifeInProportion) {
  const scenario::Scenario s = two_uncertain_numbers();
  UncertaintyOptions options;
  options.threads = 2;
  const UncertaintyRanking ranking = rank_uncertainties(s, options);
  const RankedNumber* abrasion = ranked_number(ranking, "abrasion_coefficient");
  const RankedNumber* resistance = ranked_number(ranking, "wear_resistance");
  ASSERT_TRUE(abrasion != nullptr && resistance != nullptr);
  ASSERT_TRUE(abrasion->lived && abrasion->low.due && abrasion->high.due && ranking.central.due);
  EXPECT_EQ(ranking.rule, "worn_height");
  EXPECT_GT(abrasion->low.rotating_time, ranking.central.rotating_time);
  EXPECT_LT(abrasion->high.rotating_time, ranking.central.rotating_time);
  // Wear is the integral of the coefficient over one and the same course of dulling, so lives are exact
  // inverses; what is left is the stepping's tolerance of 1e-2 over them.
  EXPECT_NEAR(abrasion->low.rotating_time / ranking.central.rotating_time, 2.0, 0.02);
  EXPECT_NEAR(abrasion->high.rotating_time / ranking.central.rotating_time, 0.5, 0.005);
  EXPECT_NEAR(abrasion->spread, -std::log(2.0), 0.01);
  EXPECT_NEAR(resistance->spread, std::log(1.1), 0.005);
  EXPECT_EQ(ranking.numbers.front().name, abrasion->name);
  const double expected =
      std::pow(std::log(2.0), 2) / (std::pow(std::log(2.0), 2) + std::pow(std::log(1.1), 2));
  EXPECT_NEAR(abrasion->share, expected, 0.003);
}

TEST(UncertaintyRanking, SameForAnyNumberOfThreads) {
  const scenario::Scenario s = two_uncertain_numbers();
  UncertaintyOptions one, two;
  two.threads = 2;
  const UncertaintyRanking a = rank_uncertainties(s, one), b = rank_uncertainties(s, two);
  ASSERT_EQ(a.numbers.size(), b.numbers.size());
  for (std::size_t k = 0; k < a.numbers.size(); ++k) {
    EXPECT_EQ(a.numbers[k].name, b.numbers[k].name);
    EXPECT_EQ(a.numbers[k].spread, b.numbers[k].spread);
    EXPECT_EQ(a.numbers[k].low.rotating_time, b.numbers[k].low.rotating_time);
  }
}

TEST(UncertaintyRanking, ALifeThatDoesNotEndIsSaidToBeHeldBack) {
  scenario::Scenario s = two_uncertain_numbers();
  s.repeat.holes = 1;
  s.rules.worn_height = 5e-3;
  const UncertaintyRanking ranking = rank_uncertainties(s, {});
  EXPECT_FALSE(ranking.central.due);
  for (const RankedNumber& number : ranking.numbers) EXPECT_TRUE(number.held_back) << number.name;
}

/// Hours drilled are no life: a rock that is slower to drill would pass for one that spares the bit.
TEST(UncertaintyRanking, WithoutALifeNumbersAreRankedByTheWearOfAHole) {
  scenario::Scenario s = two_uncertain_numbers();
  s.repeat.holes = 1;
  s.rules.worn_height = 5e-3;
  scenario::Quantity& strength = s.column.layers[0].rock.unconfined_strength;
  strength.low = 0.8 * strength.central;  // moves the hours far more than the coefficient, which moves none
  strength.high = 1.25 * strength.central;
  const UncertaintyRanking ranking = rank_uncertainties(s, {});
  ASSERT_FALSE(ranking.central.due);
  EXPECT_EQ(ranking.by, RankedBy::wear_of_hole);
  EXPECT_EQ(ranking.numbers.front().name, "abrasion_coefficient");
  // Wear goes with the coefficient (Archard): half to double is ln 2 either way, within the runs' tolerance.
  EXPECT_NEAR(ranking.numbers.front().spread, -std::log(2.0), 0.01);
  for (const RankedNumber& number : ranking.numbers) EXPECT_EQ(number.spread, -number.slope) << number.name;
  EXPECT_EQ(ranking.slopes_missed, 0.0);
  // With lives that end the same numbers are ranked by them.
  s.repeat.holes = 80;
  s.rules.worn_height = 0.03e-3;
  EXPECT_EQ(rank_uncertainties(s, {}).by, RankedBy::life);
}

/// One end that outlives the run bounds the spread from below; the wear of a hole may tell more.
TEST(UncertaintyRanking, AnEndThatOutlivesTheRunCountsAtLeastAsMuchAsTheWearOfAHole) {
  scenario::Scenario s = two_uncertain_numbers();
  const UncertaintyRanking whole = rank_uncertainties(s, {});
  ASSERT_TRUE(whole.central.due && whole.numbers.front().low.due);
  // Holes enough for the central life, too few for the one at the low coefficient, which is twice as long.
  s.repeat.holes = whole.central.hole / 2 + 2;
  const UncertaintyRanking cut = rank_uncertainties(s, {});
  ASSERT_TRUE(cut.central.due);
  const RankedNumber* abrasion = ranked_number(cut, "abrasion_coefficient");
  ASSERT_NE(abrasion, nullptr);
  ASSERT_TRUE(abrasion->held_back && !abrasion->low.due && abrasion->high.due);
  EXPECT_EQ(abrasion->spread, -abrasion->slope) << "the hours say 0.5 ln 2 only, the slope ln 2";
  EXPECT_NEAR(abrasion->spread, whole.numbers.front().spread, 0.02);
}

}  // namespace
}  // namespace dullcast::analysis
