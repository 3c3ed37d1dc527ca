#pragma once

#include <array>
#include <vector>

#include "engine/base/local_time.hpp"
#include "engine/shop/work_calendar.hpp"

namespace dullcast::shop {

/// Hours of work on some days of the week, by the clock on the wall.
struct Shift {
  std::array<bool, 7> days{};  // Monday first
  int from = 0, to = 0;        // s since midnight, 0 to 86400; `to` at or before `from` is on the next day
};

/// Days without work, both ends among them.
struct DaysOff {
  base::CivilDay first, last;
};

/// The stretch of days that a plan is about, at one place.
class PlanDays {
 public:
  /// Both days are among them. Throws std::invalid_argument unless first <= last, and what LocalTime throws.
  PlanDays(const std::string& zone, base::CivilDay first, base::CivilDay last);

  const base::LocalTime& local() const { return local_; }
  base::CivilDay first() const { return first_; }
  base::CivilDay last() const { return last_; }
  /// s since 1970-01-01 UTC of the first day's first moment: instant 0.
  std::int64_t begins() const { return begins_; }
  /// The first moment after the last day.
  Instant end() const { return instant({last_.number + 1}); }
  /// The instant at which the clock shows `second` s since midnight of that day (LocalTime::utc_seconds).
  Instant instant(base::CivilDay day, int second = 0) const;
  /// Begins of Mondays, from the last one that is not after instant 0 to the first that is not before the
  /// end.
  std::vector<Instant> weeks() const;

 private:
  base::LocalTime local_;
  base::CivilDay first_, last_;
  std::int64_t begins_ = 0;
};

/// How long calendars go on after a plan's last day, so that what runs late ends somewhere.
inline constexpr int days_after_plan = 366;

/// When work is done under these shifts, from instant 0 to days_after_plan after the last day: a shift
/// belongs to the day on which it begins, there is none on days off, and what overlaps or touches is one
/// stretch. Hours are those of the clock on the wall, so a night in which the clock goes back is an hour
/// longer. A shift that begins on the day before the first counts as far as it reaches into it. Nobody works
/// without shifts.
WorkCalendar shift_calendar(const std::vector<Shift>& shifts, const std::vector<DaysOff>& off,
                            const PlanDays& days);

}  // namespace dullcast::shop
