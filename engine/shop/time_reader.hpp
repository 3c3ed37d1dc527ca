#pragma once

#include <optional>
#include <string>

#include "engine/input/map_reader.hpp"
#include "engine/shop/shift_calendar.hpp"
#include "engine/shop/shop_plan.hpp"

/// Days, hours, shifts and times of work as a plan writes them.
namespace dullcast::shop {

/// The day under a key, "2031-11-03"; reports any other text. Nothing where the key is absent.
std::optional<base::CivilDay> read_day(input::MapReader& map, const char* key);

/// A time that is not known exactly: "45 min", or {low: , central: , high: } with its 10 %, 50 % and 90 %
/// points; in a table those three stand between semicolons. From 0 to ten years. Nothing where the key is
/// absent or wrong, which is reported.
std::optional<Duration> read_duration(input::MapReader& map, const char* key);

/// A time of the clock, s: 0 or more, up to a year.
std::optional<double> read_time(input::MapReader& map, const char* key);

/// Shifts: a list whose items are maps (days, from, to) or texts such as "monday to friday 07:00 to 15:30";
/// several texts may stand between semicolons. Nothing where the key is absent; reports what is no shift.
std::optional<std::vector<Shift>> read_shifts(input::MapReader& map, const char* key);

/// Days off: days, and ranges such as 2031-12-24 to 2032-01-02, in a list or between semicolons; "none" is
/// none. Nothing where the key is absent.
std::optional<std::vector<DaysOff>> read_days_off(input::MapReader& map, const char* key);

}  // namespace dullcast::shop
