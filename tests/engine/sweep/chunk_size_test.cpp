#include <gtest/gtest.h>

#include <algorithm>

#include "engine/sweep/run_chunks.hpp"

namespace dullcast::sweep {
namespace {

TEST(ChunkSize, AKillLosesLittleOfAThreadsShare) {
  for (const long threads : {1L, 2L, 64L, 1000L}) {
    for (const long cases : {1L, 100L, 4'000L, 20'000L, 100'000L, 1'000'000L}) {
      const long size = usual_cases_per_chunk(cases, threads);
      EXPECT_GE(size, 4);
      EXPECT_LE(size, std::max({4L, cases / threads / 50, cases / 10'000}))
          << cases << " on " << threads << " threads";
    }
  }
}

TEST(ChunkSize, ShortRunsShareTheCostOfWritingAPart) {
  EXPECT_EQ(usual_cases_per_chunk(2'000, 2), 20);
  EXPECT_EQ(usual_cases_per_chunk(20'000, 2), 200);
  EXPECT_EQ(usual_cases_per_chunk(100'000, 2), 500);
  EXPECT_EQ(usual_cases_per_chunk(1'000'000, 2), 500);
}

TEST(ChunkSize, NoPartIsMoreThanMemoryHoldsOrASweepCanGoOnWith) {
  for (const long cases : {10'000'000'000L, 20'000'000'001L, 1'000'000'000'000L}) {
    const long size = usual_cases_per_chunk(cases, 2);
    EXPECT_LE(size, 100'000) << "some tens of megabytes a thread";
    EXPECT_LE(size, most_cases_per_chunk) << "more cannot be read back when the sweep goes on";
  }
}

TEST(ChunkSize, NoMoreThanTenThousandFilesAreMade) {
  for (const long cases : {1'000'000L, 123'456'789L, 1'000'000'000L}) {
    EXPECT_LE(chunks_of(cases, usual_cases_per_chunk(cases, 2)), 10'000);
    EXPECT_LE(chunks_of(cases, usual_cases_per_chunk(cases, 5000)), 10'000);
  }
}

}  // namespace
}  // namespace dullcast::sweep
