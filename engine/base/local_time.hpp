#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <string_view>

/// Days of the calendar and clocks on walls, as people write them, and what they are in seconds. Texts are
/// ISO 8601. Zones are those of the machine (the tz database, usually of the package tzdata).
namespace dullcast::base {

/// A day of the Gregorian calendar, counted from 1970-01-01.
struct CivilDay {
  std::int64_t number = 0;
  bool operator==(const CivilDay& other) const { return number == other.number; }
  bool operator<(const CivilDay& other) const { return number < other.number; }
  bool operator<=(const CivilDay& other) const { return number <= other.number; }
  bool operator>(const CivilDay& other) const { return number > other.number; }
};

/// The same as people count it: months and days from 1.
struct CalendarDate {
  int year = 1970, month = 1, day = 1;
};
CalendarDate calendar_date(CivilDay day);

/// "2031-11-03", years 1900 to 2199 (leap rules far off are anyone's guess); nothing for any other text and
/// for days that there are not (2031-02-29).
std::optional<CivilDay> read_day(std::string_view text);
/// "2031-11-03"; years of four digits.
std::string day_text(CivilDay day);
/// 1 for Monday to 7 for Sunday (ISO 8601).
int weekday(CivilDay day);
/// That day or the last one before it that is a Monday.
CivilDay monday_of(CivilDay day);

/// "07:00" or "07:00:30", 00:00 to 23:59:59, in s since midnight; nothing for any other text.
std::optional<int> read_time_of_day(std::string_view text);

/// What a calendar and a clock on the wall show.
struct WallClock {
  CivilDay day;
  int second = 0;  // since midnight as the clock shows it, 0 to 86399
};

/// The clock on the wall of one place.
class LocalTime {
 public:
  /// `zone` is a name of the tz database, as "America/Winnipeg" or "UTC". Throws std::invalid_argument for a
  /// name that the machine does not know, with the nearest that it does, and std::runtime_error where the
  /// machine has no zones.
  explicit LocalTime(const std::string& zone);
  ~LocalTime();
  LocalTime(LocalTime&&) noexcept;
  LocalTime& operator=(LocalTime&&) noexcept;

  const std::string& zone() const;
  /// s since 1970-01-01 UTC (without leap seconds) at which the clock shows `second` s since midnight of that
  /// day, 0 or more; 86400 is the next day's midnight, and so on. A time that daylight saving skips counts as
  /// the first moment after the gap; one that comes twice, as the first. Throws std::out_of_range where the
  /// machine's files for the zone end and the rule for later years is one that cannot be read.
  std::int64_t utc_seconds(CivilDay day, int second = 0) const;
  /// What the clock shows. Throws as utc_seconds does.
  WallClock at(std::int64_t utc_seconds) const;
  /// "2031-11-03".
  std::string day_text(std::int64_t utc_seconds) const;
  /// "2031-11-03 07:00"; what is over a minute is left out.
  std::string minute_text(std::int64_t utc_seconds) const;

 private:
  struct Zone;
  std::unique_ptr<const Zone> zone_;
};

}  // namespace dullcast::base
