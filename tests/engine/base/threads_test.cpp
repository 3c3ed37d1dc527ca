#include "engine/base/threads.hpp"

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

/// Counts those at work at the same time. Each stays until as many as `wanted` have met, or until one has
/// waited for 10 s in vain.
class Crowd {
 public:
  explicit Crowd(int wanted) : wanted_(wanted) {}
  void one() {
    const int now = ++here_;
    int most = most_;
    while (now > most && !most_.compare_exchange_weak(most, now)) {
    }
    for (int k = 0; most_ < wanted_ && !given_up_; ++k) {
      std::this_thread::sleep_for(std::chrono::milliseconds(1));
      if (k > 10000) given_up_ = true;
    }
    // Long enough for one too many to be seen.
    std::this_thread::sleep_for(std::chrono::microseconds(300));
    --here_;
  }
  int most() const { return most_; }

 private:
  int wanted_;
  std::atomic<int> here_{0}, most_{0};
  std::atomic<bool> given_up_{false};
};

TEST(ParallelFor, NeverHasMoreAtWorkThanThreads) {
  for (const int threads : {1, 2, 3, 5}) {
    Crowd crowd(threads);
    parallel_for(60, threads, [&](int) { crowd.one(); });
    EXPECT_EQ(crowd.most(), threads);
  }
}

TEST(ParallelFor, OneThreadIsTheCallingOneInOrder) {
  std::vector<int> order;
  const auto caller = std::this_thread::get_id();
  parallel_for(5, 1, [&](int i) {
    EXPECT_EQ(std::this_thread::get_id(), caller);
    order.push_back(i);
  });
  EXPECT_EQ(order, (std::vector<int>{0, 1, 2, 3, 4}));
}

TEST(ParallelFor, InsideSharedWorkTakesNoMoreThreads) {
  constexpr int threads = 3, outer = 6, inner = 10;
  Crowd crowd(threads);
  std::atomic<int> done{0};
  parallel_for(outer, threads, [&](int) {
    const auto mine = std::this_thread::get_id();
    parallel_for(inner, threads, [&](int) {
      EXPECT_EQ(std::this_thread::get_id(), mine);
      crowd.one();
      ++done;
    });
  });
  EXPECT_EQ(done, outer * inner);
  EXPECT_EQ(crowd.most(), threads);
  // Having been inside must not be remembered once outside.
  Crowd afterwards(threads);
  parallel_for(40, threads, [&](int) { afterwards.one(); });
  EXPECT_EQ(afterwards.most(), threads);
}

TEST(ParallelFor, AnExceptionOfInnerWorkComesOutOfTheOuter) {
  std::string said;
  try {
    parallel_for(8, 2, [&](int i) {
      parallel_for(8, 2, [&](int k) {
        if (i >= 3 && k >= 5) throw std::runtime_error(std::to_string(i) + "." + std::to_string(k));
      });
    });
  } catch (const std::runtime_error& failure) {
    said = failure.what();
  }
  EXPECT_EQ(said, "3.5");
}

TEST(ParallelFor, StoppedItEndsWhatIsInHandAndBeginsNothingMore) {
  for (const int threads : {1, 2, 4}) {
    std::atomic<bool> stop{false};
    std::atomic<int> begun{0}, ended{0};
    parallel_for(
        1000, threads,
        [&](int) {
          ++begun;
          std::this_thread::sleep_for(std::chrono::milliseconds(1));
          if (begun >= 10) stop = true;
          ++ended;
        },
        &stop);
    EXPECT_EQ(begun, ended);
    EXPECT_GE(begun, 10);
    // Each thread may have begun one more before it could see the flag.
    EXPECT_LE(begun, 10 + threads);
  }
}

TEST(WorkBeside, WorksOnThreadsOfTheirOwnWhileTheCallerAttends) {
  for (const int threads : {1, 2, 5}) {
    const auto caller = std::this_thread::get_id();
    std::atomic<int> ended{0};
    std::atomic<bool> attended{false};
    work_beside(
        threads,
        [&](int) {
          EXPECT_NE(std::this_thread::get_id(), caller);
          // Ends only when the caller attends at the same time.
          while (!attended) std::this_thread::sleep_for(std::chrono::milliseconds(1));
          ++ended;
        },
        [&] {
          EXPECT_EQ(std::this_thread::get_id(), caller);
          attended = true;
        });
    EXPECT_EQ(ended, threads) << "returned before all had ended";
  }
}

TEST(WorkBeside, ThrowsTheFailureOfTheLowestThreadAndTheCallersLast) {
  const auto thrown = [](int lowest) {
    std::atomic<int> ended{0};
    std::string said;
    try {
      work_beside(
          4,
          [&](int k) {
            ++ended;
            if (k < lowest) return;
            // The lowest fails last.
            std::this_thread::sleep_for(std::chrono::milliseconds(k == lowest ? 20 : 0));
            throw std::runtime_error("thread " + std::to_string(k));
          },
          [] { throw std::runtime_error("caller"); });
    } catch (const std::runtime_error& failure) {
      said = failure.what();
    }
    EXPECT_EQ(ended, 4);
    return said;
  };
  EXPECT_EQ(thrown(1), "thread 1");
  EXPECT_EQ(thrown(4), "caller");
}

TEST(WorkBeside, WorkInsideItTakesNoMoreThreads) {
  Crowd crowd(2);
  work_beside(
      2, [&](int) { parallel_for(20, 8, [&](int) { crowd.one(); }); }, [] {});
  EXPECT_EQ(crowd.most(), 2);
  EXPECT_THROW(parallel_for(1, 1,
                            [](int) {
                              work_beside(
                                  1, [](int) {}, [] {});
                            }),
               std::logic_error);
}

}  // namespace
}  // namespace dullcast::base
