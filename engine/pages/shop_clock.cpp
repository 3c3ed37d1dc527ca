#include "engine/pages/shop_clock.hpp"

#include <cmath>
#include <limits>
#include <stdexcept>

namespace dullcast::pages {
namespace {

// The first moments of 1900 and of 2200, UTC: the years that base::read_day takes.
constexpr double earliest = -2208988800.0, latest = 7258118400.0;

}  // namespace

ShopClock::ShopClock(const storage::ShopOutlook& outlook)
    : zone_(outlook.time_zone), begins_(outlook.begins) {
  const std::optional<base::CivilDay> first = day(0.0);
  if (!first) throw std::invalid_argument("its first day is none from 1900 to 2199");
  first_day_ = *first;
}

std::optional<std::int64_t> ShopClock::utc_seconds(double instant) const {
  const double seconds = static_cast<double>(begins_) + instant;
  if (!(seconds >= earliest && seconds < latest)) return std::nullopt;
  return static_cast<std::int64_t>(std::floor(seconds));
}

std::optional<base::CivilDay> ShopClock::day(double instant) const {
  const std::optional<std::int64_t> seconds = utc_seconds(instant);
  if (!seconds) return std::nullopt;
  return zone_.at(*seconds).day;
}

std::string ShopClock::day_text(double instant) const {
  const std::optional<std::int64_t> seconds = utc_seconds(instant);
  return seconds ? zone_.day_text(*seconds) : "";
}

std::string ShopClock::minute_text(double instant) const {
  const std::optional<std::int64_t> seconds = utc_seconds(instant);
  return seconds ? zone_.minute_text(*seconds) : "";
}

double ShopClock::days(double instant) const {
  const std::optional<std::int64_t> seconds = utc_seconds(instant);
  if (!seconds) return std::numeric_limits<double>::quiet_NaN();
  const base::WallClock clock = zone_.at(*seconds);
  return static_cast<double>(clock.day.number - first_day_.number) + clock.second / 86400.0;
}

std::string month_name(int month) {
  static constexpr const char* names[] = {"January",   "February", "March",    "April",
                                          "May",       "June",     "July",     "August",
                                          "September", "October",  "November", "December"};
  return names[month - 1];
}

std::string short_day(base::CivilDay day) {
  const base::CalendarDate its = base::calendar_date(day);
  return std::to_string(its.day) + " " + month_name(its.month).substr(0, 3);
}

}  // namespace dullcast::pages
