#include "engine/sweep/sweep_execution.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <fstream>
#include <iterator>

#include "engine/analysis/economics.hpp"
#include "engine/base/file_error.hpp"
#include "engine/base/whole_file.hpp"
#include "engine/simulation/run.hpp"
#include "engine/storage/sweep_part_file.hpp"
#include "engine/sweep/parts_folder.hpp"
#include "engine/sweep/small_sweep.hpp"
#include "engine/sweep/sweep_nights.hpp"

namespace dullcast::sweep {
namespace {

using testing::changed;
using testing::never;
using testing::options_for;
using testing::OwnFolder;
using testing::says;
using testing::small_manifest;
using testing::small_plan;

ExecutionResult execution_of(const SweepManifest& manifest, const ExecutionOptions& options,
                             const std::atomic<bool>& interrupted = never,
                             const ExecutionProgress& tell = {}) {
  return execute_sweep(manifest, options, Ranks(), interrupted, tell);
}

/// The sweep run in one go, once for all tests that compare with it.
const std::vector<std::byte>& whole_sweep() {
  static const std::vector<std::byte> bytes = [] {
    const OwnFolder folder;
    execution_of(small_manifest(), options_for(folder / "whole.h5"));
    return base::read_whole_file(folder / "whole.h5");
  }();
  return bytes;
}

std::string error_of(const SweepManifest& manifest, const ExecutionOptions& options) {
  try {
    execution_of(manifest, options);
    return "";
  } catch (const std::exception& error) {
    return error.what();
  }
}

TEST(SweepExecution, TheSameBytesForAnyThreadsAndPartSizes) {
  for (const int threads : {1, 2, 3}) {
    for (const long size : {1L, 5L, 100L}) {
      const OwnFolder folder;
      SweepManifest manifest = small_manifest();
      manifest.cases_per_chunk = size;
      const ExecutionResult execution = execution_of(manifest, options_for(folder / "s.h5", threads));
      EXPECT_TRUE(execution.finished);
      EXPECT_EQ(execution.now.cases, 12);
      EXPECT_EQ(base::read_whole_file(folder / "s.h5"), whole_sweep())
          << threads << " threads, parts of " << size;
      EXPECT_FALSE(std::filesystem::exists(folder / "s.h5.parts")) << "parts go when the sweep is whole";
    }
  }
}

TEST(SweepExecution, StoppedAnywhereItGoesOnToTheSameBytes) {
  for (const long stop_after : {0L, 1L, 6L}) {
    const OwnFolder folder;
    std::atomic<bool> interrupted{false};
    ExecutionOptions options = options_for(folder / "s.h5");
    SweepManifest manifest = small_manifest();
    manifest.cases_per_chunk = 2;
    const ExecutionResult first =
        execution_of(manifest, options, interrupted, [&](const Tally& now, long, long) {
          if (now.cases >= stop_after) interrupted = true;
        });
    EXPECT_FALSE(first.finished);
    EXPECT_FALSE(std::filesystem::exists(options.output));
    options.resume = true;
    manifest.cases_per_chunk = 7;  // the sweep keeps the size it began with
    const ExecutionResult second = execution_of(manifest, options);
    EXPECT_TRUE(second.finished);
    EXPECT_LE(first.now.cases - second.kept_before, 2) << "at most the part in hand is lost";
    EXPECT_EQ(second.kept_before + second.now.cases, 12);
    EXPECT_EQ(base::read_whole_file(options.output), whole_sweep());
  }
}

TEST(SweepExecution, DamagedPartsAreNamedSetAsideAndRunAgain) {
  const OwnFolder folder;
  ExecutionOptions options = options_for(folder / "s.h5");
  options.keep_parts = true;
  execution_of(small_manifest(), options);
  std::filesystem::remove(options.output);
  const PartsFolder parts(options.output + ".parts");
  std::vector<std::byte> bytes = base::read_whole_file(parts.part_path(1));
  bytes[bytes.size() / 2] ^= std::byte{1};
  base::write_whole_file(parts.part_path(1), bytes);
  bytes.resize(bytes.size() / 3);
  base::write_whole_file(parts.part_path(2), bytes);
  options.resume = true;
  const ExecutionResult execution = execution_of(small_manifest(), options);
  ASSERT_EQ(execution.damaged.size(), 2u);
  EXPECT_TRUE(says(execution.damaged[0], parts.part_path(1))) << execution.damaged[0];
  EXPECT_EQ(execution.kept_before, 4);
  EXPECT_EQ(base::read_whole_file(options.output), whole_sweep());
  EXPECT_TRUE(std::filesystem::exists(parts.part_path(1) + ".damaged"));
}

/// Parts that nobody damaged and that do not fit, under a checksum that holds: they would break what puts
/// them together.
TEST(SweepExecution, PartsOfAnotherShapeAreSetAsideAndRunAgain) {
  const OwnFolder folder;
  ExecutionOptions options = options_for(folder / "s.h5");
  options.keep_parts = true;
  execution_of(small_manifest(), options);
  std::filesystem::remove(options.output);
  const PartsFolder parts(options.output + ".parts");
  const auto change = [&](long chunk, const auto& how) {
    storage::SweepPart part = storage::read_sweep_part(parts.part_path(chunk));
    how(part);
    storage::write_sweep_part(parts.part_path(chunk), part);
  };
  change(0, [](storage::SweepPart& part) { part.values.conservativeResize(part.values.rows(), 1); });
  change(1, [](storage::SweepPart& part) {
    part.histories = {{part.first_case, Eigen::ArrayXXd::Zero(2, 1)}};
  });
  change(2, [](storage::SweepPart& part) {
    part.values.conservativeResize(1, part.values.cols());
    part.failures.clear();
    part.histories.clear();
  });
  options.resume = true;
  const ExecutionResult execution = execution_of(small_manifest(), options);
  ASSERT_EQ(execution.damaged.size(), 3u);
  EXPECT_TRUE(says(execution.damaged[0], "holds other columns")) << execution.damaged[0];
  EXPECT_TRUE(says(execution.damaged[1], "holds other columns")) << execution.damaged[1];
  EXPECT_TRUE(says(execution.damaged[2], "holds other runs")) << execution.damaged[2];
  EXPECT_EQ(base::read_whole_file(options.output), whole_sweep());
}

TEST(SweepExecution, GoesOnOnlyWithWhatItBeganWith) {
  const OwnFolder folder;
  const std::atomic<bool> at_once{true};
  ExecutionOptions options = options_for(folder / "s.h5");
  execution_of(small_manifest(), options, at_once);
  EXPECT_TRUE(says(error_of(small_manifest(), options), "--resume"))
      << "without asking, nothing is gone on with";
  options.resume = true;
  const std::string other_plan =
      error_of(small_manifest(changed(small_plan(), "seed: 7", "seed: 8")), options);
  EXPECT_TRUE(says(other_plan, "plan.yaml") && says(other_plan, "seed: 7") && says(other_plan, "seed: 8"))
      << other_plan;
  SweepManifest other = small_manifest();
  other.texts.scenario = changed(other.texts.scenario, "1500 lbf", "1600 lbf");
  EXPECT_TRUE(says(error_of(other, options), "1600 lbf"));
  other = small_manifest();
  other.texts.library.files["rocks.yaml"] += "# a remark\n";
  EXPECT_TRUE(says(error_of(other, options), "rocks.yaml"));
  other = small_manifest();
  other.program_digits = "11111111";
  EXPECT_TRUE(says(error_of(other, options), "another build"));
  other = small_manifest();
  other.arithmetic = "11111111";
  EXPECT_TRUE(says(error_of(other, options), "arithmetic"));
  EXPECT_TRUE(execution_of(small_manifest(), options).finished);
  EXPECT_TRUE(execution_of(small_manifest(), options).was_finished)
      << "going on with what is finished says so";
  options.resume = false;
  EXPECT_TRUE(says(error_of(small_manifest(), options), "there already"));
}

TEST(SweepExecution, TwoAtOnceOnOneSweepAreRefused) {
  const OwnFolder folder;
  const PartsFolder parts(folder / "s.h5.parts");
  parts.begin(small_manifest());
  const FolderLock mine(parts.path());
  ExecutionOptions options = options_for(folder / "s.h5");
  options.resume = true;
  EXPECT_TRUE(says(error_of(small_manifest(), options), "another dullcast"));
}

TEST(SweepExecution, AFolderThatCannotBeMadeIsASentence) {
  const OwnFolder folder;
  std::ofstream(folder / "file") << "x";
  EXPECT_TRUE(says(error_of(small_manifest(), options_for(folder / "file/s.h5")), "cannot make this folder"));
}

TEST(SweepExecution, ACaseThatFailsIsRecordedAndTheRestRuns) {
  const OwnFolder folder;
  const std::string plan =
      changed(changed(small_plan(), "values: [standard, premium]", "values: [standard, glass]"),
              "  layers:", "  layers:");
  const ExecutionResult execution = execution_of(small_manifest(plan), options_for(folder / "s.h5", 2));
  EXPECT_TRUE(execution.finished);
  EXPECT_EQ(execution.now.failures, 6);
  const storage::SweepTable table = storage::read_sweep(folder / "s.h5");
  ASSERT_EQ(table.failures.size(), 6u);
  const storage::SweepColumn& failed = *table.find("failed");
  const storage::SweepColumn& hottest = *table.find("hottest_flat");
  for (const storage::SweepFailure& failure : table.failures) {
    EXPECT_TRUE(says(failure.message, "glass")) << failure.message;
    EXPECT_EQ(failed.values(failure.case_number - 1), 1.0);
    EXPECT_TRUE(std::isnan(hottest.values(failure.case_number - 1)));
  }
  EXPECT_EQ(failed.values.sum(), 6.0);
}

TEST(SweepExecution, TheTableHoldsWhatTheRunsCameTo) {
  const OwnFolder folder;
  base::write_whole_file(folder / "s.h5", whole_sweep());
  const storage::SweepTable table = storage::read_sweep(folder / "s.h5");
  EXPECT_EQ(table.title, "small sweep");
  EXPECT_EQ(table.design, "grid");
  EXPECT_EQ(table.points, 4);
  EXPECT_EQ(table.draws, 3);
  std::vector<input::Warning> warnings;
  const CaseMaker maker(small_manifest().texts, warnings);
  for (const long number : {1L, 6L, 12L}) {
    // As `dullcast run --from` makes it: from what the file itself says it began with.
    const CaseMaker again(read_manifest(storage::read_sweep_manifest(folder / "s.h5"), "s.h5").texts,
                          warnings);
    Case one = again.make_case(number);
    const scenario::Scenario scenario = again.make_scenario(one);
    const simulation::RunOutcome run_again = simulation::run(scenario);
    EXPECT_EQ(table.find("hottest_flat")->values(number - 1), run_again.hottest.temperature);
    EXPECT_EQ(table.find("footage")->values(number - 1), run_again.footage);
    EXPECT_EQ(table.find("energy")->values(number - 1), run_again.energy);
    EXPECT_EQ(table.find("cost_per_metre")->values(number - 1),
              analysis::run_cost(scenario, run_again)->per_metre);
    EXPECT_EQ(table.find("greatest_worn_height")->values(number - 1), run_again.end.worn_height.maxCoeff());
    for (std::size_t k = 0; k < maker.inputs().size(); ++k) {
      EXPECT_EQ(table.find(maker.inputs()[k].name)->values(number - 1),
                one.inputs(static_cast<Eigen::Index>(k)));
    }
  }
  EXPECT_EQ(table.find("ended_by")->words.at(static_cast<std::size_t>(table.find("ended_by")->values(0))),
            "last_hole");
}

TEST(SweepExecution, KeepsTheCourseOfTheCasesAskedFor) {
  const OwnFolder folder;
  base::write_whole_file(folder / "s.h5", whole_sweep());
  for (const long number : {1L, 2L, 6L, 11L}) {
    const std::vector<storage::SweepColumn> course = storage::read_sweep_history(folder / "s.h5", number);
    ASSERT_EQ(course.at(0).name, "footage");
    ASSERT_EQ(course.at(0).values.size(), 6);
    EXPECT_NEAR(course[0].values(5), 2.0, 1e-9) << "the last row is the run's end";
    for (Eigen::Index r = 1; r < 6; ++r) EXPECT_GE(course[0].values(r), course[0].values(r - 1));
  }
  EXPECT_THROW(storage::read_sweep_history(folder / "s.h5", 3), base::FileError);
}

TEST(SweepExecution, AnyByteOfTheFileGotWrongIsNoticed) {
  const OwnFolder folder;
  for (std::size_t at = 0; at < whole_sweep().size(); at += whole_sweep().size() / 40) {
    std::vector<std::byte> bytes = whole_sweep();
    bytes[at] ^= std::byte{0x10};
    base::write_whole_file(folder / "s.h5", bytes);
    EXPECT_THROW(storage::read_sweep(folder / "s.h5"), base::FileError) << at;
  }
}

TEST(SweepPart, ComesBackToTheLastBit) {
  const OwnFolder folder;
  storage::SweepPart part;
  part.fingerprint = "0123abcd";
  part.first_case = 41;
  part.values.resize(2, 3);
  part.values << 1.0, std::nextafter(2.0, 3.0), -0.0, std::numeric_limits<double>::infinity(), 1e-310,
      std::numeric_limits<double>::quiet_NaN();
  part.failures = {{42, "a sentence with \"quotes\", and µ"}};
  part.histories = {{41, Eigen::ArrayXXd::Random(5, 4)}};
  storage::write_sweep_part(folder / "p.h5", part);
  const storage::SweepPart read = storage::read_sweep_part(folder / "p.h5");
  EXPECT_EQ(read.fingerprint, part.fingerprint);
  EXPECT_EQ(read.first_case, 41);
  ASSERT_EQ(read.values.rows(), 2);
  for (Eigen::Index k = 0; k < 6; ++k) {
    const double a = part.values.data()[k], b = read.values.data()[k];
    EXPECT_EQ(std::signbit(a), std::signbit(b));
    EXPECT_TRUE(a == b || (std::isnan(a) && std::isnan(b)));
  }
  ASSERT_EQ(read.failures.size(), 1u);
  EXPECT_EQ(read.failures[0].message, part.failures[0].message);
  ASSERT_EQ(read.histories.size(), 1u);
  EXPECT_TRUE((read.histories[0].values == part.histories[0].values).all());
}

TEST(SweepManifest, ComesBackAndShowsWhatDiffers) {
  const SweepManifest manifest = small_manifest();
  const SweepManifest read = read_manifest(manifest_text(manifest), "began.yaml");
  EXPECT_EQ(manifest_text(read), manifest_text(manifest));
  EXPECT_TRUE(differences(manifest, read).empty());
  EXPECT_EQ(fingerprint_of(read), fingerprint_of(manifest));
}

}  // namespace
}  // namespace dullcast::sweep
