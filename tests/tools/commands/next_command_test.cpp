#include <gtest/gtest.h>

#include "tools/commands/program.hpp"

namespace dullcast::commands {
namespace {

using testing::has;
using testing::Said;
using testing::say;
using testing::Scratch;
using testing::small_well;
using testing::text_of;

/// The small well with prices for everything, and a bit that is worn.
const std::string priced = " --set \"costs.cutter=38 $\" --set \"bit.starting_wear=1.2 mm\" --draws 4";

TEST(Next, TellsTheChoicesLineByLineAndWhereTheAnswerFlips) {
  const Scratch scratch;
  const Said said = say("next " + scratch.write("well.yaml", small_well) + priced);
  ASSERT_EQ(said.code, 0) << said.err;
  for (const std::string words :
       {"its next hole", "answer", "run again", "rework first", "new bit", "finishes the hole",
        "paid before the hole", "rig, trips included", "bits fetched for it", "repair or bit after it",
        "less: worn already", "expected cost", "flips", "Estimates", "licensed", "Local codes"}) {
    EXPECT_TRUE(has(said.out, words)) << words << "\n" << said.out;
  }
  EXPECT_TRUE(has(said.out, "1900 $")) << said.out;
}

TEST(Next, InShortTheAnswerAndTheFlip) {
  const Scratch scratch;
  const Said said = say("next --brief " + scratch.write("well.yaml", small_well) + priced);
  ASSERT_EQ(said.code, 0) << said.err;
  EXPECT_TRUE(has(said.out, "answer") && has(said.out, "flips")) << said.out;
  EXPECT_LE(std::count(said.out.begin(), said.out.end(), '\n'), 10) << said.out;
}

TEST(Next, WritesATableAndKeepsWhatIsThere) {
  const Scratch scratch;
  const std::string well = scratch.write("well.yaml", small_well), csv = (scratch / "next.csv").string();
  ASSERT_EQ(say("next " + well + priced + " --csv " + csv).code, 0);
  const std::string text = text_of(csv);
  EXPECT_TRUE(has(text, "choice,draws,finished") && has(text, "\nrun_again,4,")) << text;
  EXPECT_EQ(std::count(text.begin(), text.end(), '\n'), 4) << text;
  EXPECT_EQ(say("next " + well + priced + " --csv " + csv).code, 4);
  EXPECT_EQ(say("next " + well + priced + " --csv " + well + " --replace").code, 4);
}

TEST(Next, WithoutPricesItSaysWhichAreMissing) {
  const Scratch scratch;
  const Said said = say("next --draws 2 " + scratch.write("well.yaml", small_well));
  ASSERT_EQ(said.code, 0) << said.err;
  EXPECT_TRUE(has(said.out, "none without prices: give costs.cutter")) << said.out;
  EXPECT_FALSE(has(said.out, "flips")) << said.out;
}

/// A bit off a shelf goes down as it was found.
TEST(Next, TakesABitFromAShelf) {
  const Scratch scratch;
  const std::string well = scratch.write("well.yaml", small_well);
  const std::string shelf = scratch.write("shelf.csv",
                                          "bit,scenario,holes,outer_grade,lost\n"
                                          "A-1,well.yaml,1,2,2\n");
  const Said said =
      say("next " + well + " --set \"costs.cutter=38 $\" --draws 2 --shelf " + shelf + " --bit A-1");
  ASSERT_EQ(said.code, 0) << said.err;
  EXPECT_TRUE(has(said.out, "2 lost") && has(said.out, "by its dull grade")) << said.out;
  const Said other = say("next " + well + " --shelf " + shelf + " --bit A-2");
  EXPECT_EQ(other.code, 3);
  EXPECT_TRUE(has(other.err, "did you mean \"A-1\"?")) << other.err;
}

TEST(Next, WordsThatMakeNoSense) {
  EXPECT_EQ(say("next").code, 2);
  EXPECT_EQ(say("next a.yaml --draws 1").code, 2);
  EXPECT_EQ(say("next a.yaml --shelf b.csv").code, 2);
  const Scratch scratch;
  EXPECT_EQ(say("next " + (scratch / "none.yaml").string()).code, 3);
}

}  // namespace
}  // namespace dullcast::commands
