#include "engine/base/child_process.hpp"

#include <gtest/gtest.h>
#include <unistd.h>

#include <chrono>
#include <csignal>
#include <cstdlib>
#include <string>
#include <vector>

#include "support/sanitized.hpp"

namespace dullcast::base {
namespace {

/// What a parent finds that waits for four bytes of a child.
std::string found(const std::function<void(const ChildProcess::Send&)>& work,
                  const ChildLimits& limits = {}) {
  ChildProcess child(work, limits);
  std::string text(4, ' ');
  try {
    child.read(text.data(), text.size());
  } catch (const ChildLost& lost) {
    return lost.end() == ChildEnd::too_long ? "took too long"
           : lost.end() == ChildEnd::killed ? "killed"
                                            : "lost";
  }
  return text;
}

TEST(ChildProcess, WhatItSendsComesInWholeAndInOrder) {
  // More than a pipe holds at once.
  std::vector<int> numbers(1'000'000);
  for (std::size_t k = 0; k < numbers.size(); ++k) numbers[k] = static_cast<int>(k);
  ChildProcess child(
      [&](const ChildProcess::Send& send) {
        send("head", 4);
        send(numbers.data(), numbers.size() * sizeof numbers[0]);
      },
      {});
  char head[4];
  child.read(head, sizeof head);
  EXPECT_EQ(std::string(head, 4), "head");
  std::vector<int> come(numbers.size());
  child.read(come.data(), come.size() * sizeof come[0]);
  EXPECT_TRUE(come == numbers);
  EXPECT_THROW(child.read(head, 1), ChildLost);
}

TEST(ChildProcess, ACrashIsLostAndNothingMore) {
  for (const int signal : {SIGSEGV, SIGABRT})
    EXPECT_EQ(found([&](const ChildProcess::Send&) { ::kill(::getpid(), signal); }), "lost") << signal;
  EXPECT_EQ(found([](const ChildProcess::Send&) { ::kill(::getpid(), SIGKILL); }), "killed");
  EXPECT_EQ(found([](const ChildProcess::Send&) { throw 1; }), "lost");
  EXPECT_EQ(found([](const ChildProcess::Send& send) { send("abc", 3); }), "lost");
  EXPECT_EQ(found([](const ChildProcess::Send& send) { send("abcd", 4); }), "abcd");
}

TEST(ChildProcess, OneThatNeverEndsIsEnded) {
  ChildLimits limits;
  limits.processor_time = 1.0;
  limits.time = 300.0;
  const auto began = std::chrono::steady_clock::now();
  EXPECT_EQ(found(
                [](const ChildProcess::Send&) {
                  volatile bool going = true;
                  while (going) {
                  }
                },
                limits),
            "took too long");
  limits.time = 0.5;
  EXPECT_EQ(found(
                [](const ChildProcess::Send&) {
                  for (;;) ::pause();
                },
                limits),
            "took too long");
  // By the processor's time, not by the clock that was set to far more; a busy machine takes its time.
  EXPECT_LT(std::chrono::steady_clock::now() - began, std::chrono::seconds(200));
}

TEST(ChildProcess, ItGetsNoMoreMemoryThanItMay) {
  if (testing::sanitized) GTEST_SKIP() << "the sanitizers need more addresses than any bound";
  ChildLimits limits;
  limits.memory = std::size_t{64} << 20;
  const auto taking = [&](std::size_t megabytes) {
    return found(
        [&](const ChildProcess::Send& send) {
          void* memory = std::malloc(megabytes << 20);
          send(memory == nullptr ? "none" : "some", 4);
        },
        limits);
  };
  EXPECT_EQ(taking(16), "some");
  EXPECT_EQ(taking(512), "none");
}

TEST(ChildProcess, OneThatIsNoLongerNeededIsEnded) {
  const auto began = std::chrono::steady_clock::now();
  {
    const ChildProcess child([](const ChildProcess::Send&) { ::sleep(30); }, {});
  }
  EXPECT_LT(std::chrono::steady_clock::now() - began, std::chrono::seconds(20));
}

}  // namespace
}  // namespace dullcast::base
