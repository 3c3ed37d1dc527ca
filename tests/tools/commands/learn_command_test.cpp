#include <gtest/gtest.h>

#include <algorithm>

#include "tools/commands/program.hpp"

// What a shelf tells, as the program prints and keeps it.
namespace dullcast::commands {
namespace {

using testing::has;
using testing::Said;
using testing::say;
using testing::Scratch;
using testing::small_well;
using testing::text_of;

constexpr const char* small_shelf =
    "bit,inspected,scenario,holes,outer_grade,cutter 16,cutter 17,cutter 18\n"
    "K-1,2031-04-17,well.yaml,1,0,0.03 mm,0.04 mm,0.04 mm\n"
    "K-2,2031-04-18,well.yaml,2,0,0.06 mm,0.08 mm,0.07 mm\n";

TEST(LearnCommand, TellsKeepsAndShowsWhatItChanges) {
  const Scratch scratch;
  const std::string well = scratch.write("well.yaml", small_well);
  const std::string shelf = scratch.write("shelf.csv", small_shelf),
                    kept = (scratch / "learned.yaml").string(), csv = (scratch / "fit.csv").string();
  const Said said = say("learn " + shelf + " -o " + kept + " --csv " + csv + " --for " + well);
  ASSERT_EQ(said.code, 0) << said.err;
  EXPECT_TRUE(has(said.out, "What 2 inspected bits of ")) << said.out;
  EXPECT_TRUE(has(said.out, "abrasion coefficient")) << said.out;
  EXPECT_TRUE(has(said.out, "What these records cannot tell")) << said.out;
  EXPECT_TRUE(has(said.out, "When rework falls due on ")) << said.out;
  EXPECT_TRUE(has(said.out, "Estimates")) << said.out;
  EXPECT_TRUE(has(text_of(csv), "K-2,2031-04-18,")) << text_of(csv);
  EXPECT_TRUE(has(text_of(kept), "inspected_bits: 2\n")) << text_of(kept);

  // A forecast that rests on it says so, and its result tells it again without the file.
  const std::string result = (scratch / "well.h5").string();
  const Said run = say("run " + well + " --set learned=learned.yaml -o " + result);
  ASSERT_EQ(run.code, 0) << run.err;
  EXPECT_TRUE(has(run.out, "Learnt from 2 inspected bits: abrasion coefficient times ")) << run.out;
  EXPECT_FALSE(has(run.out, "ncalibrated")) << run.out;
  const Said shown = say("show " + result);
  EXPECT_TRUE(has(shown.out, "Learnt from 2 inspected bits: abrasion coefficient times ")) << shown.out;

  // Nothing is written over unasked, and not what is read at all.
  EXPECT_NE(say("learn " + shelf + " -o " + kept).code, 0);
  EXPECT_NE(say("learn " + shelf + " --replace -o " + well).code, 0);
  EXPECT_EQ(text_of(well), small_well);
}

TEST(LearnCommand, BriefIsTenLinesAtMost) {
  const Scratch scratch;
  scratch.write("well.yaml", small_well);
  const Said said = say("learn --brief " + scratch.write("shelf.csv", small_shelf));
  ASSERT_EQ(said.code, 0) << said.err;
  EXPECT_LE(std::count(said.out.begin(), said.out.end(), '\n'), 10) << said.out;
}

TEST(LearnCommand, SaysWhatIsWrongWithAShelf) {
  const Scratch scratch;
  scratch.write("well.yaml", small_well);
  const Said empty = say("learn " + scratch.write("empty.csv", "bit,scenario,holes\nK-1,well.yaml,1\n"));
  EXPECT_EQ(empty.code, 3) << empty.err;
  EXPECT_TRUE(has(empty.err, "holds no finding to learn from")) << empty.err;
  EXPECT_EQ(say("learn").code, 2);
  EXPECT_EQ(say("learn " + (scratch / "nowhere.csv").string()).code, 3);
}

}  // namespace
}  // namespace dullcast::commands
