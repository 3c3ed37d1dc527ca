#include "engine/base/zone_rule.hpp"

#include <date/date.h>

#include <string>

namespace dullcast::base {

/// A rule's text, read from left to right.
class ZoneRuleText {
 public:
  explicit ZoneRuleText(std::string_view text) : rest_(text) {}

  std::optional<ZoneRule> read() {
    ZoneRule rule;
    if (!name() || !offset(rule.standard_)) return {};
    rule.standard_ = -rule.standard_;  // the text counts westwards
    if (rest_.empty()) return rule;
    if (!name()) return {};
    rule.summer_ = rule.standard_ + 3600;
    if (!rest_.empty() && rest_.front() != ',') {
      if (!offset(rule.summer_)) return {};
      rule.summer_ = -rule.summer_;
    }
    ZoneRule::Change begins, ends;
    if (!change(begins) || !change(ends) || !rest_.empty()) return {};
    rule.begins_ = begins;
    rule.ends_ = ends;
    return rule;
  }

 private:
  std::string_view rest_;

  bool skip(char c) {
    if (rest_.empty() || rest_.front() != c) return false;
    rest_.remove_prefix(1);
    return true;
  }
  /// Letters, or anything between < and >.
  bool name() {
    std::size_t length = 0;
    if (skip('<')) {
      length = rest_.find('>');
      if (length == std::string_view::npos) return false;
      rest_.remove_prefix(length + 1);
      return length >= 3;
    }
    while (length < rest_.size() && ((rest_[length] | 32) >= 'a' && (rest_[length] | 32) <= 'z')) ++length;
    rest_.remove_prefix(length);
    return length >= 3;
  }
  template <class Integer>
  bool number(Integer& value, int least, int most) {
    std::size_t length = 0;
    int n = 0;
    while (length < rest_.size() && length < 4 && rest_[length] >= '0' && rest_[length] <= '9')
      n = 10 * n + (rest_[length++] - '0');
    rest_.remove_prefix(length);
    value = n;
    return length > 0 && n >= least && n <= most;
  }
  /// [+-]hh[:mm[:ss]], hours up to 167 as RFC 8536 has them.
  bool offset(std::int64_t& seconds) {
    const bool less = skip('-');
    if (!less) skip('+');
    std::int64_t h = 0, m = 0, s = 0;
    if (!number(h, 0, 167)) return false;
    if (skip(':') && !number(m, 0, 59)) return false;
    if (skip(':') && !number(s, 0, 59)) return false;
    seconds = (less ? -1 : 1) * (3600 * h + 60 * m + s);
    return true;
  }
  bool change(ZoneRule::Change& its) {
    if (!skip(',')) return false;
    if (skip('M')) {
      its.kind = ZoneRule::Change::Kind::month;
      if (!number(its.month, 1, 12) || !skip('.') || !number(its.week, 1, 5) || !skip('.') ||
          !number(its.weekday, 0, 6))
        return false;
    } else if (skip('J')) {
      its.kind = ZoneRule::Change::Kind::day_without_leap_day;
      if (!number(its.day, 1, 365)) return false;
    } else {
      its.kind = ZoneRule::Change::Kind::day_from_0;
      if (!number(its.day, 0, 365)) return false;
    }
    return !skip('/') || offset(its.time);
  }
};

std::optional<ZoneRule> ZoneRule::read(std::string_view text) {
  return ZoneRuleText(text).read();
}

/// What the clock shows when it is changed.
std::int64_t ZoneRule::wall_of(const Change& change, int year) const {
  const date::year y{year};
  date::local_days day{};
  if (change.kind == Change::Kind::month) {
    const date::month m{unsigned(change.month)};
    const date::weekday w{unsigned(change.weekday)};
    day = change.week == 5 ? date::local_days(y / m / w[date::last])
                           : date::local_days(y / m / w[unsigned(change.week)]);
  } else if (change.kind == Change::Kind::day_without_leap_day) {
    day = date::local_days(y / 1 / 1) + date::days(change.day - 1 + (y.is_leap() && change.day >= 60));
  } else {
    day = date::local_days(y / 1 / 1) + date::days(change.day);
  }
  return std::int64_t{day.time_since_epoch().count()} * 86400 + change.time;
}

std::int64_t ZoneRule::offset_at(std::int64_t utc_seconds) const {
  if (!begins_) return standard_;
  // The year is that of the standard clock: changes near its end may count to the year before or after, so
  // the last change of three years decides.
  const date::sys_seconds there{std::chrono::seconds(utc_seconds + standard_)};
  const int year = int(date::year_month_day(date::floor<date::days>(there)).year());
  std::int64_t last = 0, offset = standard_;
  bool none = true;
  for (int y = year - 1; y <= year + 1; ++y) {
    const std::int64_t begin = wall_of(*begins_, y) - standard_, end = wall_of(*ends_, y) - summer_;
    // Of two changes at one moment summer time's begin goes last: it then lasts all year.
    if (end <= utc_seconds && (none || end >= last)) last = end, offset = standard_, none = false;
    if (begin <= utc_seconds && (none || begin >= last)) last = begin, offset = summer_, none = false;
  }
  return offset;
}

std::int64_t ZoneRule::utc_seconds(std::int64_t wall) const {
  // No two changes are within two days of each other.
  std::int64_t before = wall - standard_ - 86400, after = wall - standard_ + 86400;
  const std::int64_t offset_before = offset_at(before), offset_after = offset_at(after);
  if (offset_at(wall - offset_before) == offset_before) return wall - offset_before;
  if (offset_at(wall - offset_after) == offset_after) return wall - offset_after;
  // Within the gap: the moment of the change.
  while (after - before > 1) {
    const std::int64_t middle = before + (after - before) / 2;
    (offset_at(middle) == offset_before ? before : after) = middle;
  }
  return after;
}

}  // namespace dullcast::base
