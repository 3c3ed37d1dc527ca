#include <gtest/gtest.h>

#include <algorithm>
#include <set>

#include "engine/input/text_file.hpp"
#include "engine/shop/plan_texts.hpp"
#include "tools/commands/program.hpp"

// The section of scenarios/README.md on plans names every key that their reader knows.
namespace dullcast::shop {
namespace {

/// The keys of the map that a key of no meaning is put into, as the reader itself lists them.
std::set<std::string> known_keys(const std::string& from, const std::string& to) {
  const std::string text = testing::plan_with(from, to);
  EXPECT_FALSE(text.empty()) << from;
  std::set<std::string> keys;
  for (const std::string& error : testing::plan_errors(text)) {
    const std::string before = "xxxxxxxxxxxx: is not a key here; the keys are ";
    const auto at = error.find(before);
    if (at == std::string::npos) continue;
    std::string list = error.substr(at + before.size());
    for (const std::string mark : {" or ", ", "}) {
      for (auto found = list.find(mark); found != std::string::npos; found = list.find(mark))
        list.replace(found, mark.size(), "\n");
    }
    std::size_t start = 0;
    for (auto end = list.find('\n'); end != std::string::npos; start = end + 1, end = list.find('\n', start))
      keys.insert(list.substr(start, end - start));
    keys.insert(list.substr(start));
  }
  EXPECT_FALSE(keys.empty()) << to;
  return keys;
}

TEST(PlanKeys, AreAllInTheReference) {
  const std::string reference =
      input::read_text_file(std::string(DULLCAST_SOURCE_DIR) + "/scenarios/README.md");
  const auto begin = reference.find("## Plans of a shop"), end = reference.find("\n## ", begin);
  ASSERT_NE(begin, std::string::npos);
  const std::string section = reference.substr(begin, end - begin);
  const std::string none = "xxxxxxxxxxxx: 1";
  std::set<std::string> keys;
  for (const auto& [from, to] : std::vector<std::pair<std::string, std::string>>{
           {"title: a small shop", none},
           {"shop:\n", "shop:\n  " + none + "\n"},
           {"[monday to friday 07:00 to 15:30]", "[{days: monday, from: 07:00, to: 08:00, " + none + "}]"},
           {"{name: wash", "{" + none + ", name: wash"},
           {"{cutter: big", "{" + none + ", cutter: big"},
           {"{name: Heron", "{" + none + ", name: Heron"},
           {"{name: four", "{" + none + ", name: four"},
           {"{bit: K-1", "{" + none + ", bit: K-1"},
           {"{hole: N-1", "{" + none + ", hole: N-1"},
           {"title: a small shop", "changes: {" + none + "}"},
           {"title: a small shop", "changes: {more_shift: {shifts: monday 07:00 to 08:00, " + none + "}}"}}) {
    for (const std::string& key : known_keys(from, to)) keys.insert(key);
  }
  EXPECT_GT(keys.size(), 60u);
  for (const std::string& key : keys) {
    const bool found = section.find("`" + key + "`") != std::string::npos ||
                       section.find("." + key + "`") != std::string::npos;
    EXPECT_TRUE(found) << key << " is not in scenarios/README.md";
  }
}

TEST(PlanKeys, OfTablesAreThoseOfTheLists) {
  // A heading that is none is told with those that there are.
  const testing::Scratch scratch;
  const auto headings = [&](const char* file, const std::string& from, const std::string& to) {
    scratch.write(file, "xxxxxxxxxxxx\n1\n");
    const auto errors = testing::plan_errors(testing::plan_with(from, to), (scratch / "plan.yaml").string());
    std::string all;
    for (const std::string& error : errors) {
      if (error.find("is no heading here; the keys are ") != std::string::npos) all += error;
    }
    return all;
  };
  const auto same = [&](const std::string& told, const std::set<std::string>& keys) {
    for (const std::string& key : keys)
      EXPECT_TRUE(told.find(" " + key + ",") != std::string::npos ||
                  told.find(" " + key + " or") != std::string::npos || told.ends_with(" or " + key))
          << key << " in " << told;
  };
  same(headings("rigs.csv", "  - {name: Heron, shifts: [every day 08:00 to 18:00], travel: 2 h}\n",
                "  rigs.csv\n"),
       known_keys("{name: Heron", "{xxxxxxxxxxxx: 1, name: Heron"));
  same(headings("bits.csv", "  - {bit: K-1, design: four}\n", "  bits.csv\n"),
       known_keys("{bit: K-1", "{xxxxxxxxxxxx: 1, bit: K-1"));
  same(headings("cutters.csv", "    - {cutter: big, diameter: 16 mm, grade: standard, on_hand: 40}\n",
                "    cutters.csv\n"),
       known_keys("{cutter: big", "{xxxxxxxxxxxx: 1, cutter: big"));
  same(headings(
           "holes.csv",
           "  - {hole: N-1, rig: Heron, begins: 2031-11-05, scenario: ordinary_well.yaml, design: four}\n",
           "  holes.csv\n"),
       known_keys("{hole: N-1", "{xxxxxxxxxxxx: 1, hole: N-1"));
}

TEST(PlanKeys, ATableReadsAsTheListThatItStandsFor) {
  const testing::Scratch scratch;
  scratch.write(
      "rigs.csv",
      "Name;Shifts;holidays;Travel (h);asks ahead (d)\nHeron;\"every day 08:00 to 18:00\";\"2031-11-12; "
      "2031-11-14 to 2031-11-16\";2,5;1\n");
  scratch.write("cutters.csv",
                "cutter,diameter (mm),grade,on hand,order,reorder at,lead time "
                "(d)\nbig,16,standard,40,20,10,7; 9; 20\n");
  scratch.write("well.yaml",
                input::read_text_file(std::string(DULLCAST_SOURCE_DIR) + "/scenarios/ordinary_well.yaml"));
  const auto read = [&](const std::string& text) {
    std::vector<input::Warning> warnings;
    return read_shop_plan_text(testing::plan_with("ordinary_well.yaml", "well.yaml", text),
                               (scratch / "plan.yaml").string(), testing::plan_scenarios(), warnings);
  };
  const std::string rig = "  - {name: Heron, shifts: [every day 08:00 to 18:00], travel: 2 h}\n",
                    cutter = "    - {cutter: big, diameter: 16 mm, grade: standard, on_hand: 40}\n";
  const ShopPlan listed = read(testing::plan_with(
      rig,
      "  - {name: Heron, shifts: [every day 08:00 to 18:00], travel: 150 min, asks_ahead: 24 h, holidays: "
      "[2031-11-12, "
      "2031-11-14 to 2031-11-16]}\n",
      testing::plan_with(
          cutter,
          "    - {cutter: big, diameter: 16 mm, grade: standard, on_hand: 40, order: 20, reorder_at: "
          "10, lead_time: {low: 7 d, central: 9 d, high: 20 d}}\n")));
  const ShopPlan table =
      read(testing::plan_with(rig, "  rigs.csv\n", testing::plan_with(cutter, "    cutters.csv\n")));
  ASSERT_EQ(table.rigs.size(), 1u);
  EXPECT_EQ(table.rigs[0].travel, 9000.0);
  EXPECT_EQ(table.rigs[0].travel, listed.rigs[0].travel);
  EXPECT_EQ(table.rigs[0].asks_ahead, listed.rigs[0].asks_ahead);
  const auto hours = [](const ShopPlan& plan) {
    return plan.rigs[0].open.work_between(0.0, plan.end) / 3600.0;
  };
  EXPECT_EQ(hours(table), 280.0 - 40.0);  // 28 days of 10 h less four days off
  EXPECT_EQ(hours(listed), hours(table));
  ASSERT_EQ(table.cutters.size(), 1u);
  EXPECT_EQ(table.cutters[0].lead_time.b, 9 * 86400.0);
  for (const auto member : {&Duration::a, &Duration::b, &Duration::c})
    EXPECT_EQ(table.cutters[0].lead_time.*member, listed.cutters[0].lead_time.*member);
  EXPECT_EQ(table.cutters[0].order, listed.cutters[0].order);
  EXPECT_EQ(table.cutters[0].diameter, listed.cutters[0].diameter);
}

}  // namespace
}  // namespace dullcast::shop
