#include "engine/shop/bench_queue.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <stdexcept>

namespace dullcast::shop {
namespace {

constexpr double hour = 3600.0;

/// Two days of eight hours, from 7 to 15.
WorkCalendar two_days() {
  return WorkCalendar({{7 * hour, 15 * hour}, {31 * hour, 39 * hour}});
}

TEST(BenchQueue, WorkThatAShiftDoesNotEndGoesOnInTheNextOnItsBench) {
  EventLoop loop;
  const WorkCalendar open = two_days();
  BenchQueue queue(loop, 1, open);
  loop.at(14 * hour, [&] { queue.arrive(0, 3 * hour, {}, {}); });
  loop.at(14.5 * hour, [&] { queue.arrive(1, 1 * hour, {}, {}); });
  loop.run_until(100 * hour);
  EXPECT_EQ(queue.visits()[0].begun, 14 * hour);
  EXPECT_EQ(queue.visits()[0].done, 33 * hour);
  EXPECT_EQ(queue.visits()[1].begun, 33 * hour);
  EXPECT_EQ(queue.visits()[1].done, 34 * hour);
}

TEST(BenchQueue, WhoComesAtNightIsTakenWhenTheShiftBegins) {
  EventLoop loop;
  const WorkCalendar open = two_days();
  BenchQueue queue(loop, 2, open);
  loop.at(1 * hour, [&] { queue.arrive(0, 1 * hour, {}, {}); });
  loop.at(2 * hour, [&] { queue.arrive(1, 2 * hour, {}, {}); });
  loop.run_until(100 * hour);
  EXPECT_EQ(queue.visits()[0].begun, 7 * hour);
  EXPECT_EQ(queue.visits()[1].begun, 7 * hour);
  EXPECT_EQ(queue.visits()[1].done, 9 * hour);
}

TEST(BenchQueue, WorkThatEndsWithTheShiftEndsThere) {
  EventLoop loop;
  const WorkCalendar open = two_days();
  BenchQueue queue(loop, 1, open);
  loop.at(7 * hour, [&] { queue.arrive(0, 8 * hour, {}, {}); });
  loop.at(8 * hour, [&] { queue.arrive(1, 1 * hour, {}, {}); });
  loop.run_until(100 * hour);
  EXPECT_EQ(queue.visits()[0].done, 15 * hour);
  EXPECT_EQ(queue.visits()[1].begun, 31 * hour);
}

TEST(BenchQueue, TheMostUrgentOfThoseThatWaitIsTakenFirstAndOfEqualsTheFirstComer) {
  EventLoop loop;
  const WorkCalendar always;
  // Bits 1 and 3 are equally urgent, bit 2 less so.
  BenchQueue queue(loop, 1, always, [](int who) { return who == 2 ? 2.0 : 1.0; });
  std::vector<int> order;
  for (const int who : {0, 2, 1, 3})
    loop.at(0.1 * who, [&, who] { queue.arrive(who, 10.0, [&order, who] { order.push_back(who); }, {}); });
  loop.run_until(100.0);
  EXPECT_EQ(order, (std::vector<int>{0, 1, 3, 2}));
}

TEST(BenchQueue, WhatNeverEndsIsNeverDone) {
  EventLoop loop;
  const WorkCalendar open = two_days();
  BenchQueue queue(loop, 1, open);
  loop.at(0.0, [&] { queue.arrive(0, 17 * hour, {}, [] { FAIL() << "sixteen hours are open in all"; }); });
  loop.run_until(1000 * hour);
  EXPECT_TRUE(std::isinf(queue.visits()[0].done));
  EXPECT_THROW(BenchQueue(loop, 0, open), std::invalid_argument);
}

}  // namespace
}  // namespace dullcast::shop
