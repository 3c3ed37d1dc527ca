#include "engine/input/shelf_writer.hpp"

#include <gtest/gtest.h>

#include "engine/input/shelf_texts.hpp"

// A record put into a shelf: what was there stays as it was to the byte.
namespace dullcast::input {
namespace {

using testing::shelf_of;

using Record = std::vector<RecordAnswer>;

const Record& plain_record() {
  static const Record record{{"bit", "K-9"}, {"scenario", "pump_lost.yaml"}, {"outer_grade", "at least 3"}};
  return record;
}

TEST(ShelfWriter, ARowGoesToTheEndOfATableInItsOwnManner) {
  const std::string comma = "bit,scenario,outer_grade\nK-1,pump_lost.yaml,2";  // no end of line
  EXPECT_EQ(with_record(comma, "s.csv", plain_record()), comma + "\nK-9,pump_lost.yaml,at least 3\n");
  const std::string other =
      "\xef\xbb\xbf"
      "Outer grade;\"scenario\";note;BIT\r\n3;pump_lost.yaml;\"a; b\r\nc\";K-1\r\n\r\n";
  EXPECT_EQ(with_record(other, "s.csv", plain_record()), other + "at least 3;pump_lost.yaml;;K-9\r\n");
}

TEST(ShelfWriter, WhatATableHasNoColumnForGetsOneAndNothingElseMoves) {
  const std::string head = "bit,scenario", rows = "\r\nK-1,pump_lost.yaml\r\n";
  const std::string after = with_record(head + rows, "s.csv", plain_record());
  EXPECT_EQ(after, head + ",outer_grade" + rows + "K-9,pump_lost.yaml,at least 3\r\n");
  EXPECT_EQ(shelf_of(after, "s.csv").size(), 2u);
}

TEST(ShelfWriter, CutterAndRockColumnsAreFilledOneByOne) {
  const std::string table =
      "bit,scenario,cutter 1 (mm),cutter 2 (mm),drilled shale (m),lost\nK-1,pump_lost.yaml,0.1,,,0\n";
  std::string cutters = "0.3 mm; lost";
  for (int i = 0; i < 16; ++i) cutters += "; not measured";
  const std::string after = with_record(table, "s.csv",
                                        {{"bit", "K-9"},
                                         {"scenario", "pump_lost.yaml"},
                                         {"drilled", "shale 40 m; hard sandstone 3 m"},
                                         {"cutters", cutters}});
  const auto shelf = shelf_of(after, "s.csv");
  ASSERT_EQ(shelf.size(), 2u);
  EXPECT_NEAR(*shelf[0].found.cutters[0].worn_height, 1e-4, 1e-12);
  EXPECT_NEAR(*shelf[1].found.cutters[0].worn_height, 3e-4, 1e-12);
  EXPECT_TRUE(shelf[1].found.cutters[1].lost);
  ASSERT_EQ(shelf[1].found.drilled.size(), 2u);
  EXPECT_EQ(shelf[1].found.drilled[1].rock, "hard_sandstone");
  EXPECT_TRUE(after.find("\nK-1,pump_lost.yaml,0.1,,,0\n") != std::string::npos) << after;
}

TEST(ShelfWriter, CellsAreQuotedWhereTheyMustBeAndReadBackAsTheyWere) {
  for (const char* name : {"a, b", "a; b", "say \"x\"", "=1+2", "-7a", "+x", "\xc3\xa9", "'tis"}) {
    for (const std::string head : {"bit,scenario,outer_grade\n", "bit;scenario;outer_grade\n"}) {
      const std::string after =
          with_record(head, "s.csv", {{"bit", name}, {"scenario", "pump_lost.yaml"}, {"outer_grade", "1"}});
      const auto shelf = shelf_of(after, "s.csv");
      ASSERT_EQ(shelf.size(), 1u) << after;
      EXPECT_EQ(shelf[0].found.bit, name) << after;
    }
  }
}

TEST(ShelfWriter, AnItemGoesBehindTheLastOfAListAndCommentsStay) {
  const std::string before =
      "# ours\n"
      "shared: {lot: sound}   # all of one box\n"
      "shelf:\n"
      "    # the first\n"
      "    - bit: K-1\n"
      "      scenario: pump_lost.yaml\n"
      "      outer_grade: 2      # by Ann\n";
  const std::string behind = "\n# what follows\ntitle: \"the shelf\"\n";
  const std::string item =
      "    - bit: \"K-9\"\n      scenario: \"pump_lost.yaml\"\n      outer_grade: \"at least 3\"\n";
  EXPECT_EQ(with_record(before + behind, "s.yaml", plain_record()), before + item + behind);
  const std::string after = with_record(before, "s.yaml", plain_record());
  EXPECT_EQ(after, before + item);
  EXPECT_EQ(shelf_of(after, "s.yaml").size(), 2u);
  // The last line may lack its end, and a record may stand between braces.
  EXPECT_EQ(
      with_record("shelf:\n- {bit: K-1, scenario: pump_lost.yaml, lost: 1}", "s.yaml", {{"bit", "K-9"}}),
      "shelf:\n- {bit: K-1, scenario: pump_lost.yaml, lost: 1}\n- bit: \"K-9\"\n");
  EXPECT_EQ(with_record("shelf:\r\n- bit: K-1\r\n", "s.yaml", {{"bit", "K-9"}}),
            "shelf:\r\n- bit: K-1\r\n- bit: \"K-9\"\r\n");
}

TEST(ShelfWriter, AnEmptyShelfTakesItsFirstRecord) {
  for (const char* name : {"s.csv", "s.yaml"}) {
    const std::string empty = empty_shelf(name);
    EXPECT_EQ(shelf_of(empty, name).size(), 0u) << name;
    const std::string one = with_record(empty, name, plain_record());
    EXPECT_TRUE(one.starts_with(empty)) << one;
    const auto shelf = shelf_of(one, name);
    ASSERT_EQ(shelf.size(), 1u) << name;
    EXPECT_TRUE(shelf[0].found.outer_grade->at_least);
    EXPECT_EQ(
        shelf_of(with_record(one, name, {{"bit", "B"}, {"scenario", "pump_lost.yaml"}, {"lost", "1"}}), name)
            .size(),
        2u);
  }
}

TEST(ShelfWriter, WhatCannotBeAddedToIsRefused) {
  for (const char* yaml : {"shelf: [{bit: A}]\n", "shelf: [\n  {bit: A},\n  {bit: B}]\n", "shelf: 3\n",
                           "title: x\n", "shelf:\n  - bit: A\n...\n", "shelf: {a: b}\n"})
    EXPECT_THROW(with_record(yaml, "s.yaml", plain_record()), ScenarioErrors) << yaml;
  for (const char* table : {"bit,wrong\nA,b\n", "bit,scenario\n\"A,b\n", "bit,bit\n"})
    EXPECT_THROW(with_record(table, "s.csv", plain_record()), ScenarioErrors) << table;
}

}  // namespace
}  // namespace dullcast::input
