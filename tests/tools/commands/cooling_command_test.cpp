#include <gtest/gtest.h>

#include <cmath>
#include <regex>

#include "tools/commands/program.hpp"

namespace dullcast::commands {
namespace {

using testing::has;
using testing::Said;
using testing::say;
using testing::Scratch;
using testing::small_well;

/// Numbers of the column whose cells end in `unit` and are the row's first, before `mark` where given.
std::vector<double> first_numbers(const std::string& text, const std::string& unit) {
  std::vector<double> numbers;
  const std::regex row("(?:^|\n)  ([0-9.]+) " + unit + " +([0-9.]+) W");
  for (std::sregex_iterator at(text.begin(), text.end(), row), end; at != end; ++at)
    numbers.push_back(std::stod((*at)[2]));
  return numbers;
}

TEST(Cooling, TablesFlowsAndLeastFlowsForEachLayer) {
  const Scratch scratch;
  const Said said = say("cooling " + scratch.write("well.yaml", small_well));
  ASSERT_EQ(said.code, 0) << said.err;
  for (const std::string words :
       {"Estimates", "What each flow does", "W/(m2 K)", "<- planned", "60 gal/min", "2 gal/min",
        "200 gal/min", "Least flow that keeps every flat under 662 degF (350 degC)", "bit as it starts",
        "bit worn to its rule", "shale", "sandstone", "An estimate", "Cleaning usually asks", "keep clear"}) {
    EXPECT_TRUE(has(said.out, words)) << words << "\n" << said.out;
  }
  // Thirteen flows and the plan's; each cools more than the one before it.
  const std::vector<double> convection = first_numbers(said.out, "gal/min");
  ASSERT_EQ(convection.size(), 14U) << said.out;
  for (std::size_t k = 1; k < convection.size(); ++k) EXPECT_GT(convection[k], convection[k - 1]);
}

TEST(Cooling, SpeaksSi) {
  const Scratch scratch;
  const Said said = say("cooling --units si " + scratch.write("well.yaml", small_well));
  ASSERT_EQ(said.code, 0) << said.err;
  EXPECT_TRUE(has(said.out, "L/min") && has(said.out, " m/s") && has(said.out, "degC")) << said.out;
  EXPECT_FALSE(has(said.out, "gal/min")) << said.out;
}

TEST(Cooling, TheSameOnAnyNumberOfThreads) {
  const Scratch scratch;
  const std::string file = scratch.write("well.yaml", small_well);
  EXPECT_EQ(say("cooling --threads 1 " + file).out, say("cooling --threads 2 " + file).out);
}

TEST(Cooling, GraniteDrilledHardIsTooHotAtAnyFlow) {
  const Scratch scratch;
  const Said said = say("cooling " + scratch.write("well.yaml", small_well) +
                        " --set column.layers.1.rock=granite --set \"plan.0.weight_on_bit=16000 lbf\""
                        " --set \"plan.0.rotary_speed=200 rpm\"");
  ASSERT_EQ(said.code, 0) << said.err;
  EXPECT_TRUE(has(said.out, "over 662 degF at any flow")) << said.out;
}

TEST(Cooling, WordsAndScenariosThatMakeNoSense) {
  EXPECT_EQ(say("cooling").code, 2);
  EXPECT_EQ(say("cooling a.yaml b.yaml").code, 2);
  EXPECT_EQ(say("cooling a.yaml --units yards").code, 2);
  EXPECT_EQ(say("cooling a.yaml --threads 0").code, 2);
  const Scratch scratch;
  EXPECT_EQ(say("cooling " + (scratch / "none.yaml").string()).code, 3);
  const Said misspelt = say("coolign x.yaml");
  EXPECT_EQ(misspelt.code, 2);
  EXPECT_TRUE(has(misspelt.err, "did you mean \"cooling\"?")) << misspelt.err;
}

}  // namespace
}  // namespace dullcast::commands
