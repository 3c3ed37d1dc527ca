#include <gtest/gtest.h>
#include <sys/resource.h>

#include <algorithm>
#include <csignal>
#include <cstdlib>
#include <sstream>

#include "support/sanitized.hpp"
#include "tools/commands/program.hpp"

namespace dullcast::commands {
namespace {

using testing::has;
using testing::Said;
using testing::say;
using testing::Scratch;
using testing::text_of;
using testing::word;

// Runs of some hundredths of a second. All of it is invented.
constexpr const char* small_field =
    "bit: {like: three_blade_3_3_4, grade: standard}\n"
    "fluid: water\n"
    "plan: [{weight_on_bit: 1500 lbf, rotary_speed: 90 rpm, flow: 25 gal/min}]\n"
    "column: {water_level: 5 m, layers: [{rock: limestone, bottom: 1 m}, {rock: sandstone, bottom: 2 m}]}\n"
    "rework: {worn_height: 2 mm}\n"
    "costs: {bit: 900 $, rig: 60 $/h}\n"
    "stepping: {relative_tolerance: 1e-2}\n";
constexpr const char* small_plan =
    "title: a small sweep\n"
    "scenario: field.yaml\n"
    "factors:\n"
    "  - {name: speed, path: plan.*.rotary_speed, values: [70 rpm, 90 rpm, 110 rpm]}\n"
    "  - {name: grade, path: bit.grade, values: [standard, premium]}\n"
    "draws: {runs: 5, values: [{number: abrasion_coefficient}]}\n"
    "histories: {cases: [3], rows: 5}\n";

/// A plan and its field in a folder of their own.
struct Night {
  Scratch scratch;
  std::string plan, output;
  explicit Night(const std::string& text = small_plan, const std::string& field = small_field) {
    scratch.write("field.yaml", field);
    plan = scratch.write("plan.yaml", text);
    output = (scratch / "sweep.h5").string();
  }
  Said sweep(const std::string& options = "") const {
    return say("sweep " + plan + " -o " + output + " " + options);
  }
};

TEST(SweepCommand, RunsEveryCaseAndSaysWhatItDid) {
  const Night night;
  const std::string csv = (night.scratch / "runs.csv").string();
  const Said said = night.sweep("--threads 2 --csv " + csv);
  ASSERT_EQ(said.code, 0) << said.err;
  for (const std::string words :
       {"30 of 30 runs done", "a second on 2 threads", "outside the engine", "Written to", "estimates"}) {
    EXPECT_TRUE(has(said.out, words)) << words << "\n" << said.out;
  }
  const std::string table = text_of(csv);
  EXPECT_EQ(std::count(table.begin(), table.end(), '\n'), 31);
  EXPECT_TRUE(has(table, "case,point,draw,speed [revolution/s],grade,abrasion_coefficient [m2/N],failed"))
      << table.substr(0, 200);
  EXPECT_TRUE(has(table, "premium"));
}

TEST(SweepCommand, GoesOnFromAnEarlierResultAndNeedsItNoMoreOnceBegun) {
  std::string used = small_field;
  const std::string bit = "grade: standard";
  used.replace(used.find(bit), bit.size(), bit + ", continues: first.h5, rebuilt: {new_cutters: [2]}");
  const Night night(small_plan, used);
  const Said too_early = night.sweep();
  EXPECT_EQ(too_early.code, 3);
  EXPECT_TRUE(has(too_early.err, "run the scenario that makes it first")) << too_early.err;
  const std::string first = (night.scratch / "first.h5").string(), one = (night.scratch / "one.h5").string();
  ASSERT_EQ(say("run --central-only " + night.scratch.write("first.yaml", small_field) + " -o " + first).code,
            0);
  const Said said = night.sweep();
  ASSERT_EQ(said.code, 0) << said.err;
  EXPECT_TRUE(has(said.out, "30 of 30 runs done")) << said.out;
  std::filesystem::remove(first);
  const Said again = say("run --central-only --from " + night.output + " --case 8 -o " + one);
  EXPECT_EQ(again.code, 0) << again.err;
  EXPECT_TRUE(has(again.out, "starts used")) << again.out;
  EXPECT_TRUE(has(again.out, " 1 new;")) << again.out;
}

TEST(SweepCommand, ADryRunCountsShowsAndEstimatesButWritesNothing) {
  const Night night;
  const Said said = night.sweep("--dry-run --show 2 --scenarios " + night.scratch.path().string());
  ASSERT_EQ(said.code, 0) << said.err;
  for (const std::string words :
       {"30 runs: 6 points of a design by grid, 5 draws at each", "case 1 (point 1, draw 1)", "speed: 70 rpm",
        "grade: standard", "A sample of", "Estimate:", "Nothing was written"}) {
    EXPECT_TRUE(has(said.out, words)) << words << "\n" << said.out;
  }
  EXPECT_FALSE(std::filesystem::exists(night.output));
  EXPECT_FALSE(std::filesystem::exists(night.output + ".parts"));
  const std::string scenario = (night.scratch / "case_2.yaml").string();
  EXPECT_EQ(say("check " + scenario).code, 0) << "the scenario it wrote can be run by itself";
}

TEST(SweepCommand, ACaseRunsAgainExactly) {
  const Night night;
  ASSERT_EQ(night.sweep("--csv " + (night.scratch / "runs.csv").string()).code, 0);
  const std::string again = (night.scratch / "again.h5").string();
  const Said said = say("run --from " + night.output + " --case 17 --central-only -o " + again);
  ASSERT_EQ(said.code, 0) << said.err;
  // The same energy to the last digit, as h5dump writes it and as the table has it.
  const std::string dump = (night.scratch / "dump").string();
  ASSERT_EQ(std::system(("h5dump -m %.17g -d /outcome/energy " + again + " >" + dump).c_str()), 0);
  std::istringstream lines(text_of(night.scratch / "runs.csv"));
  std::string line, heading;
  std::getline(lines, heading);
  for (int k = 0; k < 17; ++k) std::getline(lines, line);
  const auto place =
      std::count(heading.begin(), heading.begin() + static_cast<long>(heading.find("energy [J]")), ',');
  std::istringstream cells(line);
  std::string cell;
  for (long k = 0; k <= place; ++k) std::getline(cells, cell, ',');
  const std::string text = text_of(dump);
  const std::size_t at = text.find("(0): ");
  ASSERT_NE(at, text.npos) << text;
  EXPECT_EQ(std::stod(text.substr(at + 5)), std::stod(cell));
  EXPECT_EQ(say("run --from " + night.output + " --case 31").code, 3);
  EXPECT_EQ(say("run --from " + night.output).code, 2);
  EXPECT_EQ(say("run --from " + night.output + " --case 2 --set repeat.holes=2").code, 2);
}

TEST(SweepCommand, WrongWordsAndWrongPlansAreSentences) {
  EXPECT_EQ(say("sweep").code, 2);
  const Night night;
  EXPECT_EQ(night.sweep("--threads 0").code, 2);
  EXPECT_EQ(say("sweep nowhere.yaml").code, 3);
  const Night slip(
      "scenario: field.yaml\nfactors: [{name: speed, path: plan.*.rotary_sped, values: [70 rpm]}]\ndraws: "
      "{runs: 1}\n");
  const Said said = slip.sweep();
  EXPECT_EQ(said.code, 3) << said.out;
  EXPECT_TRUE(has(said.err, "rotary_sped")) << said.err;
  EXPECT_FALSE(std::filesystem::exists(slip.output + ".parts")) << "nothing begins that cannot be run";
}

TEST(SweepCommand, KilledItGoesOnToTheSameBytes) {
  const Night whole, killed;
  ASSERT_EQ(whole.sweep().code, 0);
  // Later each time, from before anything is begun until it is done in time.
  int kills = 0;
  for (double wait = 0.005; wait < 100.0; wait *= 1.25) {
    const std::string command = "timeout -s KILL " + std::to_string(wait) + " " + word(DULLCAST_PROGRAM) +
                                " sweep " + killed.plan + " -o " + killed.output +
                                " --resume --threads 1 --cases-per-part 1 >/dev/null 2>&1";
    const int status = std::system(("bash -c '" + command + "'").c_str());
    if (WIFEXITED(status) && WEXITSTATUS(status) == 0) break;
    ++kills;
  }
  EXPECT_GT(kills, 5);
  EXPECT_EQ(text_of(killed.output), text_of(whole.output)) << "after " << kills << " kills";
}

/// Runs under a launcher, when there is one.
Said with_ranks(int ranks, const std::string& words) {
  setenv("OMPI_ALLOW_RUN_AS_ROOT", "1", 1);
  setenv("OMPI_ALLOW_RUN_AS_ROOT_CONFIRM", "1", 1);
  setenv("OMPI_MCA_plm", "isolated", 1);  // all ranks on this machine: no remote shell is looked for
  // Open MPI gives back little of what it takes, from modules that are unloaded when leaks are looked for.
  const std::string started =
      (testing::sanitized ? "env ASAN_OPTIONS=detect_leaks=0 " : "") + word(DULLCAST_PROGRAM);
  return testing::say_to("mpirun",
                         "--oversubscribe -n " + std::to_string(ranks) + " " + started + " " + words);
}

TEST(SweepCommand, TwoAndFourRanksGiveTheSameBytes) {
  if (std::system("mpirun --version >/dev/null 2>&1") != 0) GTEST_SKIP() << "no mpirun here";
  const Night alone;
  ASSERT_EQ(alone.sweep().code, 0);
  for (const int ranks : {2, 4}) {
    const Night shared;
    const Said said = with_ranks(
        ranks, "sweep " + shared.plan + " -o " + shared.output + " --threads 1 --cases-per-part 2");
    ASSERT_EQ(said.code, 0) << said.err;
    EXPECT_TRUE(has(said.out, "30 of 30 runs done")) << said.out;
    EXPECT_TRUE(has(said.out, "on " + std::to_string(ranks) + " threads"))
        << "each rank has one: " << said.out;
    EXPECT_EQ(text_of(shared.output), text_of(alone.output)) << ranks << " ranks";
  }
}

TEST(SweepCommand, RanksAgreeOnARefusal) {
  if (std::system("mpirun --version >/dev/null 2>&1") != 0) GTEST_SKIP() << "no mpirun here";
  const Night night;
  ASSERT_EQ(night.sweep().code, 0);
  const Said said = with_ranks(2, "sweep " + night.plan + " -o " + night.output);
  EXPECT_NE(said.code, 0);
  const std::string words = "this file is there already";
  const std::size_t first = said.err.find(words);
  EXPECT_NE(first, said.err.npos) << said.err;
  EXPECT_EQ(said.err.find(words, first + 1), said.err.npos) << "said once, not by every rank";
}

}  // namespace
}  // namespace dullcast::commands
