#include <gtest/gtest.h>

#include <filesystem>

#include "tools/commands/program.hpp"

namespace dullcast::commands {
namespace {

namespace fs = std::filesystem;
using testing::has;
using testing::Said;
using testing::say;
using testing::Scratch;
using testing::small_plan;
using testing::small_well;
using testing::word;

TEST(Check, EveryShippedFileCanBeUsedAndIsToldWhatItIs) {
  const fs::path folder = fs::path(DULLCAST_SOURCE_DIR) / "scenarios";
  int scenarios = 0, plans = 0, libraries = 0, seasons = 0, learned = 0;
  for (const fs::directory_entry& entry : fs::recursive_directory_iterator(folder)) {
    if (entry.path().extension() != ".yaml") continue;
    const std::string file = entry.path().string();
    const Said said = say("check " + word(file));
    scenarios += has(said.out, file + ": a scenario: ");
    plans += has(said.out, file + ": a plan of ");
    seasons += has(said.out, file + ": a shop's plan of ");
    learned += has(said.out, file + ": what 40 inspected bits told, for `learned:`: can be used");
    libraries += has(said.out, file + ": a file of the library: can be used");
    // One that goes on from a result waits for it.
    if (has(said.out, "cannot be run yet")) {
      EXPECT_EQ(said.code, 3) << file;
      EXPECT_TRUE(has(said.out, "is not there; run the scenario that makes it first")) << said.out;
    } else {
      EXPECT_EQ(said.code, 0) << said.out << said.err;
    }
  }
  EXPECT_GE(scenarios, 8);
  EXPECT_GE(plans, 2);
  EXPECT_EQ(libraries, 7);
  EXPECT_EQ(seasons, 1);
  EXPECT_EQ(learned, 1);
}

TEST(Check, TellsWhatIsWrongInAShopsPlanAndItsTables) {
  const Scratch scratch;
  scratch.write("well.yaml", small_well);
  scratch.write("bits.csv", "bit,design\nK-1,fore\n");
  const std::string plan = scratch.write(
      "season.yaml",
      "time_zone: America/Winnipeg\nfrom: 2031-11-03\nto: 2031-11-30\nshop:\n"
      "  shifts: monday 7:00 to 15:30\n  stations: [{name: braze, works_on: cutters, time: 1 h}]\n"
      "rigs: [{name: Heron, shifts: monday 07:00 to 17:00, travel: 2 h}]\n"
      "designs: [{name: four, bit: {like: four_blade_7_7_8}, lead_time: 30 d}]\nbits: bits.csv\n"
      "holes: [{hole: N-1, rig: Heron, begins: 2031-11-05, scenario: well.yaml, design: four}]\n");
  const Said said = say("check " + plan);
  EXPECT_EQ(said.code, 3);
  EXPECT_TRUE(has(said.out, plan + ": a shop's plan: cannot be run, 2 to put right")) << said.out;
  EXPECT_TRUE(has(said.out + said.err, "season.yaml:5:11: shop.shifts: \"monday 7:00 to 15:30\" is no shift"))
      << said.out << said.err;
  EXPECT_TRUE(
      has(said.out + said.err, "bits.csv:2:5: design: \"fore\" is no design of the plan; did you mean four?"))
      << said.out << said.err;
}

TEST(Check, TellsWhatIsWrongInWhatAShelfTold) {
  const Scratch scratch;
  const std::string file = scratch.write(
      "learned.yaml",
      "inspected_bits: 3\nmodels:\n  edge_radius: 30 lbf\nrocks:\n  no_such_rock: {no_such_number: 3}\n");
  const Said said = say("check " + word(file));
  EXPECT_EQ(said.code, 3);
  EXPECT_TRUE(has(said.out, "learned.yaml:3:")) << said.out;
  EXPECT_TRUE(has(said.out, "learned.yaml:5:")) << said.out;
  EXPECT_TRUE(has(said.out, "what inspected bits told: cannot be used, 2 to put right")) << said.out;
}

TEST(Check, ReadsResultsOfRunsAndSweeps) {
  const Scratch scratch;
  const std::string well = scratch.write("well.yaml", small_well),
                    plan = scratch.write("plan.yaml", small_plan);
  const std::string run = (scratch / "well.h5").string(), sweep = (scratch / "plan.h5").string();
  ASSERT_EQ(say("run --central-only " + well + " -o " + run).code, 0);
  ASSERT_EQ(say("sweep " + plan + " -o " + sweep).code, 0);
  const Said both = say("check " + run + " " + sweep);
  EXPECT_EQ(both.code, 0) << both.out;
  EXPECT_TRUE(has(both.out, "the result of a run, \"a small well\", format 1.")) << both.out;
  EXPECT_TRUE(has(both.out, "the result of a sweep, \"a small sweep\", 6 runs, 0 of them failed: whole"))
      << both.out;
  fs::resize_file(run, fs::file_size(run) / 2);
  const Said cut = say("check " + run);
  EXPECT_EQ(cut.code, 3);
  EXPECT_TRUE(has(cut.out, run + ": a result: cannot be used, 1 to put right")) << cut.out;
}

TEST(Check, LooksIntoWhatABitGoesOnFrom) {
  const Scratch scratch;
  const std::string well = scratch.write("well.yaml", small_well), run = (scratch / "well.h5").string();
  const std::string next = scratch.write(
      "next.yaml",
      std::string(small_well).replace(std::string(small_well).find("{like:"), 1, "{continues: well.h5, "));
  EXPECT_EQ(say("check " + next).code, 3);
  ASSERT_EQ(say("run --central-only " + well + " -o " + run).code, 0);
  EXPECT_EQ(say("check " + next).code, 0);
  const Said other = say("check " + next + " --set bit.like=five_blade_8_1_2");
  EXPECT_EQ(other.code, 3);
  EXPECT_TRUE(has(other.out, "bit.continues: ")) << other.out;
  scratch.write("well.h5", "not a result");
  EXPECT_EQ(say("check " + next).code, 3);
}

TEST(Check, LooksIntoTheInspectedBitsScenario) {
  const Scratch scratch;
  const std::string file = scratch.write(
      "later.yaml", std::string(small_well) +
                        "calibrate_from: {scenario: earlier.yaml, holes: 1, worn_height: [0.1 mm]}\n");
  const Said said = say("check " + file);
  EXPECT_EQ(said.code, 3);
  EXPECT_TRUE(has(said.out, "earlier.yaml")) << said.out;
}

TEST(Check, APlanOfImpossibleCasesIsNoGoodAndTheFirstIsShown) {
  const Scratch scratch;
  scratch.write("well.yaml", small_well);
  const std::string plan =
      scratch.write("plan.yaml",
                    "title: too much\nscenario: well.yaml\n"
                    "factors: [{name: bottom, path: column.layers.1.bottom, values: [12 m, 7 m, 6 m]}]\n"
                    "draws: {runs: 2, values: [{number: abrasion_coefficient}]}\n");
  const Said said = say("check " + plan);
  EXPECT_EQ(said.code, 3);
  EXPECT_TRUE(has(said.out, plan + ": case 3: ")) << said.out;
  EXPECT_TRUE(has(said.out, "and 1 more of 3 points make no scenario")) << said.out;
}

TEST(Check, AFileOfTheLibraryIsReadAmongItsNeighbours) {
  const Scratch scratch;
  const std::string text = testing::text_of(fs::path(DULLCAST_SOURCE_DIR) / "scenarios/library/fluids.yaml");
  const std::string good = scratch.write("fluids.yaml", text);
  EXPECT_EQ(say("check " + good).code, 0);
  scratch.write("fluids.yaml", text + "brine: {kind: liquid, density: 1 m}\n");
  const Said bad = say("check " + good);
  EXPECT_EQ(bad.code, 3);
  EXPECT_TRUE(has(bad.out, "brine.density")) << bad.out;
  EXPECT_TRUE(has(bad.out, "a file of the library: cannot be used")) << bad.out;
}

TEST(Check, BriefIsOneLineAFileAndTheFirstThingToPutRight) {
  const Scratch scratch;
  const std::string good = scratch.write("well.yaml", small_well);
  const std::string bad = scratch.write("bad.yaml", "title: x\n");
  const Said said = say("check --brief " + good + " " + bad);
  EXPECT_EQ(said.code, 3);
  EXPECT_EQ(std::count(said.out.begin(), said.out.end(), '\n'), 3) << said.out;
}

}  // namespace
}  // namespace dullcast::commands
