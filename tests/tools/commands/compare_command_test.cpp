#include <gtest/gtest.h>

#include <algorithm>
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

/// A small well and the same with less weight, both as results.
struct Pair {
  Scratch scratch;
  std::string well = scratch.write("well.yaml", small_well);
  std::string one = (scratch / "one.h5").string(), light = (scratch / "light.h5").string();
  Pair() {
    say("run --central-only " + well + " -o " + one);
    say("run --central-only " + well + " --set \"plan.0.weight_on_bit=4000 lbf\" -o " + light);
  }
};

/// The line that begins with `label`, without its spaces doubled.
std::string line_of(const std::string& text, const std::string& label) {
  std::istringstream lines(text);
  for (std::string line; std::getline(lines, line);) {
    if (line.rfind("  " + label, 0) != 0) continue;
    std::string single;
    for (const char letter : line)
      if (letter != ' ' || (!single.empty() && single.back() != ' ')) single += letter;
    return single;
  }
  return {};
}

TEST(Compare, TellsTheInputsThatDifferAndWhatTheyChanged) {
  const Pair pair;
  const Said said = say("compare " + pair.one + " " + pair.light);
  ASSERT_EQ(said.code, 0) << said.err;
  EXPECT_EQ(line_of(said.out, "plan.0.weight_on_bit"), "plan.0.weight_on_bit 6500 lbf 4000 lbf") << said.out;
  EXPECT_EQ(line_of(said.out, "plan.0.rotary_speed"), "") << said.out;
  EXPECT_TRUE(has(line_of(said.out, "mean progress"), "ft/h (x 0.")) << said.out;
  EXPECT_TRUE(has(line_of(said.out, "hottest flat"), "degF (-")) << said.out;
  EXPECT_TRUE(has(line_of(said.out, "shale"), "ft/h")) << said.out;
  EXPECT_TRUE(has(said.out, "Estimates."));
}

TEST(Compare, AScenarioStandsBesideItsResultAndIsTheSame) {
  const Pair pair;
  const Said said = say("compare " + pair.one + " " + pair.well + " --units si");
  ASSERT_EQ(said.code, 0) << said.err;
  EXPECT_TRUE(has(said.out, "What differs in the inputs\n  nothing\n")) << said.out;
  for (const std::string label :
       {"drilled by then", "rotating", "mean progress", "most worn cutter", "bit and rig"})
    EXPECT_TRUE(has(line_of(said.out, label), "(same)")) << said.out;
}

TEST(Compare, ItsTableHoldsEveryFigureInSi) {
  const Pair pair;
  const std::string csv = (pair.scratch / "c.csv").string();
  ASSERT_EQ(say("compare --brief " + pair.one + " " + pair.light + " " + pair.one + " --csv " + csv).code, 0);
  std::istringstream lines(text_of(csv));
  std::string line;
  std::getline(lines, line);
  EXPECT_EQ(line, "part,what,unit," + pair.one + "," + pair.light + "," + pair.one);
  int inputs = 0, outcomes = 0, layers = 0;
  while (std::getline(lines, line)) {
    EXPECT_EQ(std::count(line.begin(), line.end(), ','), 5) << line;
    inputs += line.rfind("input,", 0) == 0;
    outcomes += line.rfind("outcome,", 0) == 0;
    layers += line.rfind("layer,", 0) == 0;
  }
  EXPECT_EQ(inputs, 1);
  EXPECT_GE(outcomes, 10);
  EXPECT_EQ(layers, 6);
  EXPECT_EQ(say("compare " + pair.one + " " + pair.light + " --replace --csv " + pair.light).code, 4);
}

TEST(Compare, OneFileIsTooFewAndABadOneIsNamed) {
  const Pair pair;
  EXPECT_EQ(say("compare " + pair.one).code, 2);
  const Said none = say("compare " + pair.one + " " + (pair.scratch / "none.h5").string());
  EXPECT_EQ(none.code, 4);
  EXPECT_TRUE(has(none.err, "none.h5")) << none.err;
}

TEST(DrawCompare, DrawsOnSharedAxesAndWritesOverNothingUnasked) {
  if (std::system("/usr/bin/python3 -c 'import matplotlib, netCDF4' >/dev/null 2>&1") != 0)
    GTEST_SKIP() << "no matplotlib or netCDF4";
  const Pair pair;
  const std::string tool = std::string(DULLCAST_SOURCE_DIR) + "/tools/draw-compare";
  const std::string picture = (pair.scratch / "beside.png").string(),
                    words = pair.one + " " + pair.light + " -o ";
  const Said drawn = testing::say_to(tool, words + picture);
  ASSERT_EQ(drawn.code, 0) << drawn.err;
  EXPECT_EQ(text_of(picture).substr(1, 3), "PNG");
  EXPECT_EQ(testing::say_to(tool, words + picture).code, 1);
  EXPECT_EQ(testing::say_to(tool, words + picture + " --replace").code, 0);
  const std::string before = text_of(pair.light);
  const Said over = testing::say_to(tool, words + pair.light + " --replace");
  EXPECT_EQ(over.code, 1);
  EXPECT_TRUE(has(over.err, "this is what is read")) << over.err;
  EXPECT_EQ(text_of(pair.light), before);
}

}  // namespace
}  // namespace dullcast::commands
