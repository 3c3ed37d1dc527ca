#include <gtest/gtest.h>

#include <algorithm>

#include "engine/shop/plan_texts.hpp"
#include "tools/commands/program.hpp"

namespace dullcast::shop {
namespace {

using testing::plan_errors;
using testing::plan_text;
using testing::plan_with;
using testing::Scratch;

struct Mistake {
  const char *from, *to;  // in the small plan
  const char* told;       // with its place; the message begins with it
};

class OnePlanMistake : public ::testing::TestWithParam<Mistake> {};

TEST_P(OnePlanMistake, IsNamedWithItsPlaceAndWhatWouldBeRight) {
  const Mistake& mistake = GetParam();
  const std::string text = plan_with(mistake.from, mistake.to);
  ASSERT_FALSE(text.empty()) << mistake.from;
  const auto errors = plan_errors(text);
  ASSERT_EQ(errors.size(), 1u) << mistake.to << (errors.empty() ? "" : "\n" + errors[1]);
  EXPECT_EQ(errors.front().rfind(mistake.told, 0), 0u) << errors.front();
}

INSTANTIATE_TEST_SUITE_P(
    Time, OnePlanMistake,
    ::testing::Values(
        Mistake{"America/Winnipeg", "America/Winipeg",
                "plan.yaml:2:12: time_zone: there is no time zone 'America/Winipeg'; the nearest is "
                "America/Winnipeg"},
        Mistake{"time_zone: America/Winnipeg\n", "\n",
                "plan.yaml:1:1: time_zone: is missing; write the shop's name"},
        Mistake{"to: 2031-11-30", "to: 2031-11-31",
                "plan.yaml:4:5: to: \"2031-11-31\" is no day; write year,"},
        Mistake{"to: 2031-11-30", "to: 2031-10-30",
                "plan.yaml:4:5: to: is before from:, the plan's first day"},
        Mistake{"to: 2031-11-30", "to: 2041-11-30",
                "plan.yaml:4:5: to: makes a plan of 3681 days; no plan has"},
        Mistake{"to: 2031-11-30", "to: 2031-11-30\nfutures: 1",
                "plan.yaml:5:10: futures: \"1\" is no whole number from 2 to 100000"},
        Mistake{"[monday to friday 07:00 to 15:30]", "[monday to fryday 07:00 to 15:30]",
                "plan.yaml:6:12: shop.shifts.0: \"monday to fryday 07:00 to 15:30\" is no shift; write "
                "monday to friday"},
        Mistake{"[monday to friday 07:00 to 15:30]", "[monday to friday 7:00 to 15:30]",
                "plan.yaml:6:12: shop.shifts.0: \"monday to friday 7:00 to 15:30\" is no shift"},
        Mistake{"[monday to friday 07:00 to 15:30]", "[{days: weekdays, from: \"07:00\", to: \"15:30\"}]",
                "plan.yaml:6:19: shop.shifts.0.days: \"weekdays\" names no days; write monday to friday"},
        Mistake{"[monday to friday 07:00 to 15:30]", "[{days: monday, from: \"24:00\", to: \"15:30\"}]",
                "plan.yaml:6:33: shop.shifts.0.from: \"24:00\" is no time of day; write hours and minutes"},
        Mistake{"[2031-11-11]", "[2031-11-11 to 2031-11-10]",
                "plan.yaml:7:14: shop.holidays.0: \"2031-11-11 to 2031-11-10\" ends before it begins; write"},
        Mistake{"[2031-11-11]", "[christmas]",
                "plan.yaml:7:14: shop.holidays.0: \"christmas\" is no day and no range of days; write "
                "2031-12-24"}));

INSTANTIATE_TEST_SUITE_P(
    Shop, OnePlanMistake,
    ::testing::Values(
        Mistake{"name: braze", "name: wash",
                "plan.yaml:10:14: shop.stations.1.name: \"wash\" stands on line 9 already"},
        Mistake{
            "time: 45 min", "time: 45",
            "plan.yaml:9:47: shop.stations.0.time: \"45\" has no unit, and a time is wanted; write 45 min"},
        Mistake{", time: 45 min", "",
                "plan.yaml:9:7: shop.stations.0.time: is missing; write time: 45 min, or {low"},
        Mistake{"time: 45 min", "time: {low: 50 min, central: 45 min, high: 90 min}",
                "plan.yaml:9:70: shop.stations.0.time.central: does not lie between low and high"},
        Mistake{"works_on: every bit, time", "works_on: every bit, benches: 0, time",
                "plan.yaml:9:50: shop.stations.0.benches: \"0\" is no whole number from 1 to 1000"},
        Mistake{"works_on: every bit", "works_on: every bits",
                "plan.yaml:9:30: shop.stations.0.works_on: is \"every bits\"; write every bit, cutters or "
                "pockets"},
        Mistake{"works_on: every bit, time", "works_on: every bit, time_a_piece: 1 min, time",
                "plan.yaml:9:55: shop.stations.0.time_a_piece: belongs to a station that works on cutters or "
                "pockets"},
        Mistake{"works_on: cutters, takes_cutters: yes, ", "works_on: pockets, ",
                "plan.yaml:9:5: shop.stations: has no station that works on cutters, so no bit could be "
                "repaired"},
        Mistake{"works_on: every bit,", "works_on: cutters, takes_cutters: yes,",
                "plan.yaml:10:55: shop.stations.1.takes_cutters: is yes at an earlier station already"},
        Mistake{"grade: standard, on_hand", "grade: standart, on_hand",
                "plan.yaml:12:45: shop.cutters.0.grade: there is no cutter grade \"standart\"; did you "
                "mean standard?"},
        Mistake{"on_hand: 40", "on_hand: 40, order: 30",
                "plan.yaml:12:7: shop.cutters.0.lead_time: is missing; write how long an order takes"},
        Mistake{"on_hand: 40", "on_hand: 40, reorder_at: 20",
                "plan.yaml:12:7: shop.cutters.0.order: is missing; write how many are ordered"},
        Mistake{"shop:\n", "changes: {more_shift: {name: saturday}}\nshop:\n",
                "plan.yaml:5:23: changes.more_shift.shifts: is missing; write the shifts"}));

INSTANTIATE_TEST_SUITE_P(
    Fleet, OnePlanMistake,
    ::testing::Values(
        Mistake{", travel: 2 h", "",
                "plan.yaml:14:5: rigs.0.travel: is missing; write how long a bit is on the road"},
        Mistake{"shifts: [every day 08:00 to 18:00], ", "",
                "plan.yaml:14:5: rigs.0.shifts: is missing; write monday"},
        Mistake{", lead_time: 30 d", "",
                "plan.yaml:16:5: designs.0.lead_time: is missing; write how long a new bit"},
        Mistake{"grade: standard}, lead", "grade: standart}, lead",
                "plan.yaml:16:55: bit.grade: there is no cutter grade \"standart\"; did you mean standard?"},
        Mistake{"grade: standard}, lead", "grade: standard, starting_wear: 1 mm}, lead",
                "plan.yaml:16:65: designs.0.bit.starting_wear: is of a bit that is not new; say so of single "
                "bits"},
        Mistake{"bit: K-1, design: four}", "bit: K-1, design: for}",
                "plan.yaml:18:24: bits.0.design: \"for\" is no design of the plan; did you mean four?"},
        Mistake{"bit: K-1, design: four}", "bit: K-1, design: four, at: Herron}",
                "plan.yaml:18:34: bits.0.at: \"Herron\" is no rig of the plan; did you mean Heron?"},
        Mistake{
            "bit: K-1, design: four}", "bit: K-1, design: four}\n  - {bit: K-1, design: four}",
            "plan.yaml:19:11: bits.1.bit: \"K-1\" stands on line 18 already; give each a name of its own"},
        Mistake{"bit: K-1, design: four}", "bit: K-1, design: four, starting_wear: 30 mm}",
                "plan.yaml:18:45: bit.starting_wear: cutter 1 is worn 30 mm, beyond its exposure"},
        Mistake{"bit: K-1, design: four}", "bit: K-1, design: four, record: K-1}",
                "plan.yaml:18:38: bits.0.record: belongs beside shelf:, the file that it stands in"},
        Mistake{"bit: K-1, design: four}", "bit: K-1, design: four, shelf: shelf_of_fourty_bits.csv}",
                "plan.yaml:18:37: bits.0.shelf: cannot be used: shelf_of_fourty_bits.csv: cannot be read; "},
        Mistake{"bit: K-1, design: four}", "bit: K-1, design: four, shelf: shelf_of_forty_bits.csv}",
                "plan.yaml:18:37: bits.0.shelf: cannot be used: shelf_of_forty_bits.csv: there is no bit "
                "\"K-1\" on "
                "this shelf"},
        Mistake{"bit: K-1, design: four}",
                "bit: K-1, design: four, shelf: shelf_of_forty_bits.csv, record: LM-136}",
                "plan.yaml:18:70: bits.0.record: leads to a bit of another design: it has 25 cutters, and "
                "the design's "
                "18"},
        Mistake{
            "bit: K-1, design: four}",
            "bit: K-1, design: four, shelf: shelf_of_forty_bits.csv, record: LM-138, starting_wear: 1 mm}",
            "plan.yaml:18:37: bits.0.shelf: says how the bit was found, and other keys how it starts"},
        Mistake{"bit: K-1, design: four}", "bit: K-1, design: four, result: not_there.h5}",
                "plan.yaml:18:38: bits.0.result: cannot be used: "},
        Mistake{"  - {bit: K-1, design: four}\n", "  - {bit: K-1, design: five}\n",
                "plan.yaml:18:24: bits.0.design: \"five\" is no design of the plan"}));

INSTANTIATE_TEST_SUITE_P(
    Holes, OnePlanMistake,
    ::testing::Values(
        Mistake{"rig: Heron,", "rig: Hern,",
                "plan.yaml:20:22: holes.0.rig: \"Hern\" is no rig of the plan; did you mean Heron?"},
        Mistake{"begins: 2031-11-05", "begins: 2031-02-29",
                "plan.yaml:20:37: holes.0.begins: \"2031-02-29\" is no day and hour; write 2031-11-05, or"},
        Mistake{"begins: 2031-11-05", "begins: 2031-11-05 7:00",
                "plan.yaml:20:37: holes.0.begins: \"2031-11-05 7:00\" is no day and hour"},
        Mistake{"begins: 2031-11-05", "begins: 2031-12-05",
                "plan.yaml:20:3: holes: has no hole within the plan's days, from: to to:"},
        Mistake{"scenario: ordinary_well.yaml", "scenario: ordinary_wel.yaml",
                "plan.yaml:20:59: holes.0.scenario: cannot be used: ordinary_wel.yaml"},
        Mistake{"scenario: ordinary_well.yaml", "scenario: after_an_inspection.yaml",
                "plan.yaml:20:59: holes.0.scenario: learns from one inspected bit (calibrate_from)"},
        Mistake{"yaml, design: four", "yaml, design: fore",
                "plan.yaml:20:87: holes.0.design: \"fore\" is no design of the plan; did you mean four?"},
        Mistake{"yaml, design: four", "yaml",
                "plan.yaml:20:5: holes.0.design: is missing; write which of the designs:"},
        Mistake{"yaml, design: four", "yaml, bit: K-2",
                "plan.yaml:20:84: holes.0.bit: \"K-2\" is no bit of the plan; did you mean K-1?"},
        Mistake{"yaml, design: four", "yaml, design: four, drilled: sandstones 40 m",
                "plan.yaml:20:102: holes.0.drilled.0: there is no rock \"sandstones\"; did you mean "
                "sandstone?"},
        Mistake{"yaml, design: four", "yaml, design: four, weight_on_bit: 40 rpm",
                "plan.yaml:20:108: holes.0.weight_on_bit: \"rpm\" is not a unit of a weight"}));

TEST(PlanMistakes, WhatEveryPlanNeedsIsAskedFor) {
  const auto errors = plan_errors(
      plan_with("  shifts: [monday to friday 07:00 to 15:30]\n", "", plan_with("holes:\n", "hole:\n")));
  ASSERT_EQ(errors.size(), 4u);
  EXPECT_EQ(errors[0].rfind("plan.yaml:1:1: holes: is missing; list the holes", 0), 0u) << errors[0];
  EXPECT_EQ(errors[1].rfind("plan.yaml:8:7: shop.stations.0.shifts: is missing, and the shop has none", 0),
            0u)
      << errors[1];
  EXPECT_EQ(errors[2].rfind("plan.yaml:9:7: shop.stations.1.shifts: is missing, and the shop has none", 0),
            0u)
      << errors[2];
  EXPECT_EQ(errors[3].rfind("plan.yaml:18:1: hole: is not a key here; did you mean holes?", 0), 0u)
      << errors[3];
}

TEST(PlanMistakes, ABitOfOneDesignIsNotBookedForAnother) {
  const std::string text = plan_with(
      "design: four}\n", "design: four, bit: K-1}\n",
      plan_with(
          "designs:\n",
          "designs:\n  - {name: five, bit: {like: five_blade_8_1_2, grade: standard}, lead_time: 30 d}\n",
          plan_with("yaml, design: four", "yaml, bit: K-1, design: five")));
  const auto errors =
      plan_errors(plan_with("{bit: K-1, design: four, bit: K-1}", "{bit: K-1, design: four}", text));
  ASSERT_EQ(errors.size(), 1u);
  EXPECT_EQ(errors[0],
            "plan.yaml:21:84: holes.0.bit: \"K-1\" is of design \"four\", and the hole is booked for "
            "\"five\"; keep one of the two");
}

TEST(PlanMistakes, AHoleOfADesignThatNobodyHasIsRefused) {
  const auto errors = plan_errors(plan_with(
      "designs:\n",
      "designs:\n  - {name: five, bit: {like: five_blade_8_1_2, grade: standard}, lead_time: 30 d}\n",
      plan_with("yaml, design: four", "yaml, design: five")));
  ASSERT_EQ(errors.size(), 1u);
  EXPECT_NE(errors[0].find("design: is \"five\", and bits: has none of that design"), std::string::npos)
      << errors[0];
}

TEST(PlanMistakes, AreToldOfAllFilesAtOnceEachInItsOwn) {
  const Scratch scratch;
  scratch.write("bits.csv", "bit,design,starting wear (mm),colour\nK-1,four,0.2,red\nK-2,for,0.2,\n");
  scratch.write(
      "well.yaml",
      "bit: {like: nothing}\nfluid: water\nplan:\n  - {weight_on_bit: 6000 lbf, rotary_speed: 85, flow: 60 "
      "gal/min}\ncolumn:\n  layers:\n    - {rock: shael, thickness: 50 ft}\n");
  std::string text = plan_with("ordinary_well.yaml", "well.yaml");
  text = plan_with("bits:\n  - {bit: K-1, design: four}\n", "bits: bits.csv\n", text);
  text = plan_with("to: 2031-11-30", "to: soon", text);
  const auto errors = plan_errors(text, (scratch / "plan.yaml").string());
  std::string all;
  for (const std::string& error : errors) all += error + "\n";
  const auto told = [&](const std::string& start) {
    return std::any_of(errors.begin(), errors.end(),
                       [&](const std::string& error) { return error.rfind(start, 0) == 0; });
  };
  EXPECT_EQ(errors.size(), 5u);
  EXPECT_TRUE(told("plan.yaml:4:5: to: \"soon\" is no day")) << all;
  EXPECT_TRUE(told("bits.csv:1:31: colour: is no heading here")) << all;
  EXPECT_TRUE(told("bits.csv:3:5: design: \"for\" is no design of the plan; did you mean four?")) << all;
  EXPECT_TRUE(told("well.yaml:4:45: plan.0.rotary_speed: \"85\" has no unit")) << all;
  EXPECT_TRUE(told("well.yaml:7:14: column.layers.0.rock: there is no rock \"shael\"; did you mean shale?"));
}

TEST(PlanMistakes, MoneyIsOfOneCurrencyAndMissingPricesAreWarnedOf) {
  const Scratch scratch;
  const std::string ground =
      "fluid: water\nplan:\n  - {weight_on_bit: 6000 lbf, rotary_speed: 85 rpm, flow: 60 gal/min}\ncolumn:\n "
      " layers:\n"
      "    - {rock: shale, thickness: 50 ft}\nrework: {worn_height: 2 mm}\n";
  const std::string prices = "rig: 85 EUR/h, bit: 1900 EUR, rework: 420 EUR, cutter: 38 EUR";
  scratch.write("dollars.yaml", ground + "costs: {rig: 85 $/h, bit: 1900 $}\n");
  scratch.write("euros.yaml", ground + "costs: {currency: EUR, " + prices + "}\n");
  const std::string file = (scratch / "plan.yaml").string(),
                    one = plan_with("ordinary_well.yaml", "dollars.yaml");
  std::vector<input::Warning> warnings;
  const ShopPlan plan = read_shop_plan_text(one, file, testing::plan_scenarios(), warnings);
  EXPECT_EQ(plan.currency, "$");
  ASSERT_EQ(warnings.size(), 1u);
  EXPECT_EQ(warnings[0].text, "has no price under costs for rework, cutter: what the plan costs is not told");
  EXPECT_EQ(read_shop_plan_text(plan_with("dollars", "euros", one), file, testing::plan_scenarios(), warnings)
                .currency,
            "EUR");
  const auto errors = plan_errors(
      one + "  - {hole: N-2, rig: Heron, begins: 2031-11-06, scenario: euros.yaml, design: four}\n", file);
  ASSERT_EQ(errors.size(), 1u);
  EXPECT_EQ(errors[0].rfind("plan.yaml:21:59: holes.1.scenario: has its costs in EUR, and ", 0), 0u)
      << errors[0];
}

TEST(PlanMistakes, TextThatIsNoPlanIsRefused) {
  EXPECT_EQ(plan_errors("- a\n- b\n").size(), 1u);
  EXPECT_EQ(plan_errors("").size(), 1u);
  EXPECT_GE(plan_errors("shop: {}\n").size(), 6u);
}

}  // namespace
}  // namespace dullcast::shop
