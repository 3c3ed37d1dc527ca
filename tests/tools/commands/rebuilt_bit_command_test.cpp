// Bits that hold new, old, chipped and lost cutters, as the command line takes and tells them.

#include <gtest/gtest.h>

#include "tools/commands/program.hpp"

namespace dullcast::commands {
namespace {

using testing::has;
using testing::Said;
using testing::say;
using testing::Scratch;
using testing::small_well;

/// The small well's scenario with more said of its bit.
std::string with_bit(const std::string& keys) {
  std::string text = small_well;
  const std::string like = "{like: four_blade_7_7_8";
  return text.replace(text.find(like), like.size(), like + ", " + keys);
}

TEST(RebuiltBit, GoesOnFromAResultWithNewAndTurnedCutters) {
  const Scratch scratch;
  const std::string first = scratch.write("first.yaml", small_well),
                    second = scratch.write("second.yaml", with_bit("continues: first.h5")),
                    output = " -o " + (scratch / "second.h5").string(),
                    rebuild = " --set \"bit.rebuilt={new_cutters: [3, 7, 9], turned: [5]}\"";
  const Said early = say("check " + second + rebuild);
  EXPECT_EQ(early.code, 3);
  EXPECT_TRUE(has(early.out, "cannot be run yet, 1 to put right")) << early.out;
  ASSERT_EQ(say("run --central-only " + first + " -o " + (scratch / "first.h5").string()).code, 0);
  const Said as_left = say("run --central-only " + second + output);
  ASSERT_EQ(as_left.code, 0) << as_left.err;
  EXPECT_TRUE(has(as_left.out, "starts used: 18 cutters as the earlier result left them; most worn"))
      << as_left.out;
  const Said rebuilt =
      say("run --central-only --replace " + second + output + rebuild + " --set bit.starting_lost=[12]");
  ASSERT_EQ(rebuilt.code, 0) << rebuilt.err;
  EXPECT_TRUE(
      has(rebuilt.out,
          "starts used: 13 cutters as the earlier result left them, 3 new, 1 turned, 1 lost; most worn"))
      << rebuilt.out;
}

TEST(RebuiltBit, ACutterThatCannotBeKeptIsNamed) {
  const Scratch scratch;
  const std::string first = scratch.write("first.yaml", small_well),
                    second =
                        scratch.write("second.yaml",
                                      with_bit("continues: first.h5, cutter_kinds: {spare: {chamfer: none}}, "
                                               "fitted: [{cutters: [7], kind: spare}]"));
  ASSERT_EQ(say("run --central-only " + first + " -o " + (scratch / "first.h5").string()).code, 0);
  const Said kept = say("run --central-only " + second + " -o " + (scratch / "second.h5").string());
  EXPECT_EQ(kept.code, 3);
  EXPECT_TRUE(has(kept.err, "cutter 7 is of the kind usual there and spare in the scenario")) << kept.err;
  EXPECT_FALSE(has(kept.err, "makes it first")) << "the result is there: " << kept.err;
}

TEST(RebuiltBit, StartsAsTheBenchFoundIt) {
  const Scratch scratch;
  const std::string text = with_bit(
      "starting_wear: [0.4 mm, lost, 0.6 mm, new, chipped 0.9 mm, not measured, 0.7 mm, 0 mm, new, "
      "table gone 1 mm, new, new, new, new, new, new, new, new]");
  const Said said =
      say("run --central-only " + scratch.write("well.yaml", text) + " -o " + (scratch / "w.h5").string());
  EXPECT_EQ(said.code, 0) << said.err;
  EXPECT_TRUE(
      has(said.out,
          "starts used: 4 cutters worn, 11 new, 1 chipped, 1 without diamond, 1 lost; most worn 0.0394 "
          "in (1 mm)"))
      << said.out;
  EXPECT_TRUE(has(said.err, "was not measured on every cutter; taken from the nearest that were: cutter 6 ("))
      << said.err;
  const Said fresh = say("run --central-only " + scratch.write("new.yaml", small_well) + " -o " +
                         (scratch / "n.h5").string());
  EXPECT_FALSE(has(fresh.out, "starts used")) << fresh.out;
}

}  // namespace
}  // namespace dullcast::commands
