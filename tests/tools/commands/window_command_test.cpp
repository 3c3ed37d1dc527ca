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
using testing::text_of;

constexpr const char* small_grid = " --weights '3000 lbf to 9000 lbf in 3' --speeds '60 to 100 rpm in 2' ";

std::vector<std::vector<std::string>> table_of(const std::string& text) {
  std::vector<std::vector<std::string>> rows;
  std::istringstream lines(text);
  for (std::string line; std::getline(lines, line);) {
    std::vector<std::string> cells(1);
    bool quoted = false;
    for (const char letter : line) {
      if (letter == '"') quoted = !quoted;
      if (letter == ',' && !quoted)
        cells.emplace_back();
      else if (letter != '"')
        cells.back() += letter;
    }
    rows.push_back(cells);
  }
  return rows;
}

TEST(WindowCommand, MapsEveryLayerNamesTheLimitAndSaysItIsAnEstimate) {
  const Scratch scratch;
  const Said said = say("window " + scratch.write("well.yaml", small_well) + small_grid);
  ASSERT_EQ(said.code, 0) << said.err;
  for (const std::string words :
       {"Operating window of \"a small well\"", "Layer 1, shale", "Layer 2, sandstone", "9000 lbf",
        "3000 lbf", "rpm", "from", "up to", "heavier", "lighter", "planned", "6500 lbf at 85 rpm",
        "over the weight limit: 7875 lbf", "[ ]", "Estimates"}) {
    EXPECT_TRUE(has(said.out, words)) << words << "\n" << said.out;
  }
  // The planned 6500 lbf at 85 rpm is nearest to 6000 lbf at 100 rpm.
  std::istringstream lines(said.out);
  int marked = 0;
  for (std::string line; std::getline(lines, line);) {
    if (!has(line, "lbf  ") || !has(line, "[") || has(line, "[ ]")) continue;
    ++marked;
    EXPECT_TRUE(has(line, "6000 lbf")) << line;
    EXPECT_GT(line.find('['), line.find_first_of(".HWCSPNJFBLUX", line.find("lbf") + 3)) << line;
  }
  EXPECT_EQ(marked, 2);
}

TEST(WindowCommand, WritesEveryFigureWithItsUnit) {
  const Scratch scratch;
  const std::string csv = (scratch / "window.csv").string();
  const Said said = say("window " + scratch.write("well.yaml", small_well) + small_grid +
                        "--layer 2 --flow '50 gal/min' --csv '" + csv + "' --threads 2");
  ASSERT_EQ(said.code, 0) << said.err;
  EXPECT_FALSE(has(said.out, "Layer 1")) << said.out;
  EXPECT_TRUE(has(said.out, "50 gal/min")) << said.out;
  const auto rows = table_of(text_of(csv));
  ASSERT_GT(rows.size(), 7U);
  const auto column = [&](const std::string& name) {
    const auto found = std::find(rows[0].begin(), rows[0].end(), name);
    EXPECT_NE(found, rows[0].end()) << name;
    return static_cast<std::size_t>(found - rows[0].begin());
  };
  int cells = 0, planned = 0;
  for (std::size_t k = 1; k < rows.size(); ++k) {
    ASSERT_EQ(rows[k].size(), rows[0].size()) << k;
    EXPECT_EQ(rows[k][column("layer")], "2");
    EXPECT_NEAR(std::stod(rows[k][column("flow_m3_per_s")]), 50.0 * 3.785411784e-3 / 60.0, 1e-11);
    cells += rows[k][0] == "cell";
    planned += rows[k][0] == "planned";
    if (rows[k][0] != "cell") continue;
    const double weight = std::stod(rows[k][column("weight_N")]) / 4.4482216152605;
    EXPECT_NEAR(std::stod(rows[k][column("use_weight")]), weight / 7875.0, 1e-6);
    if (weight > 8000.0) {
      EXPECT_NE(rows[k][column("limit")], "inside");
    }
    EXPECT_GT(std::stod(rows[k][column("rate_of_penetration_m_per_s")]), 0.0);
    EXPECT_GT(std::stod(rows[k][column("hottest_flat_K")]), 273.15);
    EXPECT_GT(std::stod(rows[k][column("cost_per_m")]), 0.0);
  }
  EXPECT_EQ(cells, 6);
  EXPECT_EQ(planned, 1);
}

