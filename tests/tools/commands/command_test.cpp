#include <gtest/gtest.h>

#include <regex>

#include "tools/commands/program.hpp"

namespace dullcast::commands {
namespace {

using testing::has;
using testing::Said;
using testing::say;
using testing::Scratch;
using testing::shipped;
using testing::small_well;
using testing::text_of;
using testing::word;

TEST(Commands, HelpAndVersionOnTheProgramAndOnEachCommand) {
  for (const std::string command : {"", "run ", "check ", "cooling "}) {
    const Said help = say(command + "--help"), version = say(command + "--version");
    EXPECT_EQ(help.code, 0) << command;
    EXPECT_TRUE(has(help.out, "dullcast " + (command.empty() ? std::string("run") : command))) << help.out;
    EXPECT_EQ(help.err, "");
    EXPECT_EQ(version.code, 0) << command;
    EXPECT_TRUE(std::regex_match(
        version.out, std::regex("dullcast \\d+\\.\\d+\\.\\d+ \\(.+\\)\n(numbers one by one|[24] numbers "
                                "at once) on this machine; results are the same at any "
                                "width\n")))
        << version.out;
  }
}

TEST(Commands, NoWordsShowTheHelpAndAreWrong) {
  const Said said = say("");
  EXPECT_EQ(said.code, 2);
  EXPECT_TRUE(has(said.err, "dullcast check"));
}

TEST(Commands, AMisspeltCommandIsToldTheNearest) {
  const Said said = say("chekc x.yaml");
  EXPECT_EQ(said.code, 2);
  EXPECT_TRUE(has(said.err, "did you mean \"check\"?")) << said.err;
}

TEST(Commands, OptionsThatMakeNoSenseEndWithTwo) {
  for (const std::string words :
       {"run", "check", "run a.yaml b.yaml", "run --colour a.yaml", "run a.yaml --units yards",
        "run a.yaml --threads 0", "run a.yaml --threads many"}) {
    const Said said = say(words);
    EXPECT_EQ(said.code, 2) << words << "\n" << said.err;
    EXPECT_FALSE(said.err.empty()) << words;
  }
}

TEST(Check, TellsEveryErrorWithItsPlaceAndWritesNothing) {
  const Scratch scratch;
  const std::string file =
      scratch.write("broken.yaml",
                    "title: broken\n"
                    "bit: {like: four_blade_7_7_8}\n"
                    "fluid: {name: water}\n"
                    "plan:\n"
                    "  - {weight_on_bit: 6500, rotary_speed: 85 rpm, flow: -60 gal/min}\n"
                    "colum: {}\n");
  const Said said = say("check " + file);
  EXPECT_EQ(said.code, 3);
  EXPECT_TRUE(has(said.out, file + ":5:")) << said.out;
  EXPECT_TRUE(has(said.out, "plan.0.weight_on_bit")) << said.out;
  EXPECT_TRUE(has(said.out, "plan.0.flow")) << said.out;
  EXPECT_TRUE(has(said.out, file + ":6:1: colum")) << said.out;
  EXPECT_TRUE(has(said.out, "cannot be run")) << said.out;
  std::size_t files = 0;
  for ([[maybe_unused]] const auto& entry : std::filesystem::directory_iterator(scratch.path())) ++files;
  EXPECT_EQ(files, 1u);
}

TEST(Check, ResolvedTextCanBeCheckedAgain) {
  const Scratch scratch;
  const std::string file = scratch.write("well.yaml", small_well);
  const Said resolved = say("check --resolved " + file);
  ASSERT_EQ(resolved.code, 0) << resolved.out << resolved.err;
  const std::string again = scratch.write("again.yaml", resolved.out);
  EXPECT_EQ(say("check " + again).code, 0) << say("check " + again).out;
}

TEST(Run, WritesItsResultAndTellsTheForecast) {
  const Scratch scratch;
  const std::string file = scratch.write("well.yaml", small_well), output = (scratch / "well.h5").string();
  const Said said = say("run " + file + " -o " + output);
  ASSERT_EQ(said.code, 0) << said.err;
  EXPECT_TRUE(std::filesystem::exists(output));
  for (const std::string words :
       {"Estimates", "Uncalibrated", "low", "central", "high", "dull grade", "beyond repair", "allowance",
        "Hottest moment", "$/ft", "$/m", "energy", "licensed driller", "Written to"}) {
    EXPECT_TRUE(has(said.out, words)) << words << "\n" << said.out;
  }
}

TEST(Run, JudgesTheGroundAndTellsHowItSurvivesWithoutFlow) {
  const Scratch scratch;
  const std::string file = scratch.write("well.yaml",
                                         std::string(small_well) +
                                             "other_method: {name: air hammer, rate_of_penetration: "
                                             "12 m/h, power: 150 kW, consumables: 1.2 $/m, rig: "
                                             "95 $/h}\n"),
                    output = " -o " + (scratch / "well.h5").string();
  const Said said = say("run " + file + output);
  ASSERT_EQ(said.code, 0) << said.err;
  for (const std::string words :
       {"Does this ground suit this bit?", "The pump stops and nobody notices", "first to go", "120 s",
        "no licence to wait", "Damage and repair", "side force", "steel gone", "the shop then",
        "Beside it: air hammer", "MJ/m", "money, without fuel"}) {
    EXPECT_TRUE(has(said.out, words)) << words << "\n" << said.out;
  }
  // The central run alone is quick: no pump is stopped.
  const Said quick = say("run --central-only --replace " + file + output);
  ASSERT_EQ(quick.code, 0) << quick.err;
  EXPECT_TRUE(has(quick.out, "Does this ground suit this bit?")) << quick.out;
  EXPECT_FALSE(has(quick.out, "nobody notices")) << quick.out;
}

TEST(Run, GraniteIsNoGo) {
  const Scratch scratch;
  const Said said = say("run --central-only " + scratch.write("well.yaml", small_well) + " -o " +
                        (scratch / "w.h5").string() + " --set column.layers.1.rock=granite");
  ASSERT_EQ(said.code, 0) << said.err;
  const std::size_t table = said.out.find("Does this ground suit");
  ASSERT_NE(table, std::string::npos) << said.out;
  const std::string line = said.out.substr(said.out.find("\n  granite", table) + 1);
  const std::string verdict = line.substr(0, line.find('\n'));
  EXPECT_TRUE(has(verdict, "go with care") || has(verdict, "wrong bit")) << said.out;
}

TEST(Run, WhatIsDrawnSaysSo) {
  const Scratch scratch;
  const std::string words =
      "run --central-only " +
      scratch.write("well.yaml", std::string(small_well) + "chance: {draw: yes, seed: 7}\n") + " -o " +
      (scratch / "w.h5").string();
  const Said said = say(words);
  ASSERT_EQ(said.code, 0) << said.err;
  EXPECT_TRUE(has(said.out, "drawn by chance, seed 7")) << said.out;
}

TEST(Run, IsQuietWhenPiped) {
  const Scratch scratch;
  const std::string file = scratch.write("well.yaml", small_well);
  const Said said = say("run " + file + " --central-only -o " + (scratch / "well.h5").string());
  ASSERT_EQ(said.code, 0) << said.err;
  EXPECT_EQ(said.out.find_first_of("\r\033"), std::string::npos);
  EXPECT_EQ(said.err, "") << "what takes no two seconds tells no progress";
}

TEST(Run, TellsItsProgressInALogInPlainLines) {
  const Scratch scratch;
  const std::string file = scratch.write("well.yaml", small_well);
  const Said said =
      say("run " + file + " --central-only --set repeat.holes=900 --set stepping.warming=followed -o " +
          (scratch / "w.h5").string());
  ASSERT_EQ(said.code, 0) << said.err;
  EXPECT_TRUE(std::regex_match(said.err, std::regex("(Drilling: \\d+ %, about \\d+ (s|min) to go\n)+")))
      << said.err;
}

TEST(Run, AScenarioThatCannotBeUsedWritesNothing) {
  const Scratch scratch;
  const std::string file = scratch.write("well.yaml", small_well);
  const std::string output = (scratch / "well.h5").string();
  const Said bad_value = say("run " + file + " --set repeat.holes=-1 -o " + output);
  EXPECT_EQ(bad_value.code, 3);
  EXPECT_TRUE(has(bad_value.err, "repeat.holes")) << bad_value.err;
  const Said bad_path = say("run " + file + " --set bit.colour=red -o " + output);
  EXPECT_EQ(bad_path.code, 3);
  EXPECT_TRUE(has(bad_path.err, "colour")) << bad_path.err;
  EXPECT_EQ(say("run " + (scratch / "none.yaml").string() + " -o " + output).code, 3);
  EXPECT_FALSE(std::filesystem::exists(output));
}

TEST(Run, APlaceThatCannotBeWrittenIsToldBeforeDrilling) {
  const Scratch scratch;
  const std::string file = scratch.write("well.yaml", small_well);
  // A thousand holes would take long: the answer must come first.
  const Said said =
      say("run " + file + " --set repeat.holes=100000 -o " + (scratch / "no/such/place.h5").string());
  EXPECT_EQ(said.code, 4);
  EXPECT_TRUE(has(said.err, "there is no folder")) << said.err;
  EXPECT_EQ(said.out, "");
}

TEST(Run, SetChangesOneValue) {
  const Scratch scratch;
  const std::string file = scratch.write("well.yaml", small_well),
                    output = " -o " + (scratch / "w.h5").string();
  const Said as_given = say("run --central-only --replace " + file + output);
  const Said changed =
      say("run --central-only --replace " + file + output + " --set \"plan.0.weight_on_bit=5000 lbf\"");
  ASSERT_EQ(changed.code, 0) << changed.err;
  EXPECT_TRUE(has(as_given.out, "6500 lbf")) << as_given.out;
  EXPECT_TRUE(has(changed.out, "5000 lbf")) << changed.out;
}

TEST(Run, SpeaksFieldUnitsOrSiOrBoth) {
  const Scratch scratch;
  const std::string words = "run --central-only --replace " + scratch.write("well.yaml", small_well) +
                            " -o " + (scratch / "w.h5").string() + " --units ";
  const std::string field = say(words + "field").out, si = say(words + "si").out,
                    both = say(words + "both").out;
  EXPECT_TRUE(has(field, "lbf") && !has(field, " kN")) << field;
  EXPECT_TRUE(has(si, " kN") && !has(si, "lbf")) << si;
  EXPECT_TRUE(has(both, "lbf") && has(both, " kN")) << both;
}

TEST(Run, TheSameScenarioGivesTheSameBytes) {
  const Scratch scratch;
  const std::string file = scratch.write("well.yaml", small_well);
  ASSERT_EQ(say("run " + file + " --threads 1 -o " + (scratch / "one.h5").string()).code, 0);
  ASSERT_EQ(say("run " + file + " --threads 2 -o " + (scratch / "two.h5").string()).code, 0);
  EXPECT_TRUE(text_of(scratch / "one.h5") == text_of(scratch / "two.h5"));
}

TEST(Run, UnwiseInputWarnsAndRuns) {
  const Scratch scratch;
  const Said said = say("run --central-only " + scratch.write("well.yaml", small_well) + " -o " +
                        (scratch / "w.h5").string() +
                        " --set \"plan.0.flow=5 gal/min\" --set \"plan.0.weight_on_bit=9000 lbf\"");
  EXPECT_EQ(said.code, 0);
  EXPECT_TRUE(has(said.err, "plan.0.flow") && has(said.err, "plan.0.weight_on_bit")) << said.err;
}

TEST(Run, AUsedBitGoesOnFromAnEarlierResult) {
  const Scratch scratch;
  const std::string first = scratch.write("first.yaml", small_well);
  std::string text = small_well;
  text.replace(text.find("{like: four_blade_7_7_8}"), 24, "{like: four_blade_7_7_8, continues: first.h5}");
  const std::string second = scratch.write("second.yaml", text),
                    output = " -o " + (scratch / "second.h5").string();
  const Said too_early = say("run --central-only " + second + output);
  EXPECT_EQ(too_early.code, 3);
  EXPECT_TRUE(has(too_early.err, "run the scenario that makes it first")) << too_early.err;
  ASSERT_EQ(say("run --central-only " + first + " -o " + (scratch / "first.h5").string()).code, 0);
  const Said said = say("run --central-only " + second + output);
  EXPECT_EQ(said.code, 0) << said.err;
  EXPECT_TRUE(has(said.out, "starts used")) << said.out;
  // Another bit cannot go on from it.
  const Said other = say("run --central-only " + second + output + " --set bit.like=five_blade_8_1_2");
  EXPECT_NE(other.code, 0);
}

TEST(Run, AnInspectedBitCalibratesTheForecast) {
  const Scratch scratch;
  scratch.write("inspected.yaml", small_well);
  std::string readings;
  for (int i = 0; i < 18; ++i) readings += std::string(i > 0 ? ", " : "") + "0.1 mm";
  const std::string file = scratch.write(
      "well.yaml",
      std::string(small_well) +
          "calibrate_from: {scenario: inspected.yaml, measurement_error: 0.02 mm, worn_height: [" + readings +
          "]}\n");
  const Said said = say("run " + file + " -o " + (scratch / "w.h5").string());
  EXPECT_EQ(said.code, 0) << said.err;
  EXPECT_TRUE(has(said.out, "Learnt from 1 inspected bit")) << said.out;
  EXPECT_FALSE(has(said.out, "Uncalibrated")) << said.out;
}

TEST(Run, TellsItsProgressOnATerminal) {
  if (std::system("command -v script >/dev/null 2>&1") != 0)
    GTEST_SKIP() << "no script(1) to make a terminal";
  const Scratch scratch;
  const std::string file = scratch.write("well.yaml", small_well), seen = (scratch / "seen").string();
  const std::string command = "script -qec '" + word(DULLCAST_PROGRAM) + " run " + file +
                              " --central-only --set repeat.holes=250 --set stepping.warming=followed -o " +
                              (scratch / "w.h5").string() + "' " + seen + " >/dev/null 2>&1 </dev/null";
  ASSERT_EQ(std::system(command.c_str()), 0);
  EXPECT_TRUE(std::regex_search(text_of(seen), std::regex("Drilling: \\d+ %")))
      << text_of(seen).substr(0, 400);
}

}  // namespace
}  // namespace dullcast::commands
