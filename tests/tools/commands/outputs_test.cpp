#include <gtest/gtest.h>

#include <filesystem>

#include "tools/commands/program.hpp"

// No command writes over what it reads, nor over what is there unless told to; and what could not be said or
// kept is no success.
namespace dullcast::commands {
namespace {

namespace fs = std::filesystem;
using testing::has;
using testing::Said;
using testing::say;
using testing::say_to;
using testing::Scratch;
using testing::small_plan;
using testing::small_well;
using testing::text_of;

/// A well, its result, a plan and its sweep, in a folder.
struct Shelf {
  Scratch scratch;
  std::string well = scratch.write("well.yaml", small_well), plan = scratch.write("plan.yaml", small_plan);
  std::string result = at("well.h5"), sweep = at("plan.h5");
  std::string at(const std::string& name) const { return (scratch / name).string(); }
};

TEST(Outputs, RunNeverWritesOverItsScenarioByWhateverName) {
  const Shelf shelf;
  fs::create_symlink("well.yaml", shelf.scratch / "soft.h5");
  fs::create_hard_link(shelf.well, shelf.scratch / "hard.h5");
  for (const std::string name : {"well.yaml", "soft.h5", "hard.h5"}) {
    const Said said = say("run " + shelf.well + " --central-only --replace -o " + shelf.at(name));
    EXPECT_EQ(said.code, 4) << name;
    EXPECT_TRUE(has(said.err, shelf.at(name) + ": this is what the command reads")) << said.err;
    EXPECT_EQ(said.out, "") << name;
  }
  EXPECT_EQ(text_of(shelf.well), small_well);
}

TEST(Outputs, AnEarlierResultGoesOnlyWhenAskedAndBeforeAnythingIsDrilled) {
  const Shelf shelf;
  const std::string words = "run " + shelf.well + " --central-only -o " + shelf.result;
  ASSERT_EQ(say(words).code, 0);
  const std::string before = text_of(shelf.result);
  const Said again = say(words + " --set repeat.holes=100000");  // would take minutes
  EXPECT_EQ(again.code, 4);
  EXPECT_TRUE(has(again.err, "there is a file of this name already; --replace writes over it")) << again.err;
  EXPECT_EQ(text_of(shelf.result), before);
  EXPECT_EQ(say(words + " --replace --set title=other").code, 0);
  EXPECT_NE(text_of(shelf.result), before);
}

TEST(Outputs, WhatAScenarioLeadsToIsAnInputToo) {
  const Shelf shelf;
  ASSERT_EQ(say("run " + shelf.well + " --central-only -o " + shelf.result).code, 0);
  const std::string before = text_of(shelf.result);
  const std::string next = shelf.scratch.write(
      "next.yaml",
      std::string(small_well).replace(std::string(small_well).find("{like:"), 1, "{continues: well.h5, "));
  const Said said = say("run " + next + " --central-only --replace -o " + shelf.result);
  EXPECT_EQ(said.code, 4);
  EXPECT_TRUE(has(said.err, "this is what the command reads")) << said.err;
  EXPECT_EQ(text_of(shelf.result), before);
  const std::string library = std::string(DULLCAST_SOURCE_DIR) + "/scenarios/library";
  EXPECT_TRUE(has(say("run " + shelf.well + " --library " + library + " -o " + library + "/x.h5").err,
                  "which the command reads"));
  EXPECT_FALSE(fs::exists(library + "/x.h5"));
}

TEST(Outputs, ACaseRunAgainNeverReplacesItsSweep) {
  const Shelf shelf;
  ASSERT_EQ(say("sweep " + shelf.plan + " -o " + shelf.sweep).code, 0);
  const std::string before = text_of(shelf.sweep);
  const Said said = say("run --from " + shelf.sweep + " --case 1 --central-only --replace -o " + shelf.sweep);
  EXPECT_EQ(said.code, 4);
  EXPECT_TRUE(has(said.err, "this is what the command reads")) << said.err;
  EXPECT_EQ(text_of(shelf.sweep), before);
}

TEST(Outputs, ASweepsTablesKeepOffItsFileAndItsPlan) {
  const Shelf shelf;
  const std::string words = "sweep " + shelf.plan + " -o " + shelf.sweep + " --replace --csv ";
  for (const std::string& csv : {shelf.sweep, shelf.plan, shelf.well}) {
    const Said said = say(words + csv);
    EXPECT_EQ(said.code, 4) << csv;
    EXPECT_TRUE(has(said.err, "this is what the command reads")) << said.err;
  }
  EXPECT_EQ(text_of(shelf.plan), small_plan);
  EXPECT_EQ(text_of(shelf.well), small_well);
  for (const std::string& output : {shelf.plan, shelf.well}) {
    EXPECT_EQ(say("sweep " + shelf.plan + " -o " + output).code, 4) << output;
  }
  EXPECT_EQ(text_of(shelf.plan), small_plan);
  const std::string taken = shelf.scratch.write("runs.csv", "mine");
  EXPECT_EQ(say("sweep " + shelf.plan + " -o " + shelf.sweep + " --csv " + taken).code, 4);
  EXPECT_EQ(text_of(taken), "mine");
  EXPECT_FALSE(fs::exists(shelf.sweep));  // told before the night, not after it
}

TEST(Outputs, FindingsTablesGoOverNothingUnasked) {
  const Shelf shelf;
  ASSERT_EQ(say("sweep " + shelf.plan + " -o " + shelf.sweep).code, 0);
  fs::create_directory(shelf.scratch / "tables");
  const std::string kept = shelf.scratch.write("kept.txt", "mine");
  fs::create_symlink("../kept.txt", shelf.scratch / "tables/lives.csv");
  const std::string words = "findings " + shelf.sweep + " --csv " + shelf.at("tables");
  EXPECT_EQ(say(words).code, 4);
  EXPECT_EQ(text_of(kept), "mine");
  fs::remove(shelf.scratch / "tables/lives.csv");
  EXPECT_EQ(say(words).code, 0);
  EXPECT_EQ(say(words).code, 4);
  EXPECT_EQ(say(words + " --replace").code, 0);
  EXPECT_EQ(say("findings " + shelf.sweep + " --csv " + kept).code, 4);
  EXPECT_EQ(text_of(kept), "mine");
}

TEST(Outputs, TablesOfDoubtsAndWindowsKeepTheRule) {
  const Shelf shelf;
  for (const std::string command :
       {"doubts --whole-life 0 ", "window --weights \"3000 lbf\" --speeds \"80 rpm\" "}) {
    const Said over_input = say(command + shelf.well + " --replace --csv " + shelf.well);
    EXPECT_EQ(over_input.code, 4) << over_input.err;
    EXPECT_EQ(text_of(shelf.well), small_well);
    const std::string taken = shelf.scratch.write("t.csv", "mine");
    EXPECT_EQ(say(command + shelf.well + " --csv " + taken).code, 4);
    EXPECT_EQ(text_of(taken), "mine");
    EXPECT_EQ(say(command + shelf.well + " --replace --csv " + taken).code, 0);
    EXPECT_NE(text_of(taken), "mine");
  }
}

TEST(Outputs, AFullOutputDeviceIsNoSuccess) {
  const Shelf shelf;
  ASSERT_EQ(say("sweep " + shelf.plan + " -o " + shelf.sweep).code, 0);
  for (const std::string& words :
       {std::string("--help"), std::string("--version"), std::string("run --help"), "check " + shelf.well,
        "run " + shelf.well + " --central-only -o " + shelf.result, "cooling " + shelf.well,
        "doubts --whole-life 0 " + shelf.well,
        "window --weights \"3000 lbf\" --speeds \"80 rpm\" " + shelf.well, "findings " + shelf.sweep,
        "sweep " + shelf.plan + " -o " + shelf.at("again.h5")}) {
    // The shell's own redirection comes last and wins.
    const Said said = say_to("sh", "-c '\"$0\" " + words + " >/dev/full' " + testing::word(DULLCAST_PROGRAM));
    EXPECT_EQ(said.code, 4) << words << "\n" << said.err;
    EXPECT_TRUE(has(said.err, "standard output took only a part")) << words << "\n" << said.err;
  }
}

TEST(Outputs, AForecastThatCannotBeKeptIsToldAllTheSame) {
  const Shelf shelf;
  // Files of half a kilobyte at most, as on a disk that fills on the way; what is said goes through a pipe.
  const Said said = say_to(
      "sh", "-c '{ trap \"\" XFSZ; ulimit -f 1; \"$0\" run " + shelf.well + " --central-only -o " +
                shelf.result + "; echo ended with $?; } 2>&1 | cat' " + testing::word(DULLCAST_PROGRAM));
  EXPECT_TRUE(has(said.out, "First hole, layer by layer")) << said.out;
  EXPECT_TRUE(has(said.out, shelf.result + ": cannot write the result")) << said.out;
  EXPECT_TRUE(has(said.out, "ended with 4")) << said.out;
  EXPECT_FALSE(has(said.out, "Written to"));
  EXPECT_FALSE(fs::exists(shelf.result));
}

}  // namespace
}  // namespace dullcast::commands
