#include <gtest/gtest.h>

#include <sstream>

#include "tools/commands/program.hpp"

// A shelf of inspected bits beside their forecasts, as the program prints it.
namespace dullcast::commands {
namespace {

using testing::has;
using testing::Said;
using testing::say;
using testing::Scratch;
using testing::small_well;
using testing::text_of;
using testing::word;

constexpr const char* small_shelf =
    "bit,inspected,scenario,holes,outer_grade,cutter 17,cutter 18,chipped\n"
    "K-1,2031-04-17,well.yaml,1,0,0.1 mm,0.1 mm,\n"
    "K-2,2031-04-18,well.yaml,2,at least 1,,,3\n";

/// The cells of a table's line that begins with a word.
std::vector<std::string> cells_of(const std::string& table, const std::string& first) {
  std::istringstream lines(table);
  std::string line;
  while (std::getline(lines, line)) {
    if (!line.starts_with(first + ",")) continue;
    std::vector<std::string> cells;
    std::istringstream row(line);
    for (std::string cell; std::getline(row, cell, ',');) cells.push_back(cell);
    return cells;
  }
  return {};
}

TEST(ShelfCommand, PutsWhatWasFoundBesideWhatIsForecast) {
  const Scratch scratch;
  scratch.write("well.yaml", small_well);
  const std::string shelf = scratch.write("shelf.csv", small_shelf), csv = (scratch / "out.csv").string();
  const Said said = say("shelf " + shelf + " --units si --csv " + csv);
  ASSERT_EQ(said.code, 0) << said.err;
  EXPECT_TRUE(has(said.out, "K-1     2031-04-17  1      12 m")) << said.out;
  EXPECT_TRUE(has(said.out, "-, at least 1")) << said.out;
  EXPECT_TRUE(has(said.out, "chipped          3 found, ")) << said.out;
  const std::string table = text_of(csv);
  const auto one = cells_of(table, "K-1"), two = cells_of(table, "K-2"), middle = cells_of(table, "median");
  ASSERT_EQ(one.size(), 21u) << table;
  ASSERT_EQ(two.size(), 21u);
  EXPECT_EQ(one[4], "12");
  EXPECT_EQ(two[4], "24");
  EXPECT_EQ(middle[4], "18");
  EXPECT_EQ(one[9], "1e-04");
  EXPECT_EQ(two[9], "");
  // Two holes wear more than one; the same outermost cutters are told of K-1 as were measured on it.
  const double worn = std::stod(one[10]);
  EXPECT_GT(worn, 1e-6);
  EXPECT_GT(std::stod(two[10]), 1.5 * worn);
  EXPECT_GT(std::stod(one[11]), 1.0) << "a tenth of a millimetre after 12 m is more than is forecast";
  EXPECT_EQ(one[12], "0") << "both its marks say that nothing was chipped";
  EXPECT_EQ(two[12], "3");
  EXPECT_EQ(two[19], "1") << "at least";
}

TEST(ShelfCommand, BriefTellsTheMediansAndTheFarthest) {
  const Scratch scratch;
  scratch.write("well.yaml", small_well);
  const std::string shelf = scratch.write("shelf.yaml",
                                          "shared: {scenario: well.yaml, holes: 1}\n"
                                          "shelf:\n"
                                          "  - {bit: K-1, cutter_18: 0.1 mm}\n"
                                          "  - {bit: K-2, cutter_18: 0.1 mm}\n"
                                          "  - {bit: K-3, cutter_18: 0.9 mm}\n");
  const Said said = say("shelf " + shelf + " --brief");
  ASSERT_EQ(said.code, 0) << said.err;
  EXPECT_TRUE(has(said.out, "bits             3\n")) << said.out;
  EXPECT_TRUE(has(said.out, "farthest off     K-3 (x ")) << said.out;
  EXPECT_FALSE(has(said.out, "inspected  ")) << said.out;
}

TEST(ShelfCommand, ARunThatEndsEarlyIsToldAndNothingIsWrittenOverWhatItReads) {
  const Scratch scratch;
  std::string weak = small_well;
  weak.replace(weak.find("6500 lbf"), 8, "3 lbf");
  const std::string well = scratch.write("well.yaml", weak), shelf = scratch.write("shelf.csv", small_shelf);
  const Said said = say("shelf " + shelf);
  EXPECT_EQ(said.code, 0) << said.err;
  EXPECT_TRUE(has(said.out, "not finished     K-1: its run ends after ")) << said.out;
  EXPECT_EQ(say("shelf " + shelf + " --replace --csv " + shelf).code, 4);
  EXPECT_EQ(say("shelf " + shelf + " --replace --csv " + well).code, 4);
  EXPECT_EQ(text_of(shelf), small_shelf);
  EXPECT_EQ(text_of(well), weak);
}

TEST(ShelfCommand, WhatIsWrongWithAShelfIsSaidByItAndByCheck) {
  const Scratch scratch;
  scratch.write("well.yaml", small_well);
  const std::string good = scratch.write("good.csv", small_shelf),
                    bad = scratch.write("bad.csv", std::string(small_shelf) + "K-3,soon,well.yaml,1,9,,,\n"),
                    yaml =
                        scratch.write("shelf.yaml", "shelf:\n  - {bit: A, scenario: well.yaml, lost: 1}\n");
  const Said said = say("shelf " + bad);
  EXPECT_EQ(said.code, 3);
  EXPECT_TRUE(has(said.err, bad + ":4:5: inspected: \"soon\" is no day")) << said.err;
  EXPECT_TRUE(has(said.err, bad + ":4:22: outer_grade: \"9\" is no dull grade")) << said.err;
  const Said check = say("check " + good + " " + bad + " " + yaml);
  EXPECT_EQ(check.code, 3);
  EXPECT_TRUE(has(check.out, good + ": a shelf of 2 bits: can be used")) << check.out;
  EXPECT_TRUE(has(check.out, bad + ": a shelf: cannot be used, 2 to put right")) << check.out;
  EXPECT_TRUE(has(check.out, yaml + ": a shelf of 1 bit: can be used")) << check.out;
  EXPECT_EQ(say("shelf").code, 2);
  EXPECT_EQ(say("shelf " + (scratch / "none.csv").string()).code, 3);
}

TEST(ShelfCommand, TheShippedShelfIsWholeAndOutOfStepAsItsMakerPlanted) {
  const Scratch scratch;
  const std::string shelf = testing::shipped("shelf_of_forty_bits.csv"), csv = (scratch / "out.csv").string();
  const Said said = say("shelf " + shelf + " --csv " + csv);
  ASSERT_EQ(said.code, 0) << said.err;
  EXPECT_FALSE(has(said.err, "[unwise]")) << said.err;
  EXPECT_FALSE(has(said.out, "not finished")) << said.out;
  const std::string table = text_of(csv);
  EXPECT_EQ(std::count(table.begin(), table.end(), '\n'), 42);
  // 1.8 times the library's coefficient, and sandstone 1.3 times as abrasive, with a feedback by heat.
  const auto middle = cells_of(table, "median");
  ASSERT_GT(middle.size(), 11u);
  EXPECT_GT(std::stod(middle[11]), 1.8);
  EXPECT_LT(std::stod(middle[11]), 3.2);
  EXPECT_EQ(say("check " + shelf).code, 0);
}

}  // namespace
}  // namespace dullcast::commands
