#include <gtest/gtest.h>

#include <filesystem>

#include "support/sanitized.hpp"
#include "tools/commands/program.hpp"

/// Nights on a machine that gives less than is asked for, or is disturbed. All numbers are invented.
namespace dullcast::commands {
namespace {

using testing::has;
using testing::Said;
using testing::say;
using testing::say_to;
using testing::Scratch;
using testing::shipped;
using testing::text_of;
using testing::word;

constexpr const char* shallow_field =
    "bit: {like: three_blade_3_3_4, grade: standard}\n"
    "fluid: water\n"
    "plan: [{weight_on_bit: 1500 lbf, rotary_speed: 90 rpm, flow: 25 gal/min}]\n"
    "column: {water_level: 1 m, layers: [{rock: limestone, bottom: 1 m}, {rock: sandstone, bottom: 2 m}]}\n"
    "rework: {worn_height: 2 mm}\n"
    "costs: {bit: 900 $, rig: 60 $/h}\n"
    "stepping: {relative_tolerance: 1e-2}\n";

std::string plan_of(const std::string& grades, int draws) {
  return "title: a disturbed night\n"
         "scenario: field.yaml\n"
         "factors:\n"
         "  - {name: speed, path: plan.*.rotary_speed, values: [70 rpm, 90 rpm, 110 rpm]}\n"
         "  - {name: grade, path: bit.grade, values: [" +
         grades + "]}\ndraws: {runs: " + std::to_string(draws) +
         ", values: [{number: abrasion_coefficient}]}\n";
}

/// A plan with its field and output in a folder of their own.
struct DisturbedNight {
  Scratch scratch;
  std::string plan, output;
  explicit DisturbedNight(int draws = 5, const std::string& grades = "standard, premium",
                          const std::string& field = shallow_field) {
    scratch.write("field.yaml", field);
    plan = scratch.write("plan.yaml", plan_of(grades, draws));
    output = (scratch / "sweep.h5").string();
  }
  std::string words(const std::string& options = "") const {
    return "sweep " + plan + " -o " + output + " " + options;
  }
  std::string parts() const { return output + ".parts"; }
  bool began() const { return std::filesystem::exists(parts()); }
  /// For a shell that started the sweep: until it is at work, however slow the machine is.
  std::string wait_for_parts() const {
    return "for _ in {1..2000}; do compgen -G \"" + parts() +
           "/*/part_*\" >/dev/null && break; sleep 0.05; done; ";
  }
};

/// The program with `words` after the shell has done `before`.
Said say_after(const std::string& before, const std::string& words) {
  return say_to("bash", "-c '" + before + "; exec " + word(DULLCAST_PROGRAM) + " " + words + "'");
}

/// The bytes of a night of five draws that nobody disturbed.
const std::string& undisturbed() {
  static const std::string bytes = [] {
    const DisturbedNight night;
    EXPECT_EQ(say(night.words("--threads 2")).code, 0);
    return text_of(night.output);
  }();
  return bytes;
}

TEST(SweepLimits, MemoryThatRunsOutEndsTheNightAndIsNoCasesFault) {
  if (testing::sanitized) GTEST_SKIP() << "the sanitizers need more addresses than any bound";
  ASSERT_FALSE(undisturbed().empty());
  int ended = 0, finished = 0;
  // From what the program can only just be loaded with to what is plenty, in kilobytes.
  for (int limit = 32'000; limit <= 116'000; limit += 4'000) {
    const DisturbedNight night;
    const std::string little = "ulimit -v " + std::to_string(limit);
    if (say_after(little, "--version").code != 0) continue;  // not even loaded
    const Said said = say_after(little, night.words("--threads 2 --cases-per-part 2"));
    if (said.code == 0) {
      ++finished;
      EXPECT_EQ(text_of(night.output), undisturbed()) << limit << " kB";
      continue;
    }
    ++ended;
    EXPECT_EQ(said.code, 4) << limit << " kB: " << said.err;
    EXPECT_TRUE(has(said.err, "memory") || has(said.err, "threads")) << limit << " kB: " << said.err;
    EXPECT_FALSE(has(said.err, "bad_alloc")) << said.err;
    const Said after = say(night.words("--threads 2 --resume"));
    EXPECT_EQ(after.code, 0) << limit << " kB: " << after.err;
    EXPECT_EQ(text_of(night.output), undisturbed()) << limit << " kB";
  }
  EXPECT_GT(ended, 0);
  EXPECT_GT(finished, 0);
}

TEST(SweepLimits, MoreThreadsThanAnyMachineHasUseForAreRefused) {
  const DisturbedNight night;
  const std::string well = shipped("one_shallow_well.yaml");
  for (const std::string& words : {"run " + well + " -o " + (night.scratch / "w.h5").string(),
                                   "cooling " + well, "doubts " + well, "window " + well, night.words()}) {
    const Said said = say(words + " --threads 20000");
    EXPECT_EQ(said.code, 2) << words << said.err;
    EXPECT_TRUE(has(said.err, "--threads is at most")) << said.err;
  }
  EXPECT_FALSE(night.began());
}

TEST(SweepLimits, ThreadsThatCannotBeStartedAreASentenceOrDoneWithout) {
  if (testing::sanitized) GTEST_SKIP() << "the sanitizers need more addresses than any bound";
  // Addresses for some tens of threads' stacks, not for hundreds.
  const std::string few = "ulimit -s 8192; ulimit -v 500000";
  const DisturbedNight night(40);
  const Said said = say_after(few, night.words("--threads 200 --cases-per-part 1"));
  EXPECT_EQ(said.code, 4) << said.err;
  EXPECT_TRUE(has(said.err, "threads could be started") && has(said.err, "--threads")) << said.err;
  const Said alone = say("cooling " + shipped("one_shallow_well.yaml") + " --threads 1");
  const Said crowd = say_after(few, "cooling " + shipped("one_shallow_well.yaml") + " --threads 1000");
  EXPECT_EQ(crowd.code, 0) << crowd.err;
  EXPECT_EQ(crowd.out, alone.out);
}

TEST(SweepLimits, ALimitOnTheSizeOfFilesIsASentence) {
  const DisturbedNight night;
  const std::string result = (night.scratch / "well.h5").string();
  for (const std::string& words :
       {night.words(), "run " + shipped("one_shallow_well.yaml") + " --central-only -o " + result}) {
    const Said said = say_after("ulimit -f 1", words);
    EXPECT_EQ(said.code, 4) << words << said.err;
    EXPECT_TRUE(has(said.err, "larger than this system allows")) << said.err;
  }
  EXPECT_FALSE(std::filesystem::exists(result));
  EXPECT_EQ(say(night.words("--resume")).code, 0);
  EXPECT_EQ(text_of(night.output), undisturbed());
}

TEST(SweepLimits, WithoutTheDatabaseOfUnitsNothingBegins) {
  const DisturbedNight night;
  for (const std::string place : {"", "/nowhere/units.xml", "/dev/null", "/tmp"}) {
    for (const std::string& words : {night.words(), "check " + shipped("one_shallow_well.yaml")}) {
      const Said said = say_after("export UDUNITS2_XML_PATH=" + place, words);
      EXPECT_EQ(said.code, 4) << place;
      EXPECT_TRUE(has(said.err, "UDUNITS2_XML_PATH") && has(said.err, "\"" + place + "\"")) << said.err;
    }
  }
  EXPECT_FALSE(night.began());
}

TEST(SweepLimits, PartsThatCouldNotBeGoneOnWithAreRefusedBeforehand) {
  const DisturbedNight night;
  Said said = say(night.words("--cases-per-part 2000000"));
  EXPECT_EQ(said.code, 2) << said.err;
  EXPECT_TRUE(has(said.err, "at most 1000000")) << said.err;
  // Six points of 10^8 draws each: thousands of millions of bytes by the hundred.
  const DisturbedNight endless(100'000'000);
  said = say(endless.words());
  EXPECT_EQ(said.code, 4) << said.err;
  EXPECT_TRUE(has(said.err, "this disk has")) << said.err;
  EXPECT_FALSE(night.began() || endless.began());
}

TEST(SweepLimits, PartsTakenAwayOnTheWayAreNoticedAndNotCalledKept) {
  const DisturbedNight night(3000);  // many seconds, were it left alone
  // At once, as removing file by file is not.
  const Said said =
      say_to("bash", "-c '(" + night.wait_for_parts() + "mv " + night.parts() + " " + night.parts() +
                         ".away) & exec " + word(DULLCAST_PROGRAM) + " " + night.words("--threads 2") + "'");
  EXPECT_EQ(said.code, 4) << said.err;
  EXPECT_TRUE(has(said.err, "was removed")) << said.err;
  EXPECT_FALSE(has(said.err + said.out, "are kept in")) << said.err;
  EXPECT_FALSE(std::filesystem::exists(night.parts() + "/began.yaml"));
}

TEST(SweepLimits, AnySignalToStopKeepsWhatIsDone) {
  for (const std::string signal : {"INT", "TERM", "HUP"}) {
    const DisturbedNight night(3000);  // many seconds, were it left alone
    const Said said =
        say_to("bash", "-c '" + word(DULLCAST_PROGRAM) + " " + night.words("--threads 1") + " & " +
                           night.wait_for_parts() + "kill -" + signal + " $!; wait $!'");
    EXPECT_EQ(said.code, 4) << signal << said.err;
    EXPECT_TRUE(has(said.out, "Stopped before the end")) << signal << said.out;
    EXPECT_TRUE(std::filesystem::exists(night.parts() + "/began.yaml"));
  }
}

TEST(SweepLimits, NobodyWhoListensStopsNoNight) {
  // A standing level below the bottom is warned of before the night begins.
  std::string dry = shallow_field;
  dry.replace(dry.find("water_level: 1 m"), 16, "water_level: 5 m");
  const DisturbedNight heard(5, "standard, premium", dry), unheard(5, "standard, premium", dry);
  ASSERT_TRUE(has(say(heard.words("--threads 2")).err, "[unwise]"));
  // Both outputs are closed at the other end before anything is said.
  say_to("bash", "-c '{ sleep 0.5; exec " + word(DULLCAST_PROGRAM) + " " + unheard.words("--threads 2") +
                     "; } 2>&1 | true'");
  EXPECT_FALSE(text_of(heard.output).empty());
  EXPECT_EQ(text_of(unheard.output), text_of(heard.output));
}

TEST(SweepLimits, TheSecondOfTwoOnOneSweepIsTurnedAwayAndDisturbsNothing) {
  const DisturbedNight night(3000);
  const Said second = say_to(
      "bash", "-c '" + word(DULLCAST_PROGRAM) + " " + night.words("--threads 1") + " >/dev/null 2>&1 & " +
                  night.wait_for_parts() + word(DULLCAST_PROGRAM) + " " + night.words("--resume") +
                  "; code=$?; kill -TERM $!; wait $!; test $? = 4 && exit $code; exit 99'");
  EXPECT_EQ(second.code, 4) << second.err;
  EXPECT_TRUE(has(second.err, "another dullcast is working on this sweep")) << second.err;
}

TEST(SweepLimits, ADryRunWithCasesThatCannotRunSaysWhichAndEndsSo) {
  const DisturbedNight night(5, "standard, glass");
  Said said = say(night.words("--dry-run --show 2"));
  EXPECT_EQ(said.code, 3) << said.out;
  // Five draws of standard come before the first of glass; half of the thirty are of it.
  EXPECT_TRUE(has(said.err, "15 of the cases tried cannot be run; the first is case 6: ")) << said.err;
  EXPECT_TRUE(has(said.err, "glass")) << said.err;
  EXPECT_TRUE(has(said.out, "Estimate:")) << said.out;
  const DisturbedNight at_once(5, "glass, standard");
  said = say(at_once.words("--dry-run --show 2"));
  EXPECT_EQ(said.code, 3) << said.out;
  EXPECT_TRUE(has(said.err, "the first is case 1: ")) << said.err;
  EXPECT_TRUE(has(said.out, "case 2 (point 1, draw 2)")) << "the others are shown all the same: " << said.out;
}

TEST(SweepLimits, ADryRunSpeaksTheUnitsAskedFor) {
  const DisturbedNight night(5, "standard, premium",
                             std::string(shallow_field) + "pump: {pressure_limit: 10 bar}\n");
  night.scratch.write("plan.yaml",
                      "scenario: field.yaml\n"
                      "factors: [{name: limit, path: pump.pressure_limit, values: [10 bar, 20 bar]}]\n");
  EXPECT_TRUE(has(say(night.words("--dry-run")).out, "limit: 145 psi\n"));
  EXPECT_TRUE(has(say(night.words("--dry-run --units si")).out, "limit: 1 MPa\n"));
  EXPECT_TRUE(has(say(night.words("--dry-run --units both")).out, "limit: 145 psi (1 MPa)\n"));
  EXPECT_EQ(say(night.words("--dry-run --units miles")).code, 2);
}

}  // namespace
}  // namespace dullcast::commands
