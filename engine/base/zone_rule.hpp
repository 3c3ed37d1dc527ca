#pragma once

#include <cstdint>
#include <optional>
#include <string_view>

namespace dullcast::base {

/// When a zone's clock changes in any year, as a rule: the last line of the zone's file (RFC 8536, section
/// 3.3.1, and the variable TZ of POSIX.1-2017, section 8.3), as "CST6CDT,M3.2.0,M11.1.0". It holds for the
/// years past those that the file lists one by one.
class ZoneRule {
 public:
  /// Nothing for a text that is none.
  static std::optional<ZoneRule> read(std::string_view text);

  /// s by which the clock is ahead of UTC at that instant, s since 1970-01-01 UTC.
  std::int64_t offset_at(std::int64_t utc_seconds) const;
  /// The instant at which the clock shows `wall`, s since 1970-01-01 00:00 as the clock shows it: the first
  /// one after the gap for a time that is skipped, the first for one that comes twice.
  std::int64_t utc_seconds(std::int64_t wall) const;

 private:
  /// A day of each year and the time by the clock before the change.
  struct Change {
    enum class Kind { month, day_without_leap_day, day_from_0 } kind = Kind::month;
    int month = 1, week = 1, weekday = 0;  // week 5 is the last, weekday 0 is Sunday
    int day = 0;
    std::int64_t time = 7200;  // s after midnight, may be less than 0 or more than a day
  };
  std::int64_t standard_ = 0, summer_ = 0;  // s ahead of UTC
  std::optional<Change> begins_, ends_;     // of summer time; none: always standard time

  std::int64_t wall_of(const Change& change, int year) const;
  friend class ZoneRuleText;
};

}  // namespace dullcast::base
