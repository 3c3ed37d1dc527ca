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

/// the diamond is off six of the outer cutters. A-4: cracks by heat that no cause of one hole explains.
const char* four_bits =
    "bit,scenario,lot,holes,outer_grade,chipped,lost,heat_checked,cutters\n"
    "A-1,well.yaml,mixed,1,,,,,not measured; not measured; not measured; not measured; not measured; "
    "not measured; not measured; not measured; not measured; not measured; not measured; not measured; "
    "table gone; table gone; table gone; table gone; table gone; table gone\n"
    "A-2,well.yaml,poor,1,0,6,2,,\n"
    "A-3,well.yaml,sound,1,0,0,0,,\n"
    "A-4,well.yaml,sound,1,,,,18,\n";

struct Shelf {
  Scratch scratch;
  std::string file;
  Shelf() {
    scratch.write("well.yaml", small_well);
    file = scratch.write("shelf.csv", four_bits);
  }
};

TEST(Why, TellsCausesByTheirOddsAndWhatToLookFor) {
  const Shelf shelf;
  const Said said = say("why --draws 2 --bit A-1 " + shelf.file);
  ASSERT_EQ(said.code, 0) << said.err;
  for (const std::string words : {"Bit A-1", "likeliest", "most for it", "Causes, likeliest first",
                                  "plain use", "heat", "gravel", "overweight", "a poor lot", "poor cleaning",
                                  "What would have told the first two apart", "Estimates", "licensed"}) {
    EXPECT_TRUE(has(said.out, words)) << words << "\n" << said.out;
  }
  // Six tables off their carbide after one easy hole are not plain use: bonds fail by heat.
  EXPECT_TRUE(has(said.out, "likeliest        Heat")) << said.out;
  EXPECT_TRUE(has(said.out, "Tables off their carbide: they make heat")) << said.out;
}

TEST(Why, SaysSoWhereNoCauseExplainsWhatWasFound) {
  const Shelf shelf;
  const Said said = say("why --draws 2 --bit A-4 " + shelf.file);
  ASSERT_EQ(said.code, 0) << said.err;
  EXPECT_TRUE(has(said.out, "nothing found tells these causes apart")) << said.out;
}

TEST(Why, OddsAreTheUsersToChange) {
  const Shelf shelf;
  const Said said =
      say("why --draws 2 --bit A-1 --brief --odds plain=0 --odds gravel=0 --odds weight=0 "
          "--odds lot=0 --odds cleaning=0 " +
          shelf.file);
  ASSERT_EQ(said.code, 0) << said.err;
  EXPECT_TRUE(has(said.out, "likeliest        Heat, 100 %")) << said.out;
  EXPECT_EQ(say("why --bit A-1 --odds luck=3 " + shelf.file).code, 2);
  EXPECT_EQ(say("why --bit A-1 --odds heat=-1 " + shelf.file).code, 2);
  EXPECT_EQ(say("why --bit A-1 --odds heat " + shelf.file).code, 2);
}

TEST(Why, WithoutABitLotsAreCompared) {
  const Shelf shelf;
  const std::string csv = (shelf.scratch / "lots.csv").string();
  const Said said = say("why " + shelf.file + " --csv " + csv);
  ASSERT_EQ(said.code, 0) << said.err;
  EXPECT_TRUE(has(said.out, "poor is worse than sound with a chance of over 99 %")) << said.out;
  EXPECT_TRUE(has(text_of(csv), "\npoor,1,6,")) << text_of(csv);
  EXPECT_EQ(say("why " + shelf.file + " --csv " + csv).code, 4);
}

TEST(Why, WordsThatMakeNoSense) {
  EXPECT_EQ(say("why").code, 2);
  const Shelf shelf;
  EXPECT_EQ(say("why " + shelf.file + " --draws 1").code, 2);
  EXPECT_EQ(say("why " + shelf.file + " --bit A-9").code, 3);
}

}  // namespace
}  // namespace dullcast::commands
