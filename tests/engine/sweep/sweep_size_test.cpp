#include "engine/sweep/sweep_size.hpp"

#include <gtest/gtest.h>

#include <filesystem>

#include "engine/base/file_error.hpp"
#include "engine/sweep/small_sweep.hpp"
#include "engine/sweep/sweep_execution.hpp"

namespace dullcast::sweep {
namespace {

TEST(SweepSize, ACaseTakesWhatTheFilesGrowByItIs) {
  const testing::OwnFolder folder;
  // Two sweeps that differ by the number of cases only: what stands beside the cases drops out.
  const auto size_of = [&](const std::string& runs) {
    SweepManifest manifest =
        testing::small_manifest(testing::changed(testing::small_plan(), "runs: 3", "runs: " + runs));
    ExecutionOptions options;
    options.output = folder / (runs + ".h5");
    const std::atomic<bool> never{false};
    execute_sweep(manifest, options, Ranks(), never, {});
    return static_cast<double>(std::filesystem::file_size(options.output));
  };
  std::vector<input::Warning> warnings;
  const CaseMaker maker(testing::small_texts(testing::changed(testing::small_plan(), "runs: 3", "runs: 23")),
                        warnings);
  const double grown = size_of("23") - size_of("3");
  // Case 2 is kept whatever the number of cases, and every fifth is one more or less: within a tenth.
  EXPECT_NEAR(bytes_of_case(maker) * 80.0, grown, 0.1 * grown);
}

TEST(SweepSize, WhatDiskOrMemoryCannotHoldIsRefusedWithNumbers) {
  const testing::OwnFolder folder;
  EXPECT_NO_THROW(refuse_without_room(folder / ".", 1.0, 1, 1));
  EXPECT_NO_THROW(refuse_without_room(folder / "nowhere", 1e9, 1'000'000'000'000, 1)) << "room not known";
  EXPECT_NO_THROW(refuse_without_memory(100.0, 1'000'000'000'000, 100, 4));
  // More than a 64-bit machine can have.
  EXPECT_THROW(refuse_without_room(folder / ".", 1e9, 0, 100'000'000'000), base::FileError);
  EXPECT_THROW(refuse_without_memory(1e9, 1'000'000'000'000, 100'000'000'000, 4), std::runtime_error);
  EXPECT_NO_THROW(refuse_without_memory(1e3, 10, 100'000'000'000, 1000)) << "there are ten cases only";
}

}  // namespace
}  // namespace dullcast::sweep
