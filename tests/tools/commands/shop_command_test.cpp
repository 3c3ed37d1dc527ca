#include <gtest/gtest.h>

#include "engine/storage/shop_file.hpp"
#include "tools/commands/program.hpp"

namespace dullcast::commands {
namespace {

using testing::has;
using testing::Said;
using testing::say;
using testing::Scratch;
using testing::text_of;

/// Twelve metres that wear a bit by most of what it may lose.
constexpr const char* worn_well =
    "bit: {like: four_blade_7_7_8, grade: standard}\nfluid: water\nplan:\n"
    "  - {weight_on_bit: 6000 lbf, rotary_speed: 85 rpm, flow: 60 gal/min}\ncolumn:\n  layers:\n"
    "    - {rock: sandstone, thickness: 12 m}\nrework: {worn_height: 0.2 mm}\n"
    "costs: {rig: 85 $/h, bit: 1900 $, rework: 420 $, cutter: 38 $}\n";

constexpr const char* small_shop =
    "title: a small shop\ntime_zone: America/Winnipeg\nfrom: 2031-11-03\nto: 2031-11-30\nfutures: 200\n"
    "shop:\n  shifts: [monday to friday 07:00 to 15:30]\n  stations:\n"
    "    - {name: wash, works_on: every bit, time: {low: 30 min, central: 45 min, high: 90 min}}\n"
    "    - {name: braze, works_on: cutters, takes_cutters: yes, time_a_piece: 6 min}\n"
    "  cutters:\n    - {cutter: big, diameter: 16 mm, grade: standard, on_hand: 10, reorder_at: 9, order: "
    "20, "
    "lead_time: 8 d}\n"
    "rigs:\n  - {name: Heron, shifts: [every day 08:00 to 18:00], travel: 2 h}\n"
    "designs:\n  - {name: four, bit: {like: four_blade_7_7_8, grade: standard}, lead_time: 30 d}\n"
    "bits:\n  - {bit: K-1, design: four}\n"
    "holes:\n"
    "  - {hole: N-1, rig: Heron, begins: 2031-11-05, scenario: well.yaml, design: four}\n"
    "  - {hole: N-2, rig: Heron, begins: 2031-11-07, scenario: well.yaml, design: four}\n"
    "  - {hole: N-3, rig: Heron, begins: 2031-11-11, scenario: well.yaml, design: four}\n"
    "  - {hole: N-4, rig: Heron, begins: 2031-11-14, scenario: well.yaml, design: four}\n";

struct Shop {
  Scratch scratch;
  std::string plan;
  Shop() {
    scratch.write("well.yaml", worn_well);
    plan = scratch.write("shop.yaml", small_shop);
  }
  std::string at(const char* name) const { return (scratch / name).string(); }
};

TEST(Shop, DrillsItsPlanAndLeavesFileTablesAndCalendar) {
  const Shop shop;
  const Said said = say("shop " + shop.plan + " --futures 6 -o " + shop.at("s.h5") + " --csv " +
                        shop.at("s.csv") + " --calendar " + shop.at("s.ics"));
  ASSERT_EQ(said.code, 0) << said.err;
  EXPECT_TRUE(has(said.out, "a small shop: 2031-11-03 to 2031-11-30, 6 futures")) << said.out;
  EXPECT_TRUE(has(said.out, "one more bench at braze")) << said.out;
  EXPECT_TRUE(has(said.out, "inspect each bit that comes in")) << said.out;
  const storage::ShopOutlook outlook = storage::read_shop(shop.at("s.h5"));
  EXPECT_EQ(outlook.futures, 6);
  EXPECT_EQ(outlook.holes.size(), 4U);
  EXPECT_GT(outlook.bits[0].due_probability, 0.0);
  EXPECT_TRUE(has(outlook.plan_text, "well.yaml"));
  for (const char* table : {"s_weeks.csv", "s_bits.csv", "s_holes.csv", "s_changes.csv"})
    EXPECT_FALSE(text_of(shop.at(table)).empty()) << table;
  EXPECT_TRUE(has(text_of(shop.at("s.ics")), "SUMMARY:Bit K-1"));
  // Told again from the file, word for word, and as a page.
  const Said shown = say("show " + shop.at("s.h5"));
  EXPECT_EQ(shown.out + "Written to " + shop.at("s.h5") + "\n", said.out);
  EXPECT_EQ(say("report " + shop.at("s.h5") + " -o " + shop.at("s.html")).code, 0);
}

TEST(Shop, TheSamePlanGivesTheSameFileOnAnyNumberOfThreads) {
  const Shop shop;
  ASSERT_EQ(say("shop " + shop.plan + " --futures 5 --threads 1 -o " + shop.at("one.h5")).code, 0);
  ASSERT_EQ(say("shop " + shop.plan + " --futures 5 --threads 2 -o " + shop.at("two.h5")).code, 0);
  EXPECT_EQ(text_of(shop.at("one.h5")), text_of(shop.at("two.h5")));
}

TEST(Shop, BriefAndAsPlannedSayLess) {
  const Shop shop;
  const Said said = say("shop " + shop.plan + " --futures 4 --as-planned --brief -o " + shop.at("s.h5"));
  ASSERT_EQ(said.code, 0) << said.err;
  EXPECT_FALSE(has(said.out, "one more")) << said.out;
  EXPECT_FALSE(has(said.out, "Benches")) << said.out;
  EXPECT_TRUE(storage::read_shop(shop.at("s.h5")).changes.empty());
}

TEST(Shop, RefusesWhatCannotBeUsedAndWritesOverNothing) {
  const Shop shop;
  EXPECT_EQ(say("shop").code, 2);
  EXPECT_EQ(say("shop " + shop.plan + " --futures 1").code, 2);
  const Said none = say("shop " + shop.at("none.yaml"));
  EXPECT_EQ(none.code, 3) << none.err;
  const std::string bad = shop.scratch.write("bad.yaml", std::string(small_shop) + "colour: green\n");
  const Said unknown = say("shop " + bad);
  EXPECT_EQ(unknown.code, 3);
  EXPECT_TRUE(has(unknown.err, "colour")) << unknown.err;
  // Not over what it reads, and over what is there only when told to.
  EXPECT_EQ(say("shop " + shop.plan + " --futures 2 --as-planned --replace -o " + shop.at("well.yaml")).code,
            4);
  EXPECT_EQ(text_of(shop.at("well.yaml")), worn_well);
  shop.scratch.write("there.ics", "mine");
  EXPECT_EQ(say("shop " + shop.plan + " --futures 2 --as-planned -o " + shop.at("s.h5") + " --calendar " +
                shop.at("there.ics"))
                .code,
            4);
  EXPECT_EQ(text_of(shop.at("there.ics")), "mine");
}

}  // namespace
}  // namespace dullcast::commands
