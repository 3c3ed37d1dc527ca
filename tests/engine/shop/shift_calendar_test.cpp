#include "engine/shop/shift_calendar.hpp"

#include <gtest/gtest.h>

#include <stdexcept>

namespace dullcast::shop {
namespace {

constexpr int hour = 3600;
constexpr std::array<bool, 7> working_days{true, true, true, true, true, false, false},
    every_day{true, true, true, true, true, true, true};

base::CivilDay day(const std::string& text) {
  return base::read_day(text).value();
}

PlanDays winnipeg(const std::string& first, const std::string& last) {
  return {"America/Winnipeg", day(first), day(last)};
}

TEST(PlanDays, CountFromTheFirstDaysFirstMomentByTheClock) {
  // 2025-03-09 is a Sunday on which the clock goes forward, so that Monday begins after 23 h.
  const PlanDays days = winnipeg("2025-03-09", "2025-03-11");
  EXPECT_EQ(days.instant(day("2025-03-09")), 0.0);
  EXPECT_EQ(days.instant(day("2025-03-10")), 23.0 * hour);
  EXPECT_EQ(days.instant(day("2025-03-09"), 7 * hour), 6.0 * hour);
  EXPECT_EQ(days.end(), (23.0 + 48.0) * hour);
  EXPECT_EQ(days.begins(), 1741500000);  // 2025-03-09 00:00 at UTC-6: `date -d 2025-03-09T06:00Z +%s`
  EXPECT_EQ(days.weeks(), (std::vector<Instant>{-6.0 * 24 * hour, 23.0 * hour, (23.0 + 7 * 24) * hour}));
  EXPECT_THROW(winnipeg("2025-03-09", "2025-03-08"), std::invalid_argument);
}

TEST(PlanDays, WeeksOfAPlanFromMondayToSundayAreItsOwn) {
  const PlanDays days = winnipeg("2031-11-03", "2031-11-09");
  EXPECT_EQ(days.weeks(), (std::vector<Instant>{0.0, 7.0 * 24 * hour}));
  EXPECT_EQ(days.end(), 7.0 * 24 * hour);
}

TEST(ShiftCalendar, HoursOverAYearEndWithDaysOff) {
  // Monday to Friday, 8.5 h a day; 2031-12-22 (a Monday) to 2032-01-09 (a Friday), off from 24 December to
  // 2 January: 22, 23 December and 5 to 9 January are 7 days.
  const PlanDays days = winnipeg("2031-12-22", "2032-01-09");
  const WorkCalendar calendar = shift_calendar({{working_days, 7 * hour, 15 * hour + 1800}},
                                               {{day("2031-12-24"), day("2032-01-02")}}, days);
  EXPECT_EQ(calendar.work_between(0.0, days.end()), 7 * 8.5 * hour);
  EXPECT_EQ(calendar.spans().front().begin, 7.0 * hour);
  EXPECT_EQ(calendar.next_open(days.instant(day("2031-12-23"), 16 * hour)),
            days.instant(day("2032-01-05"), 7 * hour));
  // It goes on for a year after the plan.
  EXPECT_TRUE(calendar.open_at(days.instant(day("2033-01-07"), 8 * hour)));
  EXPECT_FALSE(calendar.always());
}

TEST(ShiftCalendar, ANightShiftIsAnHourShorterOrLongerWhenTheClockChanges) {
  // 22:00 to 06:00, beginning on Saturday: 7 h over 2025-03-09 and 9 h over 2025-11-02.
  const auto night = [](const std::string& first, const std::string& last) {
    const PlanDays days = winnipeg(first, last);
    std::array<bool, 7> saturday{};
    saturday[5] = true;
    const WorkCalendar calendar = shift_calendar({{saturday, 22 * hour, 6 * hour}}, {}, days);
    EXPECT_EQ(calendar.spans().front().begin, 22.0 * hour);
    return calendar.work_between(0.0, days.end());
  };
  EXPECT_EQ(night("2025-03-08", "2025-03-09"), 7.0 * hour);
  EXPECT_EQ(night("2025-03-15", "2025-03-16"), 8.0 * hour);
  EXPECT_EQ(night("2025-11-01", "2025-11-02"), 9.0 * hour);
}

TEST(ShiftCalendar, DayShiftsKeepTheirPlaceOnTheClockThroughAChange) {
  const PlanDays days = winnipeg("2025-10-31", "2025-11-03");
  const WorkCalendar calendar = shift_calendar({{working_days, 7 * hour, 15 * hour}}, {}, days);
  ASSERT_GE(calendar.spans().size(), 2u);
  // Friday to Monday: two days of 24 h and one of 25 h between the begins.
  EXPECT_EQ(calendar.spans()[1].begin - calendar.spans()[0].begin, 73.0 * hour);
  EXPECT_EQ(calendar.spans()[1].end - calendar.spans()[1].begin, 8.0 * hour);
}

TEST(ShiftCalendar, AShiftBelongsToTheDayOnWhichItBegins) {
  const PlanDays days = winnipeg("2031-11-03", "2031-11-06");
  // Nights of every day, none on Tuesday: Monday's runs into Tuesday, and nothing into Wednesday.
  const WorkCalendar calendar =
      shift_calendar({{every_day, 20 * hour, 4 * hour}}, {{day("2031-11-04"), day("2031-11-04")}}, days);
  EXPECT_TRUE(calendar.open_at(days.instant(day("2031-11-04"), 2 * hour)));
  EXPECT_FALSE(calendar.open_at(days.instant(day("2031-11-04"), 21 * hour)));
  EXPECT_FALSE(calendar.open_at(days.instant(day("2031-11-05"), 2 * hour)));
  // Sunday's, the night before the plan, reaches into its first day.
  EXPECT_EQ(calendar.spans().front().begin, 0.0);
  EXPECT_EQ(calendar.spans().front().end, 4.0 * hour);
}

TEST(ShiftCalendar, WhatOverlapsOrTouchesIsOneStretch) {
  const PlanDays days = winnipeg("2031-11-03", "2031-11-03");
  const WorkCalendar calendar = shift_calendar({{working_days, 14 * hour, 22 * hour},
                                                {working_days, 6 * hour, 14 * hour + 1800},
                                                {working_days, 22 * hour, 23 * hour}},
                                               {}, days);
  EXPECT_EQ(calendar.spans().front().begin, 6.0 * hour);
  EXPECT_EQ(calendar.spans().front().end, 23.0 * hour);
  // Round the clock: one stretch over days and clock changes.
  const WorkCalendar round = shift_calendar({{every_day, 0, 24 * hour}}, {}, days);
  EXPECT_EQ(round.spans().size(), 1u);
  EXPECT_EQ(round.spans().front().begin, 0.0);
  EXPECT_GE(round.spans().front().end, 366.0 * 24 * hour);
}

TEST(ShiftCalendar, NobodyWorksWithoutShiftsOrInHoursThatAreSkipped) {
  const PlanDays days = winnipeg("2025-03-09", "2025-03-09");
  const WorkCalendar none = shift_calendar({}, {}, days);
  EXPECT_FALSE(none.always());
  EXPECT_EQ(none.work_between(0.0, days.end()), 0.0);
  std::array<bool, 7> sunday{};
  sunday[6] = true;
  const WorkCalendar skipped = shift_calendar({{sunday, 2 * hour, 3 * hour}}, {}, days);
  EXPECT_EQ(skipped.work_between(0.0, days.end()), 0.0);
}

}  // namespace
}  // namespace dullcast::shop
