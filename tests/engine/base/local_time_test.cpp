#include "engine/base/local_time.hpp"

#include <gtest/gtest.h>

#include <cstdint>
#include <stdexcept>

namespace dullcast::base {
namespace {

constexpr std::int64_t hour = 3600, day_of_24_hours = 86400;

CivilDay day(const std::string& text) {
  return read_day(text).value();
}

TEST(CivilDay, TextsAreReadStrictlyAndComeBack) {
  for (const std::string text :
       {"1900-01-01", "1969-12-31", "1970-01-01", "2000-02-29", "2031-11-03", "2032-02-29", "2199-12-31"})
    EXPECT_EQ(day_text(day(text)), text);
  for (const std::string text :
       {"2031-02-29", "2100-02-29", "2031-04-31", "2031-13-01", "2031-00-10", "2031-01-00", "2031-1-05",
        "31-01-05", "2031/01/05", "20310105", "2031-01-05 ", " 2031-01-05", "2031-01-05T07:00", "-031-01-05",
        "1899-12-31", "2200-01-01", "2031-01-0x", "", "today"})
    EXPECT_FALSE(read_day(text)) << text;
}

TEST(CivilDay, DaysAreCountedFrom1970ThroughLeapYears) {
  EXPECT_EQ(day("1970-01-01").number, 0);
  EXPECT_EQ(day("1969-12-31").number, -1);
  // Day 2 440 588 of the Julian calendar of astronomers began at noon of 1970-01-01, day 2 451 545 at noon of
  // 2000-01-01, the epoch J2000.0 (Explanatory Supplement to the Astronomical Almanac).
  EXPECT_EQ(day("2000-01-01").number, 2451545 - 2440588);
  EXPECT_EQ(day("2000-03-01").number - day("2000-02-28").number, 2);
  EXPECT_EQ(day("2100-03-01").number - day("2100-02-28").number, 1);
  EXPECT_EQ(day("2032-03-01").number - day("2032-02-28").number, 2);
  EXPECT_EQ(day("2032-01-01").number - day("2031-12-31").number, 1);
}

// 1985-04-12 is the standard's own example (ISO 8601:2004, 4.1.4.2: 1985-W15-5); 2003-12-29 and 2004-01-04
// are those of Python's documentation of date.isocalendar; the others are year ends as date.isocalendar gives
// them.
TEST(CivilDay, WeekdaysAreThoseOfTheStandard) {
  const struct {
    const char* day;
    int weekday;
  } known[] = {{"1985-04-12", 5}, {"2003-12-29", 1}, {"2004-01-04", 7}, {"2004-12-31", 5},
               {"2005-01-01", 6}, {"2005-12-31", 6}, {"2006-01-01", 7}, {"2007-12-31", 1},
               {"2008-12-28", 7}, {"2009-12-31", 4}, {"2010-01-03", 7}, {"1969-12-28", 7}};
  for (const auto& each : known) EXPECT_EQ(weekday(day(each.day)), each.weekday) << each.day;
  EXPECT_EQ(day_text(monday_of(day("2004-01-04"))), "2003-12-29");
  EXPECT_EQ(day_text(monday_of(day("2003-12-29"))), "2003-12-29");
}

TEST(TimeOfDay, TextsAreReadStrictly) {
  EXPECT_EQ(read_time_of_day("00:00"), 0);
  EXPECT_EQ(read_time_of_day("07:00"), 7 * 3600);
  EXPECT_EQ(read_time_of_day("23:59:59"), 86399);
  for (const std::string text :
       {"24:00", "7:00", "07:60", "07:00:60", "0700", "07.00", "07:00 ", "-7:00", "07:0"})
    EXPECT_FALSE(read_time_of_day(text)) << text;
}

// Python's zoneinfo with the tz database of 2025b: for each zone and year the instants between which
// datetime.fromtimestamp(t, ZoneInfo(zone)).utcoffset() differs. 2045 lies past what the zones' files list
// and comes from the rule on their last line.
TEST(LocalTime, ClockChangesAreThoseOfTheZone) {
  const struct {
    const char* zone;
    std::int64_t change;
    const char *before, *after;
  } known[] = {{"America/Winnipeg", 1741507200, "2025-03-09 01:59", "2025-03-09 03:00"},
               {"America/Winnipeg", 1762066800, "2025-11-02 01:59", "2025-11-02 01:00"},
               {"America/Winnipeg", 2372918400, "2045-03-12 01:59", "2045-03-12 03:00"},
               {"America/Winnipeg", 2393478000, "2045-11-05 01:59", "2045-11-05 01:00"},
               {"Europe/Berlin", 1743296400, "2025-03-30 01:59", "2025-03-30 03:00"},
               {"Europe/Berlin", 1761440400, "2025-10-26 02:59", "2025-10-26 02:00"},
               {"Australia/Lord_Howe", 1743865200, "2025-04-06 01:59", "2025-04-06 01:30"},
               {"Australia/Lord_Howe", 2390398200, "2045-10-01 01:59", "2045-10-01 02:30"},
               {"Europe/Dublin", 1761440400, "2025-10-26 01:59", "2025-10-26 01:00"},
               {"Europe/Dublin", 2374102800, "2045-03-26 00:59", "2045-03-26 02:00"}};
  for (const auto& each : known) {
    const LocalTime local(each.zone);
    EXPECT_EQ(local.minute_text(each.change - 1), each.before) << each.zone;
    EXPECT_EQ(local.minute_text(each.change), each.after) << each.zone;
  }
}

TEST(LocalTime, ASkippedTimeIsTheMomentAfterTheGapAndADoubleOneTheFirst) {
  const LocalTime local("America/Winnipeg");
  for (const auto& [skipping, twice] :
       {std::pair{"2025-03-09", "2025-11-02"}, std::pair{"2045-03-12", "2045-11-05"}}) {
    const std::int64_t gap = local.utc_seconds(day(skipping), 2 * hour);
    EXPECT_EQ(local.minute_text(gap), std::string(skipping) + " 03:00");
    EXPECT_EQ(local.utc_seconds(day(skipping), 2 * hour + 1800), gap);
    EXPECT_EQ(local.utc_seconds(day(skipping), 3 * hour), gap);
    EXPECT_EQ(local.utc_seconds(day(skipping), 2 * hour - 1), gap - 1);
    const std::int64_t first = local.utc_seconds(day(twice), hour + 1800);
    EXPECT_EQ(local.minute_text(first), std::string(twice) + " 01:30");
    EXPECT_EQ(local.minute_text(first + hour), std::string(twice) + " 01:30");
    EXPECT_EQ(local.utc_seconds(day(twice), 2 * hour), first + 1800 + hour);
  }
}

/// The first moment of the day after the one of `utc_seconds`.
std::int64_t next_midnight(const LocalTime& local, std::int64_t utc_seconds) {
  return local.utc_seconds({local.at(utc_seconds).day.number + 1});
}

TEST(LocalTime, DaysOfAChangeHave23And25Hours) {
  const LocalTime local("America/Winnipeg");
  const auto length = [&](const std::string& text) {
    const std::int64_t begin = local.utc_seconds(day(text));
    EXPECT_EQ(local.day_text(begin), text);
    EXPECT_NE(local.day_text(begin - 1), text);
    return next_midnight(local, begin + 5 * hour) - begin;
  };
  EXPECT_EQ(length("2025-03-09"), 23 * hour);
  EXPECT_EQ(length("2025-11-02"), 25 * hour);
  EXPECT_EQ(length("2045-03-12"), 23 * hour);
  EXPECT_EQ(length("2025-12-31"), day_of_24_hours);
  EXPECT_EQ(length("2032-02-29"), day_of_24_hours);
}

TEST(LocalTime, MidnightItselfMayBeSkippedAndAWholeDayToo) {
  // Clocks of Santiago go from 24:00 to 01:00; Apia left out 2011-12-30 (tz database, southamerica and
  // australasia).
  const LocalTime santiago("America/Santiago"), apia("Pacific/Apia");
  EXPECT_EQ(santiago.minute_text(santiago.utc_seconds(day("2025-09-07"))), "2025-09-07 01:00");
  EXPECT_EQ(santiago.minute_text(santiago.utc_seconds(day("2025-09-07")) - 60), "2025-09-06 23:59");
  EXPECT_EQ(apia.minute_text(next_midnight(apia, apia.utc_seconds(day("2011-12-29"), 12 * hour))),
            "2011-12-31 00:00");
}

TEST(LocalTime, YearsPastTheListedOnesFollowTheRuleOfTheZone) {
  // As above: a rule with a change on the day before its weekday, one beyond midnight of its day, one with
  // summer time over the year's end, one without any.
  const struct {
    const char* zone;
    std::int64_t utc;
    const char* shows;
  } known[] = {
      {"America/Nuuk", 2563405140, "2051-03-25 22:59"},
      {"America/Nuuk", 2563405200, "2051-03-26 00:00"},
      {"America/Nuuk", 2582150340, "2051-10-28 22:59"},
      {"America/Nuuk", 2582157600, "2051-10-29 00:00"},
      {"Asia/Jerusalem", 2847484740, "2060-03-26 01:59"},
      {"Asia/Jerusalem", 2847484800, "2060-03-26 03:00"},
      {"Asia/Jerusalem", 2866399140, "2060-10-31 00:59"},
      {"Asia/Jerusalem", 2866406400, "2060-10-31 02:00"},
      {"Australia/Sydney", 2532524340, "2050-04-03 01:59"},
      {"Australia/Sydney", 2532531600, "2050-04-03 03:00"},
      {"Australia/Sydney", 2548252740, "2050-10-02 01:59"},
      {"Australia/Sydney", 2548252800, "2050-10-02 03:00"},
      {"Pacific/Chatham", 4078990740, "2099-04-05 02:44"},
      {"Pacific/Chatham", 4078998000, "2099-04-05 03:45"},
      {"Pacific/Chatham", 4094114340, "2099-09-27 02:44"},
      {"Pacific/Chatham", 4094114400, "2099-09-27 03:45"},
      {"Asia/Kolkata", 3155803200, "2070-01-01 17:30"},
      {"Asia/Kolkata", 3171441600, "2070-07-01 17:30"},
      {"Africa/Casablanca", 4733553600, "2120-01-01 13:00"},
      {"Africa/Casablanca", 4749278400, "2120-07-01 13:00"},
  };
  for (const auto& each : known) {
    const LocalTime local(each.zone);
    EXPECT_EQ(local.minute_text(each.utc), each.shows) << each.zone;
    const WallClock clock = local.at(each.utc);
    EXPECT_EQ(local.utc_seconds(clock.day, clock.second), each.utc) << each.zone;
  }
}

TEST(LocalTime, UtcIsTheCountItself) {
  const LocalTime utc("UTC");
  EXPECT_EQ(utc.zone(), "UTC");
  EXPECT_EQ(utc.utc_seconds(day("2001-09-09"), hour + std::int64_t{46} * 60 + 40), 1000000000);
  EXPECT_EQ(utc.minute_text(1000000000), "2001-09-09 01:46");
  EXPECT_EQ(utc.minute_text(-1), "1969-12-31 23:59");
  EXPECT_EQ(utc.utc_seconds(day("2031-12-31"), day_of_24_hours), utc.utc_seconds(day("2032-01-01")));
}

TEST(LocalTime, AnUnknownZoneIsRefusedWithTheNearest) {
  const auto refusal = [](const std::string& zone) -> std::string {
    try {
      const LocalTime local(zone);
    } catch (const std::invalid_argument& error) {
      return error.what();
    }
    return "taken";
  };
  EXPECT_EQ(refusal("America/Winipeg"),
            "there is no time zone 'America/Winipeg'; the nearest is America/Winnipeg");
  for (const std::string zone : {"", "Larkmoor", "../passwd", "America", "/usr/share/zoneinfo/UTC"})
    EXPECT_EQ(refusal(zone).find("there is no time zone '" + zone + "'"), 0u) << zone;
}

}  // namespace
}  // namespace dullcast::base
