#include <gtest/gtest.h>

#include <algorithm>

#include "engine/storage/sample_shop.hpp"
#include "engine/storage/shop_file.hpp"
#include "tools/commands/program.hpp"

namespace dullcast::commands {
namespace {

using testing::has;
using testing::Said;
using testing::say;
using testing::Scratch;
using testing::shipped;
using testing::small_well;

/// What a run prints but for its last line, "Written to ...".
std::string forecast_part(const std::string& said) {
  return said.substr(0, said.rfind("\nWritten to "));
}

TEST(Show, TellsAShopsOutlookAndWritesItsTables) {
  const Scratch scratch;
  const std::string shop = (scratch / "shop.h5").string(), csv = (scratch / "shop.csv").string();
  storage::write_shop(shop, storage::sample::shop());
  const Said said = say("show " + shop + " --csv " + csv);
  ASSERT_EQ(said.code, 0) << said.err;
  EXPECT_TRUE(has(said.out, "2031-03-03 to 2031-08-31, 200 futures")) << said.out;
  EXPECT_TRUE(has(said.out, "one more?        One more bit (four blades) saves ")) << said.out;
  EXPECT_TRUE(has(said.out, "call in early    LM-104 after Lower Meadow 22, about 2031-04-27: ")) << said.out;
  for (const char* table : {"shop_weeks.csv", "shop_bits.csv", "shop_holes.csv", "shop_changes.csv"})
    EXPECT_FALSE(testing::text_of(scratch / table).empty()) << table;
  EXPECT_FALSE(std::filesystem::exists(csv));
  // A table that is there is not written over.
  EXPECT_EQ(say("show " + shop + " --csv " + csv).code, 4);
  const Said checked = say("check " + shop);
  EXPECT_EQ(checked.code, 0);
  EXPECT_TRUE(has(checked.out,
                  ": a shop's outlook, \"A shop in Lower Meadow, spring and summer\", 200 futures, "
                  "12 bits, 80 holes: whole"))
      << checked.out;
}

TEST(Show, TellsAnyForecastAgainWordForWord) {
  const Scratch scratch;
  const std::string plain = scratch.write("well.yaml", small_well);
  const std::string used = plain +
                           " --set bit.starting_wear='1 mm' --set bit.starting_chipped=[4] "
                           "--set bit.starting_lost=[2] --set bit.starting_table_gone=[6]";
  // A band from numbers, one from draws of chance, one that an inspected bit narrows, and none.
  const std::string drawn = plain + " --set chance=drawn --set repeat.holes=5";
  std::string heights = "0.02 mm";
  for (int cutter = 2; cutter <= 18; ++cutter) heights += cutter < 16 ? ", 0.02 mm" : ", 0.03 mm";
  const std::string calibrated = scratch.write(
      "later.yaml", std::string(small_well) +
                        "calibrate_from: {scenario: well.yaml, holes: 1, measurement_error: 0.01 mm, "
                        "worn_height: [" +
                        heights + "]}\n");
  for (const std::string& words :
       {plain + " --set repeat.holes=30", drawn, calibrated, used, plain + " --central-only"}) {
    for (const std::string units : {"field", "both"}) {
      const std::string file = (scratch / "r.h5").string();
      const Said ran = say("run " + words + " --replace --units " + units + " -o " + file);
      ASSERT_EQ(ran.code, 0) << words << "\n" << ran.err;
      const Said shown = say("show " + file + " --units " + units);
      ASSERT_EQ(shown.code, 0) << shown.err;
      EXPECT_EQ(shown.out, forecast_part(ran.out)) << words;
    }
  }
}

TEST(Show, BriefIsThatOfTheRun) {
  const Scratch scratch;
  const std::string file = (scratch / "p.h5").string();
  const Said ran = say("run --brief " + shipped("pump_lost.yaml") + " --central-only -o " + file);
  const Said shown = say("show --brief " + file);
  EXPECT_EQ(shown.out + "Written to " + file + "\n", ran.out);
}

TEST(Show, WhatIsNoResultIsTold) {
  const Scratch scratch;
  EXPECT_EQ(say("show").code, 2);
  EXPECT_EQ(say("show " + (scratch / "none.h5").string()).code, 4);
  const Said yaml = say("show " + scratch.write("well.yaml", small_well));
  EXPECT_EQ(yaml.code, 4);
  EXPECT_TRUE(has(yaml.err, "not a dullcast run")) << yaml.err;
}

}  // namespace
}  // namespace dullcast::commands
