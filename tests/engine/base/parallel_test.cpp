#include "engine/base/parallel.hpp"

#include <gtest/gtest.h>

#include <atomic>
#include <chrono>
#include <stdexcept>
#include <string>
#include <thread>
#include <vector>

namespace dullcast::base {
namespace {

constexpr int thread_counts[] = {-1, 0, 1, 2, 3, 8, 100};

TEST(ParallelFor, DoesEveryPieceOfWorkOnceOnAnyNumberOfThreads) {
  for (const int threads : thread_counts) {
    for (const int count : {0, 1, 2, 7, 50}) {
      std::vector<int> done(static_cast<std::size_t>(count), 0);
      parallel_for(count, threads, [&](int i) { ++done[static_cast<std::size_t>(i)]; });
      EXPECT_EQ(done, std::vector<int>(static_cast<std::size_t>(count), 1)) << threads << " threads";
    }
  }
}

TEST(ParallelFor, ThrowsTheFailureOfTheLowestIndexAfterAllElseIsDone) {
  for (const int threads : thread_counts) {
    std::vector<int> done(20, 0);
    std::string said;
    try {
      parallel_for(20, threads, [&](int i) {
        // The lowest index fails last wherever there are threads to be late in.
        if (i == 4) std::this_thread::sleep_for(std::chrono::milliseconds(20));
        if (i == 4 || i == 5 || i == 17) throw std::runtime_error("piece " + std::to_string(i));
        ++done[static_cast<std::size_t>(i)];
      });
    } catch (const std::runtime_error& failure) {
      said = failure.what();
    }
    EXPECT_EQ(said, "piece 4") << threads << " threads";
    for (int i = 0; i < 20; ++i)
      EXPECT_EQ(done[static_cast<std::size_t>(i)], i == 4 || i == 5 || i == 17 ? 0 : 1) << i;
  }
}

TEST(ParallelFor, WorksOnSeveralThreadsAtOnce) {
  // Two pieces that each wait for the other can only end on two threads.
  std::atomic<int> arrived{0};
  std::atomic<bool> late{false};
  parallel_for(2, 2, [&](int) {
    ++arrived;
    for (int k = 0; arrived < 2; ++k) {
      std::this_thread::sleep_for(std::chrono::milliseconds(1));
      if (k > 20000) {
        late = true;
        return;
      }
    }
  });
  EXPECT_FALSE(late);
}

}  // namespace
}  // namespace dullcast::base
