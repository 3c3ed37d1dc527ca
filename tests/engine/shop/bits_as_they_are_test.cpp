#include <gtest/gtest.h>

#include "engine/input/latest_record.hpp"
#include "engine/input/shelf_reader.hpp"
#include "engine/learning/found_condition.hpp"
#include "engine/shop/plan_texts.hpp"
#include "engine/simulation/run.hpp"
#include "engine/storage/write_result.hpp"
#include "tools/commands/program.hpp"

// How a plan's bits are at its beginning, held against what else says it.
namespace dullcast::shop {
namespace {

using testing::plan_scenarios;
using testing::plan_text;
using testing::plan_with;
using testing::Scratch;

/// A short well whose sandstone is hard on cutters.
constexpr const char* short_well =
    "bit: {like: four_blade_7_7_8, grade: standard}\nfluid: water\nplan:\n"
    "  - {weight_on_bit: 6000 lbf, rotary_speed: 85 rpm, flow: 60 gal/min}\ncolumn:\n  layers:\n"
    "    - {rock: sandstone, thickness: 12 m}\nrework: {worn_height: 2 mm}\n"
    "costs: {rig: 85 $/h, bit: 1900 $, rework: 420 $, cutter: 38 $}\n";

/// The small plan beside a folder's own scenario and result, its one bit with more said of it.
ShopPlan plan_in(const Scratch& scratch, const std::string& more) {
  const std::string text = plan_with("design: four}\nholes", "design: four" + more + "}\nholes",
                                     plan_with("ordinary_well.yaml", "well.yaml"));
  std::vector<input::Warning> warnings;
  ShopPlan plan = read_shop_plan_text(text, (scratch / "plan.yaml").string(), plan_scenarios(), warnings);
  EXPECT_TRUE(warnings.empty()) << warnings.front().message();
  return plan;
}

TEST(BitsAsTheyAre, AfterAnEarlierResultWithWhatWasDoneSince) {
  const Scratch scratch;
  const std::string well = scratch.write("well.yaml", short_well);
  std::vector<input::Warning> warnings;
  const scenario::Scenario scenario = plan_scenarios().read(well, {}, warnings);
  const simulation::RunOutcome outcome = simulation::run(scenario);
  storage::write_result((scratch / "earlier.h5").string(), scenario, outcome);
  ASSERT_GT(outcome.end.worn_height.maxCoeff(), 0.0);

  const FleetBit left = plan_in(scratch, ", result: earlier.h5").bits.front();
  EXPECT_EQ(left.told_by, "result earlier.h5");
  EXPECT_TRUE((left.condition.worn_height == outcome.end.worn_height).all());
  EXPECT_TRUE((left.condition.heat_damage == outcome.end.heat_damage).all());
  EXPECT_EQ(left.condition.eroded, outcome.end.eroded);

  const FleetBit mended =
      plan_in(scratch, ", result: earlier.h5, rebuilt: {new_cutters: [17, 18]}").bits.front();
  EXPECT_EQ(mended.condition.worn_height(17), 0.0);
  EXPECT_EQ(mended.condition.worn_height(0), outcome.end.worn_height(0));
}

TEST(BitsAsTheyAre, AResultOfAnotherDesignIsRefused) {
  const Scratch scratch;
  const std::string well = scratch.write("well.yaml", short_well);
  std::vector<input::Warning> warnings;
  const scenario::Scenario other = plan_scenarios().read(well, {"bit.like=five_blade_8_1_2"}, warnings);
  storage::write_result((scratch / "earlier.h5").string(), other, simulation::run(other));
  const auto errors =
      testing::plan_errors(plan_with("design: four}\nholes", "design: four, result: earlier.h5}\nholes",
                                     plan_with("ordinary_well.yaml", "well.yaml")),
                           (scratch / "plan.yaml").string());
  ASSERT_EQ(errors.size(), 1u);
  EXPECT_EQ(errors[0].rfind("plan.yaml:18:38: bits.0.result: cannot be used: earlier.h5: ", 0), 0u)
      << errors[0];
}

TEST(BitsAsTheyAre, AsTheyWereFoundByTheLatestRecord) {
  const std::string file = std::string(DULLCAST_SOURCE_DIR) + "/scenarios/shelf_of_forty_bits.csv";
  std::vector<input::Warning> warnings;
  const auto shelf = input::read_shelf(file, plan_scenarios(), warnings);
  const simulation::BitCondition found =
      learning::found_condition(input::latest_record(shelf, "LM-102", file)).bit;
  const FleetBit bit =
      testing::plan_of(plan_with("{bit: K-1, design: four}",
                                 "{bit: K-1, design: four, shelf: shelf_of_forty_bits.csv, record: LM-102}"))
          .bits.front();
  EXPECT_EQ(bit.told_by, "inspected 2031-03-20, shelf_of_forty_bits.csv");
  EXPECT_TRUE((bit.condition.worn_height == found.worn_height).all());
  EXPECT_TRUE((bit.condition.chips == found.chips).all());
  EXPECT_GT(found.chips.sum(), 0);
}

TEST(BitsAsTheyAre, TheRecordOfABitsOwnNameIsTakenWhereNoneIsNamed) {
  const FleetBit bit =
      testing::plan_of(plan_with("{bit: K-1, design: four}",
                                 "{bit: LM-138, design: four, shelf: shelf_of_forty_bits.csv}"))
          .bits.front();
  EXPECT_EQ(bit.told_by, "inspected 2031-09-23, shelf_of_forty_bits.csv");
}

TEST(BitsAsTheyAre, WhatIsStatedIsAsInAScenario) {
  const std::string said =
      "starting_wear: 0.4 mm, starting_lost: [18], starting_chipped: [3], starting_erosion: 1 mm";
  const FleetBit bit =
      testing::plan_of(plan_with("{bit: K-1, design: four}", "{bit: K-1, design: four, " + said + "}"))
          .bits.front();
  EXPECT_EQ(bit.condition.lost.sum(), 1);
  EXPECT_EQ(bit.condition.lost(17), 1);
  EXPECT_EQ(bit.condition.chips(2), 1);
  EXPECT_NEAR(bit.condition.eroded, 1e-3, 1e-15);
  EXPECT_NEAR(bit.condition.worn_height.minCoeff(), 0.4e-3, 1e-15);
  EXPECT_GE(bit.condition.gauge_loss, 0.0);
}

TEST(BitsAsTheyAre, WhatTheShopsBitsTaughtCountsInEveryHoleThatSaysNothingOfItself) {
  const Scratch scratch;
  std::filesystem::create_directories(scratch / "wells");
  scratch.write("wells/well.yaml", short_well);
  scratch.write(
      "wells/other.yaml",
      std::string(short_well) +
          "learned:\n  inspected_bits: 3\n  models:\n    abrasion_coefficient: {low: 2e-17 m2/N, central: "
          "3e-17 m2/N, high: 4e-17 m2/N, mark: fit, source: three bits}\n");
  scratch.write(
      "taught.yaml",
      "inspected_bits: 12\nmodels:\n  abrasion_coefficient: {low: 4e-17 m2/N, central: 5e-17 m2/N, high: "
      "6e-17 m2/N, mark: fit, source: twelve bits}\n");
  std::string text =
      plan_with("ordinary_well.yaml", "wells/well.yaml") +
      "  - {hole: N-2, rig: Heron, begins: 2031-11-12, scenario: wells/other.yaml, design: four}\n";
  text += "learned: taught.yaml\n";
  std::vector<input::Warning> warnings;
  const ShopPlan plan =
      read_shop_plan_text(text, (scratch / "plan.yaml").string(), plan_scenarios(), warnings);
  ASSERT_EQ(plan.holes.size(), 2u);
  EXPECT_EQ(plan.holes[0].scenario.numbers.abrasion_coefficient.central, 5e-17);
  EXPECT_EQ(plan.holes[1].scenario.numbers.abrasion_coefficient.central, 3e-17);
  EXPECT_TRUE(std::any_of(plan.texts.begin(), plan.texts.end(),
                          [](const PlanText& one) { return one.file.ends_with("taught.yaml"); }));
  EXPECT_EQ(testing::plan_errors(plan_text() + std::string("learned: nowhere.yaml\n")).size(), 1u);
}

TEST(BitsAsTheyAre, OneThatNeedsReworkLiesInTheShop) {
  EXPECT_FALSE(testing::plan_of(plan_text()).bits[0].needs_rework);
  EXPECT_TRUE(
      testing::plan_of(plan_with("design: four}", "design: four, needs_rework: yes}")).bits[0].needs_rework);
  const auto errors =
      testing::plan_errors(plan_with("design: four}", "design: four, at: Heron, needs_rework: yes}"));
  ASSERT_EQ(errors.size(), 1u);
  EXPECT_NE(errors[0].find("bits.0.needs_rework: is said of a bit in the shop"), std::string::npos)
      << errors[0];
}

}  // namespace
}  // namespace dullcast::shop
