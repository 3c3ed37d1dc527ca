#include "engine/shop/shift_calendar.hpp"

#include <algorithm>
#include <stdexcept>

namespace dullcast::shop {
namespace {

constexpr int seconds_a_day = 86400;

bool is_off(base::CivilDay day, const std::vector<DaysOff>& off) {
  return std::any_of(off.begin(), off.end(),
                     [&](const DaysOff& each) { return each.first <= day && day <= each.last; });
}

}  // namespace

PlanDays::PlanDays(const std::string& zone, base::CivilDay first, base::CivilDay last)
    : local_(zone), first_(first), last_(last) {
  if (last < first) throw std::invalid_argument("the last day is before the first");
  begins_ = local_.utc_seconds(first);
}

Instant PlanDays::instant(base::CivilDay day, int second) const {
  return static_cast<Instant>(local_.utc_seconds(day, second) - begins_);
}

std::vector<Instant> PlanDays::weeks() const {
  std::vector<Instant> begins;
  base::CivilDay monday = base::monday_of(first_);
  for (; monday <= last_; monday.number += 7) begins.push_back(instant(monday));
  begins.push_back(instant(monday));
  return begins;
}

WorkCalendar shift_calendar(const std::vector<Shift>& shifts, const std::vector<DaysOff>& off,
                            const PlanDays& days) {
  std::vector<OpenSpan> spans;
  const std::int64_t end = days.last().number + days_after_plan;
  for (base::CivilDay day{days.first().number - 1}; day.number <= end; ++day.number) {
    if (is_off(day, off)) continue;
    const auto weekday = static_cast<std::size_t>(base::weekday(day) - 1);
    for (const Shift& shift : shifts) {
      if (!shift.days[weekday]) continue;
      const int to = shift.to > shift.from ? shift.to : shift.to + seconds_a_day;
      // One that lies within what daylight saving skips, or ends before instant 0, comes to nothing.
      const OpenSpan span{std::max(days.instant(day, shift.from), 0.0), days.instant(day, to)};
      if (span.begin < span.end) spans.push_back(span);
    }
  }
  std::sort(spans.begin(), spans.end(),
            [](const OpenSpan& a, const OpenSpan& b) { return a.begin < b.begin; });
  std::vector<OpenSpan> united;
  for (const OpenSpan& span : spans) {
    if (!united.empty() && span.begin <= united.back().end)
      united.back().end = std::max(united.back().end, span.end);
    else
      united.push_back(span);
  }
  return WorkCalendar(std::move(united));
}

}  // namespace dullcast::shop
