#pragma once

#include <optional>
#include <string>

#include "engine/base/local_time.hpp"
#include "engine/storage/shop_outlook.hpp"

namespace dullcast::pages {

/// The calendar of a shop's outlook: its instants (s since the plan's first day began) as local days and
/// times. What is not known (NaN, infinity) or lies outside of the years 1900 to 2199 has none. Throws what
/// base::LocalTime throws: std::invalid_argument for a zone that the machine does not know,
/// std::runtime_error where it has none.
class ShopClock {
 public:
  explicit ShopClock(const storage::ShopOutlook& outlook);

  std::optional<base::CivilDay> day(double instant) const;
  /// "2031-11-03"; empty where there is none.
  std::string day_text(double instant) const;
  /// "2031-11-03 07:00"; empty where there is none.
  std::string minute_text(double instant) const;
  /// Days since the plan's first day began as the clock shows them: 1.5 is noon of the second day, whatever
  /// daylight saving did meanwhile. NaN where there is none.
  double days(double instant) const;
  base::CivilDay first_day() const { return first_day_; }

 private:
  std::optional<std::int64_t> utc_seconds(double instant) const;

  base::LocalTime zone_;
  long long begins_;
  base::CivilDay first_day_;
};

/// "January" of 1, to 12.
std::string month_name(int month);
/// A day as people say it beside others of the same season: "3 Nov".
std::string short_day(base::CivilDay day);

}  // namespace dullcast::pages
