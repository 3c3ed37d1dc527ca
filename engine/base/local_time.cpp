#include "engine/base/local_time.hpp"

#include <date/date.h>
#include <date/tz.h>

#include <algorithm>
#include <cstdio>
#include <fstream>
#include <iterator>
#include <stdexcept>
#include <vector>

#include "engine/base/words.hpp"
#include "engine/base/zone_rule.hpp"

namespace dullcast::base {
namespace {

using std::chrono::seconds;
constexpr int seconds_a_day = 86400;

date::year_month_day civil(CivilDay day) {
  return date::sys_days(date::days(day.number));
}

/// The digits of text[at, at + count) as a number; -1 where one of them is none.
int digits(std::string_view text, std::size_t at, std::size_t count) {
  int value = 0;
  for (std::size_t i = at; i < at + count; ++i) {
    if (text[i] < '0' || text[i] > '9') return -1;
    value = 10 * value + (text[i] - '0');
  }
  return value;
}

/// The rule for the years past those that a zone's file lists: its last line.
std::optional<ZoneRule> rule_for_later(const std::string& zone) {
  std::ifstream file("/usr/share/zoneinfo/" + zone, std::ios::binary);
  const std::string text{std::istreambuf_iterator<char>(file), {}};
  if (text.size() < 2 || text.back() != '\n') return {};
  const std::size_t line = text.rfind('\n', text.size() - 2);
  if (line == std::string::npos) return {};
  return ZoneRule::read(std::string_view(text).substr(line + 1, text.size() - line - 2));
}

/// Whether a stretch of one offset is the last of a zone's file: the library lets it last for ever.
bool is_last(const date::sys_info& info) {
  return info.end >= date::sys_days(date::year::max() / 12 / 31);
}

const date::tzdb& zones_of_machine() {
  try {
    return date::get_tzdb();
  } catch (const std::exception&) {
    throw std::runtime_error(
        "this machine has no time zones: /usr/share/zoneinfo is missing (package tzdata)");
  }
}

std::string clock_text(const WallClock& clock) {
  char text[16];
  std::snprintf(text, sizeof text, " %02d:%02d", clock.second / 3600, clock.second / 60 % 60);
  return day_text(clock.day) + text;
}

}  // namespace

std::optional<CivilDay> read_day(std::string_view text) {
  if (text.size() != 10 || text[4] != '-' || text[7] != '-') return {};
  const int y = digits(text, 0, 4), m = digits(text, 5, 2), d = digits(text, 8, 2);
  if (y < 1900 || y > 2199 || m < 1 || d < 1) return {};
  const date::year_month_day day(date::year{y}, date::month{unsigned(m)}, date::day{unsigned(d)});
  if (!day.ok()) return {};
  return CivilDay{date::sys_days(day).time_since_epoch().count()};
}

std::string day_text(CivilDay day) {
  const CalendarDate its = calendar_date(day);
  char text[40];
  std::snprintf(text, sizeof text, "%04d-%02d-%02d", its.year, its.month, its.day);
  return text;
}

CalendarDate calendar_date(CivilDay day) {
  const date::year_month_day its = civil(day);
  return {int(its.year()), int(unsigned(its.month())), int(unsigned(its.day()))};
}

int weekday(CivilDay day) {
  return int(date::weekday(date::sys_days(date::days(day.number))).iso_encoding());
}

CivilDay monday_of(CivilDay day) {
  return {day.number - (weekday(day) - 1)};
}

std::optional<int> read_time_of_day(std::string_view text) {
  if ((text.size() != 5 && text.size() != 8) || text[2] != ':') return {};
  if (text.size() == 8 && text[5] != ':') return {};
  const int h = digits(text, 0, 2), m = digits(text, 3, 2), s = text.size() == 8 ? digits(text, 6, 2) : 0;
  if (h < 0 || h > 23 || m < 0 || m > 59 || s < 0 || s > 59) return {};
  return 3600 * h + 60 * m + s;
}

struct LocalTime::Zone {
  const date::time_zone* listed = nullptr;  // what the zone's file lists
  std::string name;
  std::optional<ZoneRule> later;  // and the rule for later years

  const ZoneRule& rule() const {
    if (!later)
      throw std::out_of_range("this machine's files do not say how late the clock of " + name +
                              " is in years so far off");
    return *later;
  }
};

LocalTime::LocalTime(const std::string& zone) {
  const date::tzdb& all = zones_of_machine();
  const auto found = std::find_if(all.zones.begin(), all.zones.end(),
                                  [&](const date::time_zone& each) { return each.name() == zone; });
  if (found == all.zones.end()) {
    std::vector<std::string> names;
    for (const date::time_zone& each : all.zones) names.push_back(each.name());
    const std::string near = nearest_word(zone, names);
    throw std::invalid_argument("there is no time zone '" + zone + "'" +
                                (near.empty() ? "; it is a name of the tz database, as Europe/Paris or UTC"
                                              : "; the nearest is " + near));
  }
  auto its = std::make_unique<Zone>();
  its->listed = &*found;
  its->name = zone;
  its->later = rule_for_later(zone);
  zone_ = std::move(its);
}

LocalTime::~LocalTime() = default;
LocalTime::LocalTime(LocalTime&&) noexcept = default;
LocalTime& LocalTime::operator=(LocalTime&&) noexcept = default;

const std::string& LocalTime::zone() const {
  return zone_->name;
}

std::int64_t LocalTime::utc_seconds(CivilDay day, int second) const {
  const date::local_seconds wall{seconds(day.number * seconds_a_day + second)};
  const date::local_info info = zone_->listed->get_info(wall);
  if (info.result == date::local_info::unique && is_last(info.first))
    return zone_->rule().utc_seconds(wall.time_since_epoch().count());
  if (info.result == date::local_info::nonexistent) return info.first.end.time_since_epoch().count();
  return (wall.time_since_epoch() - info.first.offset).count();
}

WallClock LocalTime::at(std::int64_t utc_seconds) const {
  const date::sys_seconds instant{seconds(utc_seconds)};
  const date::sys_info info = zone_->listed->get_info(instant);
  const seconds ahead = is_last(info) ? seconds(zone_->rule().offset_at(utc_seconds)) : info.offset;
  const date::local_seconds wall{instant.time_since_epoch() + ahead};
  const auto day = date::floor<date::days>(wall);
  return {{day.time_since_epoch().count()}, int((wall - day).count())};
}

std::string LocalTime::day_text(std::int64_t utc_seconds) const {
  return base::day_text(at(utc_seconds).day);
}

std::string LocalTime::minute_text(std::int64_t utc_seconds) const {
  return clock_text(at(utc_seconds));
}

}  // namespace dullcast::base