TEST(WindowCommand, TakesOtherLimitsAndAHalfWornBit) {
  const Scratch scratch;
  const std::string well = scratch.write("well.yaml", small_well);
  const Said said =
      say("window --worn half --limit 'heat=20 degC' --limit weight=none --units si --layer 2 " + well +
          small_grid);
  ASSERT_EQ(said.code, 0) << said.err;
  EXPECT_TRUE(has(said.out, "worn to half")) << said.out;
  EXPECT_TRUE(has(said.out, "a flat too hot: over 20 degC")) << said.out;
  EXPECT_FALSE(has(said.out, "weight limit")) << said.out;
}

TEST(WindowCommand, RefusesWrongWordsWithASentence) {
  const Scratch scratch;
  const std::string well = scratch.write("well.yaml", small_well);
  const auto refused = [&](const std::string& words, const std::string& sentence) {
    const Said said = say("window " + well + " " + words);
    EXPECT_EQ(said.code, 2) << words;
    EXPECT_TRUE(has(said.err, sentence)) << words << ": " << said.err;
  };
  EXPECT_EQ(say("window").code, 2);
  refused("--layer 3", "the column has layers 1 to 2");
  refused("--layer 0", "the column has layers 1 to 2");
  refused("--worn quite", "--worn is new, half or start");
  refused("--weights '9000 lbf to 3000 lbf in 3'", "rise");
  refused("--weights '3000 lbf to 9000 lbf'", "say how many");
  refused("--weights '3000 lbf to 9000 lbf in many'", "whole number");
  refused("--weights '3000 lbf to 9000 lbf in 1'", "whole number");
  refused("--weights '3000 rpm'", "--weights");
  refused("--speeds '0 rpm'", "above 0");
  refused("--flow '-5 gal/min'", "below 0");
  refused("--flow lots", "--flow");
  refused("--limit heat", "NAME=VALUE");
  refused("--limit heta=20degC", "did you mean \"heat\"");
  refused("--threads 0", "--threads");
  EXPECT_EQ(say("window " + (scratch / "nowhere.yaml").string()).code, 3);
  EXPECT_EQ(say("window --csv '" + (scratch / "no/such/folder.csv").string() + "' " + well).code, 4);
}

/// The picture comes from the CSV; Debian's own interpreter has the modules.
TEST(WindowCommand, ItsTableCanBeDrawn) {
  const std::string python = "/usr/bin/python3";
  if (!std::filesystem::exists(python) || testing::say_to(python, "-c 'import matplotlib'").code != 0)
    GTEST_SKIP() << "no matplotlib here";
  const Scratch scratch;
  const std::string csv = (scratch / "window.csv").string(), png = (scratch / "window.png").string();
  ASSERT_EQ(say("window " + scratch.write("well.yaml", small_well) + small_grid + "--csv '" + csv + "'").code,
            0);
  const std::string draw = std::string(DULLCAST_SOURCE_DIR) + "/tools/draw-window";
  const Said drawn = testing::say_to(draw, "'" + csv + "' '" + png + "' --layer 2");
  ASSERT_EQ(drawn.code, 0) << drawn.err;
  EXPECT_EQ(text_of(png).substr(1, 3), "PNG");
  const Said missing = testing::say_to(draw, "'" + csv + "' '" + png + "' --layer 9");
  EXPECT_NE(missing.code, 0);
  EXPECT_TRUE(has(missing.err, "there is no layer 9")) << missing.err;
}

}  // namespace
}  // namespace dullcast::commands
