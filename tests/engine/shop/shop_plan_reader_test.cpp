#include "engine/shop/shop_plan_reader.hpp"

#include <gtest/gtest.h>

#include <algorithm>

#include "engine/base/local_time.hpp"
#include "engine/shop/season_texts.hpp"

namespace dullcast::shop {
namespace {

using testing::plan_errors;
using testing::plan_of;
using testing::plan_text;
using testing::plan_with;
using testing::season;

constexpr double hour = 3600.0, day = 24.0 * hour;

const BookedHole& hole(const std::string& name) {
  const auto& holes = season().holes;
  return *std::find_if(holes.begin(), holes.end(), [&](const BookedHole& one) { return one.name == name; });
}

const FleetBit& bit(const std::string& name) {
  const auto& bits = season().bits;
  return *std::find_if(bits.begin(), bits.end(), [&](const FleetBit& one) { return one.name == name; });
}

/// What the clock in Winnipeg shows at an instant of the season.
std::string clock_at(Instant instant) {
  static const base::LocalTime local("America/Winnipeg");
  return local.minute_text(season().begins + static_cast<std::int64_t>(instant));
}

TEST(ShopSeason, HasItsDaysWeeksAndNumbers) {
  const ShopPlan& plan = season();
  EXPECT_EQ(plan.title, "a season");
  EXPECT_EQ(plan.first_day, "2031-11-03");
  // 28 + 31 + 31 + 29 + 31 + 30 days, the clock an hour forward in March.
  EXPECT_EQ(plan.end, 180.0 * day - hour);
  EXPECT_EQ(plan.weeks.size(), 27u);
  EXPECT_EQ(plan.weeks.front(), 0.0);
  EXPECT_EQ(clock_at(plan.weeks.back()), "2032-05-03 00:00");
  EXPECT_EQ(plan.futures, 200);
  EXPECT_EQ(plan.currency, "$");
  EXPECT_EQ(plan.order, QueueOrder::needed_first);
  EXPECT_EQ(plan.early_pulls, 3);
}

TEST(ShopSeason, StationsHaveTheirTimesAndShifts) {
  const ShopPlan& plan = season();
  ASSERT_EQ(plan.stations.size(), 5u);
  const Station& wash = plan.stations[0];
  EXPECT_EQ(wash.works_on, WorksOn::every_bit);
  EXPECT_EQ(wash.task.kind, Duration::Kind::percentiles);
  EXPECT_EQ(wash.task.a, 0.5 * hour);
  EXPECT_EQ(wash.task.b, 0.75 * hour);
  EXPECT_EQ(wash.task.c, 1.5 * hour);
  const Station& debraze = plan.stations[1];
  EXPECT_EQ(debraze.task.kind, Duration::Kind::fixed);
  EXPECT_EQ(debraze.task.a, 40.0 * 60.0);
  ASSERT_TRUE(debraze.a_piece);
  EXPECT_EQ(debraze.a_piece->b, 240.0);
  const Station& braze = plan.stations[3];
  EXPECT_TRUE(braze.takes_cutters);
  // The first week has one Tuesday and one Thursday of 5 h; the next Tuesday is a holiday.
  EXPECT_EQ(braze.open.work_between(0.0, 7 * day), 10.0 * hour);
  EXPECT_EQ(braze.open.work_between(7 * day, 14 * day), 5.0 * hour);
  EXPECT_EQ(wash.open.work_between(0.0, 7 * day), 5 * 8.5 * hour);
  ASSERT_TRUE(plan.changes.more_shift);
  EXPECT_EQ(*plan.changes.more_shift, "saturday");
  ASSERT_EQ(plan.changes.with_more_shift.size(), 5u);
  EXPECT_EQ(plan.changes.with_more_shift[3].work_between(0.0, 7 * day), 15.0 * hour);
}

TEST(ShopSeason, CuttersComeFromTheirTableWithTheUnitsOfItsHeadings) {
  ASSERT_EQ(season().cutters.size(), 2u);
  const CutterStock& big = season().cutters[0];
  EXPECT_EQ(big.name, "1613 standard");
  EXPECT_NEAR(big.diameter, 0.016, 1e-15);
  EXPECT_EQ(big.on_hand, 90);
  EXPECT_EQ(big.reorder_at, 48);
  EXPECT_EQ(big.order, 72);
  EXPECT_EQ(big.lead_time.kind, Duration::Kind::percentiles);
  EXPECT_EQ(big.lead_time.a, 14 * day);
  EXPECT_EQ(big.lead_time.b, 21 * day);
  EXPECT_EQ(big.lead_time.c, 42 * day);
}

TEST(ShopSeason, RigsAskAheadAndKeepTheirOwnHolidays) {
  const ShopPlan& plan = season();
  ASSERT_EQ(plan.rigs.size(), 5u);
  const Rig &badger = plan.rigs[2], &wren = plan.rigs[4];
  EXPECT_EQ(badger.travel, 6 * hour);
  EXPECT_EQ(badger.asks_ahead, 2 * day);
  EXPECT_EQ(wren.asks_ahead, wren.travel) << "travel, where nothing else is said";
  // 11 November is the shop's holiday, which Wren has too and Badger not.
  EXPECT_EQ(badger.open.work_between(8 * day, 9 * day), 12 * hour);
  EXPECT_EQ(wren.open.work_between(8 * day, 9 * day), 0.0);
}

TEST(ShopSeason, BitsAreAsTheyWereFoundStatedOrNew) {
  ASSERT_EQ(season().bits.size(), 12u);
  const FleetBit& fresh = bit("LM-142");
  EXPECT_EQ(fresh.told_by, "new");
  EXPECT_FALSE(fresh.at_rig);
  EXPECT_EQ(fresh.condition.worn_height.maxCoeff(), 0.0);
  EXPECT_EQ(fresh.condition.worn_height.size(), 18);
  EXPECT_EQ(bit("LM-141").at_rig, std::optional<std::size_t>(0));
  EXPECT_EQ(clock_at(bit("LM-145").from), "2032-01-12 00:00");
  EXPECT_NEAR(bit("LM-143").condition.worn_height.minCoeff(), 0.6e-3, 1e-15);
  EXPECT_NEAR(bit("LM-143").condition.worn_height.maxCoeff(), 0.6e-3, 1e-15);
  const FleetBit& worn = bit("LM-144");
  EXPECT_EQ(worn.told_by, "as the plan states");
  EXPECT_NEAR(worn.condition.worn_height(15), 1.3e-3, 1e-15);
  EXPECT_EQ(worn.condition.chips.sum(), 1);
  EXPECT_EQ(worn.condition.chips(14), 1);
  const FleetBit& found = bit("LM-138");
  EXPECT_EQ(found.told_by, "inspected 2031-09-23, shelf_of_forty_bits.csv");
  EXPECT_GT(found.condition.worn_height.maxCoeff(), 0.0);
  EXPECT_EQ(bit("LM-136").condition.worn_height.size(), 25);
}

TEST(ShopSeason, HolesAreInOrderAndBeginWithTheirRigsShift) {
  const auto& holes = season().holes;
  EXPECT_EQ(holes.size(), 9u);
  EXPECT_TRUE(std::is_sorted(holes.begin(), holes.end(),
                             [](const BookedHole& a, const BookedHole& b) { return a.booked < b.booked; }));
  EXPECT_EQ(holes.front().name, "W-01");
  EXPECT_EQ(holes.front().booked, day + 7 * hour);
  EXPECT_EQ(clock_at(hole("P-01").booked), "2031-11-06 08:00");
  EXPECT_EQ(clock_at(hole("B-04").booked).substr(11), "12:00");
  // After the clock went forward, 2032-03-14, too.
  EXPECT_EQ(clock_at(hole("R-33").booked).substr(11), "06:00") << "Badger's";
  EXPECT_EQ(hole("B-09").bit, std::optional<std::size_t>(6)) << "LM-136 and no other";
  EXPECT_FALSE(hole("B-08").bit);
}

TEST(ShopSeason, AHolesScenarioHasTheDesignsBitNewAndOneHoleOfChance) {
  const BookedHole& plain = hole("W-01");
  EXPECT_EQ(plain.scenario.bit.layout.count(), 18);
  EXPECT_EQ(plain.scenario.bit.starting_wear.maxCoeff(), 0.0);
  EXPECT_EQ(plain.scenario.repeat.holes, 1);
  EXPECT_EQ(plain.scenario.repeat.stop_at, scenario::StopAt::beyond_repair);
  EXPECT_TRUE(plain.scenario.random_events.drawn);
  EXPECT_EQ(plain.scenario.stepping.output_every, std::optional<double>(0.0));
  EXPECT_NEAR(plain.scenario.column.layers.back().bottom, 80.0, 1e-9);
  EXPECT_NEAR(plain.scenario.costs.rig_per_second, 85.0 / 3600.0, 1e-12);
  EXPECT_EQ(plain.scenario.rules.worn_height, std::optional<double>(2e-3));
  EXPECT_EQ(hole("B-01").scenario.bit.layout.count(), 25);
  EXPECT_NEAR(hole("R-06").scenario.plan.back().rotary_speed, 65.0 / 60.0, 1e-12);
  EXPECT_NEAR(hole("W-03").scenario.column.layers.back().bottom, 90.0, 1e-9);
  EXPECT_EQ(hole("W-03").scenario.column.layers.size(), 3u);
}

TEST(ShopSeason, KeepsTheTextsOfItsFiles) {
  const auto& texts = season().texts;
  std::vector<std::string> names;
  for (const PlanText& one : texts) names.push_back(one.file.substr(one.file.rfind('/') + 1));
  EXPECT_EQ(names, (std::vector<std::string>{"season.yaml", "cutters.csv", "bits.csv",
                                             "shelf_of_forty_bits.csv", "holes.csv", "ridge_well.yaml",
                                             "ordinary_well.yaml", "wide_well.yaml", "pilot_hole.yaml"}));
  const std::string all = texts_together(season());
  for (const PlanText& one : texts)
    EXPECT_NE(all.find("==== " + one.file + "\n" + one.text), std::string::npos);
}

TEST(ShopPlanReader, TheShippedSeasonIsTakenWithoutAWord) {
  std::vector<input::Warning> warnings;
  const ShopPlan plan = read_shop_plan(std::string(DULLCAST_SOURCE_DIR) + "/scenarios/shop_season.yaml",
                                       testing::plan_scenarios(), warnings);
  EXPECT_TRUE(warnings.empty()) << warnings.front().message();
  EXPECT_GE(plan.holes.size(), 60u);
  EXPECT_GE(plan.bits.size(), 10u);
}

TEST(ShopPlanReader, ASmallPlanIsTakenWithoutAWord) {
  std::vector<std::string> told;
  const ShopPlan plan = plan_of(plan_text(), &told);
  EXPECT_EQ(told, std::vector<std::string>{});
  EXPECT_EQ(plan.futures, 200);
  EXPECT_EQ(plan.order, QueueOrder::first_come);
  EXPECT_TRUE(plan.changes.one_more_bench);
  EXPECT_FALSE(plan.changes.more_shift);
  EXPECT_EQ(plan.holes.front().booked, 2 * day + 8 * hour);
  EXPECT_EQ(plan.stations[1].task.a, 0.0);
  EXPECT_EQ(plan.designs.front().lead_time.a, 30 * day);
}

TEST(ShopPlanReader, TheDesignsBitStandsInTheScenarioWithThePlansOwnGrades) {
  const ShopPlan plan =
      plan_of(plan_with("{like: four_blade_7_7_8, grade: standard}", "{like: five_blade_8_1_2, grade: tough}",
                        "grades: {tough: {like: premium}}\n" + std::string(plan_text())));
  const scenario::Scenario& run = plan.holes.front().scenario;
  EXPECT_EQ(run.bit.layout.count(), 25);
  EXPECT_EQ(run.bit.grade_of(0).name, "tough");
  EXPECT_EQ(plan.designs.front().bit.grade_of(0).name, "tough");
  EXPECT_EQ(run.title, "N-1");
}

TEST(ShopPlanReader, ShiftsMayBeWrittenInSeveralWays) {
  const auto open = [](const std::string& shifts) {
    const ShopPlan plan = plan_of(plan_with("[every day 08:00 to 18:00]", shifts));
    return plan.rigs.front().open.work_between(0.0, 7 * day) / hour;
  };
  EXPECT_EQ(open("[{days: [monday, thursday], from: \"07:00\", to: \"12:30\"}]"), 11.0);
  // Sunday's of the week before, Monday's, Friday's, Saturday's, and two hours of Sunday's.
  EXPECT_EQ(open("[{days: friday to monday, from: 22:00, to: 06:00}]"), 6.0 + 3 * 8.0 + 2.0);
  EXPECT_EQ(open("monday 07:00 to 09:00; wednesday and friday from 08:00 to 09:00"), 4.0);
  EXPECT_EQ(open("[Monday to Tuesday 07:00-09:00, sunday 20:00 to 24:00]"), 8.0);
}

TEST(ShopPlanReader, HolesOutsideThePlansDaysAreLeftOutWithAWord) {
  std::vector<std::string> told;
  const std::string more =
      std::string(plan_text()) +
      "  - {hole: N-2, rig: Heron, begins: 2031-12-01, scenario: ordinary_well.yaml, design: four}\n"
      "  - {hole: N-3, rig: Heron, begins: 2031-11-02, scenario: ordinary_well.yaml, design: four}\n"
      "  - {hole: N-4, rig: Heron, begins: 2031-11-30 17:00, scenario: ordinary_well.yaml, design: four}\n";
  const ShopPlan plan = plan_of(more, &told);
  ASSERT_EQ(plan.holes.size(), 2u);
  EXPECT_EQ(plan.holes[1].booked, 27 * day + 17 * hour);
  ASSERT_EQ(told.size(), 1u);
  EXPECT_NE(
      told[0].find("plan.yaml:21:37: begins: 2 holes are booked outside the plan's days, this the first of "
                   "them: left out"),
      std::string::npos)
      << told[0];
}

TEST(ShopPlanReader, WarnsOfWhatIsPossibleAndUnwise) {
  const auto told_of = [](const std::string& text) {
    std::vector<std::string> told;
    plan_of(text, &told);
    EXPECT_EQ(told.size(), 1u);
    return told.empty() ? std::string() : told.front();
  };
  const auto has = [](const std::string& text, const std::string& words) {
    EXPECT_NE(text.find(words), std::string::npos) << text;
  };
  has(told_of(plan_with("diameter: 16 mm", "diameter: 13 mm")),
      "plan.yaml:16:23: designs.0.bit: has cutters of 16 mm, grade standard, which are not among the shop's "
      "cutters: "
      "they never run out in this plan");
  has(told_of(plan_with("{bit: K-1, design: four}", "{bit: K-1, design: four, from: 2031-12-24}")),
      "plan.yaml:18:36: bits.0.from: is after the plan's last day: the bit takes no part");
  has(told_of(plan_with("holidays: [2031-11-11]", "holidays: [2031-11-05]")),
      "plan.yaml:20:37: holes.0.begins: is a day on which Heron does not work: it begins with its next "
      "shift");
}

}  // namespace
}  // namespace dullcast::shop
