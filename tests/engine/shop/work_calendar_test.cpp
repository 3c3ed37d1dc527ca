#include "engine/shop/work_calendar.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <stdexcept>

namespace dullcast::shop {
namespace {

const WorkCalendar three_spans({{10.0, 20.0}, {30.0, 35.0}, {35.0, 40.0}});

TEST(WorkCalendar, WorkBetweenCountsWhatIsOpen) {
  EXPECT_EQ(three_spans.work_between(0.0, 100.0), 20.0);
  EXPECT_EQ(three_spans.work_between(15.0, 32.0), 7.0);
  EXPECT_EQ(three_spans.work_between(20.0, 30.0), 0.0);
  EXPECT_EQ(three_spans.work_between(32.0, 15.0), 0.0);
  EXPECT_EQ(WorkCalendar().work_between(-3.0, 4.0), 7.0);
  EXPECT_TRUE(std::isnan(three_spans.work_between(std::nan(""), 1.0)));
}

TEST(WorkCalendar, DoneIsTheInverseOfWorkBetween) {
  for (const double from : {0.0, 10.0, 13.5, 20.0, 25.0, 33.0, 35.0}) {
    for (const double work : {0.5, 3.0, 4.5, 5.0}) {
      const double done = three_spans.done(from, work);
      EXPECT_NEAR(three_spans.work_between(from, done), work, 1e-12) << from << ' ' << work;
      // Not an instant sooner.
      EXPECT_LT(three_spans.work_between(from, done - 1e-3), work) << from << ' ' << work;
    }
  }
}

TEST(WorkCalendar, WorkThatFillsASpanIsDoneAtItsEndAndMoreThanThereIsNever) {
  EXPECT_EQ(three_spans.done(0.0, 10.0), 20.0);
  EXPECT_EQ(three_spans.done(20.0, 10.0), 40.0);
  EXPECT_EQ(three_spans.done(0.0, 20.0), 40.0);
  EXPECT_TRUE(std::isinf(three_spans.done(0.0, 20.5)));
  EXPECT_TRUE(std::isinf(three_spans.done(41.0, 0.1)));
  EXPECT_EQ(three_spans.done(25.0, 0.0), 25.0);
  EXPECT_TRUE(std::isnan(three_spans.done(std::nan(""), 1.0)));
}

TEST(WorkCalendar, OpenFromTheBeginOfASpanUpToItsEnd) {
  EXPECT_FALSE(three_spans.open_at(9.9));
  EXPECT_TRUE(three_spans.open_at(10.0));
  EXPECT_FALSE(three_spans.open_at(20.0));
  EXPECT_TRUE(three_spans.open_at(35.0));
  EXPECT_EQ(three_spans.next_open(5.0), 10.0);
  EXPECT_EQ(three_spans.next_open(20.0), 30.0);
  EXPECT_EQ(three_spans.next_open(36.0), 36.0);
  EXPECT_TRUE(std::isinf(three_spans.next_open(40.0)));
}

TEST(WorkCalendar, RefusesSpansOutOfOrder) {
  EXPECT_THROW(WorkCalendar({{3.0, 2.0}}), std::invalid_argument);
  EXPECT_THROW(WorkCalendar({{1.0, 4.0}, {3.0, 5.0}}), std::invalid_argument);
  EXPECT_THROW(WorkCalendar({{0.0, std::numeric_limits<double>::quiet_NaN()}}), std::invalid_argument);
}

}  // namespace
}  // namespace dullcast::shop
