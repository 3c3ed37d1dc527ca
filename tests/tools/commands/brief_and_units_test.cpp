#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <sstream>

#include "tools/commands/program.hpp"

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
using testing::word;

TEST(Brief, ARunInTenLinesAtMostWithAllThatAShopAsksFirst) {
  const Scratch scratch;
  const std::string file = scratch.write("well.yaml", small_well);
  const Said said =
      say("run --brief " + file + " --set repeat.holes=40 --set \"rework.worn_height=0.1 mm\" -o " +
          (scratch / "w.h5").string());
  ASSERT_EQ(said.code, 0) << said.err;
  EXPECT_LE(std::count(said.out.begin(), said.out.end(), '\n'), 10) << said.out;
  for (const std::string words : {"rework due", "by the rule", "band ", "hottest", "this ground",
                                  "first to do", "inspect", "Estimates", "Written to"})
    EXPECT_TRUE(has(said.out, words)) << words << "\n" << said.out;
  EXPECT_TRUE(has(said.out, "uncalibrated")) << said.out;
}

TEST(Brief, ALostPumpIsAnsweredByLiftingOff) {
  const Scratch scratch;
  const Said said = say("run --brief --central-only " + testing::shipped("pump_lost.yaml") + " -o " +
                        (scratch / "p.h5").string());
  EXPECT_TRUE(has(said.out, "lift off bottom at once when the flow fails")) << said.out;
}

TEST(Brief, EveryCommandThatTellsMuchHasOne) {
  const Scratch scratch;
  const std::string well = scratch.write("well.yaml", small_well);
  const std::string plan = scratch.write("plan.yaml", small_plan);
  const std::string sweep = (scratch / "plan.h5").string();
  ASSERT_EQ(say("sweep " + plan + " -o " + sweep).code, 0);
  for (const std::string& words :
       {"doubts --whole-life 1 " + well, "window --weights \"3000 lbf\" --speeds \"80 rpm\" " + well,
        "cooling " + well, "findings " + sweep, "check " + well + " " + plan + " " + sweep}) {
    const Said brief = say(words + " --brief"), whole = say(words);
    EXPECT_EQ(brief.code, whole.code) << words << "\n" << brief.err;
    const auto lines = std::count(brief.out.begin(), brief.out.end(), '\n');
    EXPECT_GE(lines, 3) << words;
    EXPECT_LE(lines, 14) << words << "\n" << brief.out;
    EXPECT_LE(brief.out.size(), whole.out.size()) << words;
    EXPECT_TRUE(words.rfind("check", 0) == 0 || has(brief.out, "stimate")) << words << "\n" << brief.out;
  }
}

TEST(Run, ItsTableHasEveryPassage) {
  const Scratch scratch;
  const std::string csv = (scratch / "w.csv").string();
  ASSERT_EQ(say("run --central-only " + scratch.write("well.yaml", small_well) + " --set repeat.holes=3 -o " +
                (scratch / "w.h5").string() + " --csv " + csv)
                .code,
            0);
  std::istringstream lines(text_of(csv));
  std::string heading, line;
  std::getline(lines, heading);
  EXPECT_TRUE(has(heading, "hole,layer,rock,top_m,bottom_m"));
  int passages = 0;
  while (std::getline(lines, line)) {
    ++passages;
    EXPECT_EQ(std::count(line.begin(), line.end(), ','), std::count(heading.begin(), heading.end(), ','))
        << line;
  }
  EXPECT_EQ(passages, 6);
}

TEST(UsualUnits, ComeFromTheUsersOwnSettingAndTheOptionWins) {
  const Scratch scratch;
  const std::string file = scratch.write("well.yaml", small_well);
  fs::create_directories(scratch / "home/.config/dullcast");
  fs::create_directories(scratch / "settings/dullcast");
  scratch.write("home/.config/dullcast/units", "si\n");
  scratch.write("settings/dullcast/units", "both\n");
  const auto run = [&](const std::string& environment, const std::string& options) {
    return say_to("env", "-u XDG_CONFIG_HOME -u DULLCAST_UNITS HOME=" + (scratch / "home").string() + " " +
                             environment + " " + word(DULLCAST_PROGRAM) + " run --central-only --replace " +
                             file + " -o " + (scratch / "w.h5").string() + " " + options);
  };
  const std::string home = run("", "").out;
  EXPECT_TRUE(has(home, " kN") && !has(home, "lbf")) << home;
  const std::string settings = run("XDG_CONFIG_HOME=" + (scratch / "settings").string(), "").out;
  EXPECT_TRUE(has(settings, " kN") && has(settings, "lbf")) << settings;
  const std::string variable = run("DULLCAST_UNITS=field", "").out;
  EXPECT_TRUE(has(variable, "lbf") && !has(variable, " kN")) << variable;
  const std::string option = run("DULLCAST_UNITS=field", "--units si").out;
  EXPECT_TRUE(has(option, " kN") && !has(option, "lbf")) << option;
  const Said bad = run("DULLCAST_UNITS=yards", "");
  EXPECT_EQ(bad.code, 2);
  EXPECT_TRUE(has(bad.err, "DULLCAST_UNITS is field, si or both, not \"yards\"")) << bad.err;
}

TEST(Help, HasAWordOfItsOwn) {
  EXPECT_EQ(say("help").out, say("--help").out);
  EXPECT_EQ(say("help window").out, say("window --help").out);
  const Said wrong = say("help windw");
  EXPECT_EQ(wrong.code, 2);
  EXPECT_TRUE(has(wrong.err, "did you mean \"window\"?")) << wrong.err;
}

}  // namespace
}  // namespace dullcast::commands
