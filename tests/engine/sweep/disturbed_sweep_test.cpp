#include <gtest/gtest.h>

#include <atomic>
#include <filesystem>
#include <string>

#include "engine/base/plain_text.hpp"
#include "engine/base/whole_file.hpp"
#include "engine/storage/sweep_part_file.hpp"
#include "engine/sweep/small_sweep.hpp"
#include "engine/sweep/sweep_execution.hpp"
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

TEST(DisturbedSweep, StoppedWhileItPutsThePartsTogetherItKeepsThem) {
  const OwnFolder folder;
  std::atomic<bool> interrupted{false};
  ExecutionOptions options = options_for(folder / "s.h5");
  ExecutionSteps steps;
  steps.collating = [&](double, double) { interrupted = true; };
  const ExecutionResult first = execute_sweep(small_manifest(), options, Ranks(), interrupted, {}, steps);
  EXPECT_FALSE(first.finished);
  EXPECT_EQ(first.now.cases, 12);
  EXPECT_FALSE(std::filesystem::exists(options.output));
  options.resume = true;
  const ExecutionResult second = execute_sweep(small_manifest(), options, Ranks(), never, {});
  EXPECT_TRUE(second.finished);
  EXPECT_EQ(second.kept_before, 12);
  const ExecutionOptions at_once = options_for(folder / "whole.h5");
  execute_sweep(small_manifest(), at_once, Ranks(), never, {});
  EXPECT_EQ(base::read_whole_file(options.output), base::read_whole_file(at_once.output));
}

TEST(DisturbedSweep, ARunThatWouldTakeHoursIsLeftInTheMiddle) {
  const OwnFolder folder;
  SweepManifest manifest = small_manifest(
      "title: long runs\nscenario: field.yaml\nseed: 7\n"
      "factors: [{name: weight, path: plan.*.weight_on_bit, multiply: yes, values: [0.8, 1.2]}]\n"
      "design: {kind: grid}\n");
  manifest.texts.scenario = std::string(testing::small_field()) +
                            "repeat: {holes: 10000, stop_at: last_hole, connection_every: 0.1 m}\n"
                            "models: {abrasion_coefficient: 1e-25 m2/N}\n";
  std::atomic<bool> interrupted{false};
  const ExecutionResult result = execute_sweep(manifest, options_for(folder / "s.h5"), Ranks(), interrupted,
                                               [&](const Tally&, long, long) { interrupted = true; });
  EXPECT_FALSE(result.finished);
  EXPECT_EQ(result.now.cases, 0);
}

TEST(DisturbedSweep, AFolderTakenAwayOnTheWayIsNoticedAndNothingIsCalledKept) {
  for (const bool moved : {false, true}) {
    const OwnFolder folder;
    const ExecutionOptions options = options_for(folder / "s.h5", 2);
    const std::string parts = options.output + ".parts";
    std::string said;
    try {
      execute_sweep(small_manifest(), options, Ranks(), never, [&](const Tally&, long, long) {
        if (moved) {
          std::error_code later;
          std::filesystem::rename(parts, folder / "elsewhere", later);
        } else {
          std::filesystem::remove_all(parts);
        }
      });
    } catch (const std::exception& error) {
      said = error.what();
    }
    EXPECT_TRUE(says(said, "was removed, moved or changed")) << said;
    EXPECT_FALSE(says(said, "are kept")) << said;
    EXPECT_FALSE(std::filesystem::exists(parts)) << "no folder is made that nothing can go on with";
    EXPECT_FALSE(std::filesystem::exists(options.output));
  }
}

TEST(DisturbedSweep, ALongFailureIsKeptAsFarAsTheFileKeepsIt) {
  const OwnFolder folder;
  // A word of letters of two bytes each, so that some sentence would be cut amid one.
  std::string word = "g";
  for (int k = 0; k < 300; ++k) word += "\u00e4";
  std::string plan = changed(small_plan(), "values: [standard, premium]",
                             "values: [standard, \"" + word +
                                 "\"]}\n  - {name: lot, path: bit.lot, values: [sound, \"" + word + "\"]");
  ExecutionOptions options = options_for(folder / "s.h5");
  options.keep_parts = true;
  execute_sweep(small_manifest(plan), options, Ranks(), never, {});
  const storage::SweepTable table = storage::read_sweep(options.output);
  ASSERT_EQ(table.failures.size(), 18u);  // all but those of a known grade and lot
  std::size_t cut = 0;
  const storage::SweepPart part =
      storage::read_sweep_part(PartsFolder(options.output + ".parts").part_path(1));
  ASSERT_FALSE(part.failures.empty());
  for (const auto& failures : {table.failures, part.failures}) {
    for (const storage::SweepFailure& failure : failures) {
      EXPECT_LE(failure.message.size(), 240u);
      cut += failure.message.size() > 230u ? 1 : 0;
      EXPECT_EQ(base::first_not_utf8(failure.message), std::string::npos);
    }
  }
  EXPECT_GE(cut, 6u) << "a case with two unknown words says more than is kept";
}

}  // namespace
}  // namespace dullcast::sweep
