#include <gtest/gtest.h>

#include <algorithm>
#include <fstream>
#include <sstream>

#include "tools/commands/program.hpp"

namespace dullcast::commands {
namespace {

using testing::has;
using testing::Said;
using testing::say;
using testing::Scratch;
using testing::small_well;

std::string contents(const std::string& path) {
  std::ifstream file(path);
  std::stringstream text;
  text << file.rdbuf();
  return text.str();
}

/// A small well whose bit is due for rework within twice its holes.
const char* worn_soon = " --set repeat.holes=6 --set \"rework.worn_height=0.03 mm\"";

TEST(DoubtsCommand, SaysWhichNumbersDominateAndWhatToMeasure) {
  const Scratch scratch;
  const std::string csv = (scratch / "doubts.csv").string();
  const Said said = say("doubts " + scratch.write("well.yaml", small_well) + worn_soon +
                        " --whole-life 2 --threads 2 --csv '" + csv + "'");
  ASSERT_EQ(said.code, 0) << said.err;
  for (const std::string words : {"Doubts about", "central", "share", "rework at low", "hottest flat",
                                  "know first", "one number at a time", "--all names them", "Estimates"}) {
    EXPECT_TRUE(has(said.out, words)) << words << "\n" << said.out;
  }
  const std::string table = contents(csv);
  EXPECT_TRUE(has(table, "number,unit,low,central,high,mark,share")) << table;
  EXPECT_TRUE(has(table, "\ncentral,") && has(table, "abrasion_coefficient")) << table;
  std::istringstream lines(table);
  std::string line;
  std::getline(lines, line);
  const auto commas = [](const std::string& text) {
    bool quoted = false;  // the bit's name has a comma of its own
    return std::count_if(text.begin(), text.end(), [&](char letter) {
      if (letter == '"') quoted = !quoted;
      return letter == ',' && !quoted;
    });
  };
  const auto columns = commas(line);
  double shares = 0.0;
  int lived = 0;
  while (std::getline(lines, line)) {
    EXPECT_EQ(commas(line), columns) << line;
    std::istringstream cells(line);
    std::string cell;
    for (int k = 0; k <= 6; ++k) std::getline(cells, cell, ',');
    shares += std::stod(cell);
    std::getline(cells, cell, ',');
    std::getline(cells, cell, ',');
    lived += std::stoi(cell);
  }
  EXPECT_NEAR(shares, 1.0, 1e-4) << "six figures are written of each";
  EXPECT_EQ(lived, 2);
  EXPECT_TRUE(has(table, ",life,a small well,") && !has(table, "wear_of_hole")) << table;
}

/// Rework is not due in one small well, nor in two: hours drilled are no life.
TEST(DoubtsCommand, RanksByTheWearOfAHoleWhereNoLifeEnds) {
  const Scratch scratch;
  const std::string csv = (scratch / "doubts.csv").string();
  const Said said = say("doubts " + scratch.write("well.yaml", small_well) +
                        " --whole-life 1 --threads 2 --csv '" + csv + "'");
  ASSERT_EQ(said.code, 0) << said.err;
  for (const std::string words : {"rework does not fall due", "There is no life to rank by",
                                  "the greatest worn height", "wear at low", "times "})
    EXPECT_TRUE(has(said.out, words)) << words << "\n" << said.out;
  for (const std::string words : {"rework at low", "variance of the life", "look twice"})
    EXPECT_FALSE(has(said.out, words)) << words << "\n" << said.out;
  const std::size_t first = said.out.find('%', said.out.find("wear at low"));
  EXPECT_TRUE(has(said.out.substr(first, 30), "abrasion coefficient")) << said.out;
  const std::string table = contents(csv);
  EXPECT_TRUE(has(table, ",ranked_by,title,bit\n") && has(table, ",wear_of_hole,a small well,")) << table;
  if (std::system("/usr/bin/python3 -c 'import matplotlib' >/dev/null 2>&1") != 0) return;
  const std::string picture = (scratch / "doubts.png").string();
  const Said drawn =
      testing::say_to(std::string(DULLCAST_SOURCE_DIR) + "/tools/draw-doubts", csv + " " + picture);
  EXPECT_EQ(drawn.code, 0) << drawn.err;
  EXPECT_EQ(contents(picture).substr(1, 3), "PNG");
}

TEST(DoubtsCommand, NamesTheQuietNumbersWhenAsked) {
  const Scratch scratch;
  const Said said = say("doubts --all --whole-life 0 --units si " + scratch.write("well.yaml", small_well));
  ASSERT_EQ(said.code, 0) << said.err;
  EXPECT_TRUE(has(said.out, "next to nothing:")) << said.out;
  EXPECT_TRUE(has(said.out, "degC")) << said.out;
}

TEST(DoubtsCommand, RefusesWhatItCannotDo) {
  const Scratch scratch;
  EXPECT_EQ(say("doubts").code, 2);
  EXPECT_EQ(say("doubts --whole-life -1 " + scratch.write("well.yaml", small_well)).code, 2);
  EXPECT_EQ(say("doubts " + (scratch / "nowhere.yaml").string()).code, 3);
  EXPECT_EQ(say("doubts --csv '" + (scratch / "no/such/folder.csv").string() + "' " +
                scratch.write("a.yaml", small_well))
                .code,
            4);
}

}  // namespace
}  // namespace dullcast::commands
