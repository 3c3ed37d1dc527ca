#include "engine/shop/time_reader.hpp"

#include <algorithm>

#include "engine/input/quantity_reader.hpp"
#include "engine/input/table_maps.hpp"

namespace dullcast::shop {
namespace {

constexpr double year = 365.25 * 86400.0;
constexpr base::Range duration_range{0.0, 10.0 * year, true, "0 or more, up to 10 years"};
constexpr base::Range clock_range{0.0, year, true, "0 or more, up to a year"};
constexpr int midnight_after = 86400;  // "24:00"
constexpr const char* weekdays[] = {"monday", "tuesday",  "wednesday", "thursday",
                                    "friday", "saturday", "sunday"};

/// Words of a text, parted by blanks and commas, in small letters.
std::vector<std::string> words_of(const std::string& text) {
  std::vector<std::string> words(1);
  for (const char c : text) {
    if (c == ' ' || c == ',' || c == '\t') {
      if (!words.back().empty()) words.emplace_back();
    } else {
      words.back() += c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    }
  }
  if (words.back().empty()) words.pop_back();
  return words;
}

int weekday_of(const std::string& word) {
  const auto found = std::find(std::begin(weekdays), std::end(weekdays), word);
  return found == std::end(weekdays) ? -1 : static_cast<int>(found - std::begin(weekdays));
}

/// Marks the days that words name: "monday to friday", "monday and thursday", "every day"; false where they
/// name none or something else as well.
bool mark_days(const std::vector<std::string>& words, std::array<bool, 7>& days) {
  if (words.size() == 2 && words[0] == "every" && words[1] == "day") {
    days.fill(true);
    return true;
  }
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (i > 0 && words[i] == "and") ++i;
    if (i == words.size()) return false;
    const int first = weekday_of(words[i]);
    if (first < 0) return false;
    int last = first;
    if (i + 1 < words.size() && words[i + 1] == "to") {
      last = i + 2 < words.size() ? weekday_of(words[i + 2]) : -1;
      if (last < 0) return false;
      i += 2;
    }
    for (int day = first;; day = (day + 1) % 7) {
      days[static_cast<std::size_t>(day)] = true;
      if (day == last) break;
    }
  }
  return !words.empty();
}

/// "07:00"; 24:00, the midnight after a day, where a shift ends.
std::optional<int> time_of(const std::string& text, bool end) {
  if (end && text == "24:00") return midnight_after;
  return base::read_time_of_day(text);
}

/// "monday to friday 07:00 to 15:30", or with the hours as "from 07:00 to 15:30" or "07:00-15:30".
std::optional<Shift> shift_of(const std::string& text) {
  std::vector<std::string> words = words_of(text);
  const auto hours = std::find_if(words.begin(), words.end(),
                                  [](const std::string& word) { return word.find(':') != word.npos; });
  std::vector<std::string> days(words.begin(), hours), times(hours, words.end());
  if (!days.empty() && days.back() == "from") days.pop_back();
  if (times.size() == 1) {
    const std::size_t dash = times[0].find('-');
    if (dash == std::string::npos) return std::nullopt;
    times = {times[0].substr(0, dash), "to", times[0].substr(dash + 1)};
  }
  Shift shift;
  if (times.size() != 3 || (times[1] != "to" && times[1] != "-") || !mark_days(days, shift.days))
    return std::nullopt;
  const auto from = time_of(times[0], false), to = time_of(times[2], true);
  if (!from || !to) return std::nullopt;
  shift.from = *from;
  shift.to = *to;
  return shift;
}

std::optional<int> read_clock(input::MapReader& map, const char* key, bool end) {
  const auto text = map.word(key);
  const auto time = text ? time_of(*text, end) : std::nullopt;
  if (!time && (text || !map.has(key)))
    map.error(key, (text ? input::quoted_text(*text) + " is no time of day" : std::string("is missing")) +
                       "; write hours and minutes of the day's 24 hours, such as " +
                       (end ? "\"15:30\"" : "\"07:00\""));
  return time;
}

std::optional<Shift> read_shift(input::MapReader map) {
  Shift shift;
  bool good = true;
  const input::YamlValue* days = map.find("days");
  const auto texts = days ? input::parts_of(*days) : std::vector<input::YamlValue>{};
  for (const input::YamlValue& text : texts) good = good && mark_days(words_of(text.text), shift.days);
  if (!good || texts.empty())
    map.error("days", (days ? input::kind_name(*days) + " names no days" : std::string("is missing")) +
                          "; write monday to friday, every day, or a list such as [monday, thursday]");
  good = good && !texts.empty();
  const auto from = read_clock(map, "from", false), to = read_clock(map, "to", true);
  map.finish();
  if (!good || !from || !to) return std::nullopt;
  shift.from = *from;
  shift.to = *to;
  return shift;
}

}  // namespace

std::optional<base::CivilDay> read_day(input::MapReader& map, const char* key) {
  const auto text = map.word(key);
  if (!text) return std::nullopt;
  const auto day = base::read_day(*text);
  if (!day)
    map.error(key, input::quoted_text(*text) + " is no day; write year, month and day, such as 2031-11-03");
  return day;
}

std::optional<Duration> read_duration(input::MapReader& map, const char* key) {
  const input::YamlValue* value = map.find(key);
  if (!value) return std::nullopt;
  const std::string path = map.path_of(key);
  std::vector<input::YamlValue> parts{*value};
  if (value->is_scalar()) parts = input::parts_of(*value);
  scenario::Quantity three;
  if (parts.size() == 3) {
    double* const into[] = {&three.low, &three.central, &three.high};
    for (std::size_t i = 0; i < 3; ++i) {
      const auto number =
          input::read_number(parts[i], path, base::dimension::time, duration_range, map.reading());
      if (!number) return std::nullopt;
      *into[i] = *number;
    }
    if (!(three.low <= three.central && three.central <= three.high)) {
      map.error(key, "does not rise from low over central to high; write the three in this order");
      return std::nullopt;
    }
  } else {
    const auto read = input::read_quantity(parts.size() == 1 ? parts[0] : *value, path, base::dimension::time,
                                           duration_range, false, map.reading());
    if (!read) return std::nullopt;
    three = *read;
  }
  Duration duration;
  duration.a = three.central;
  if (three.low < three.high) {
    duration.kind = Duration::Kind::percentiles;
    duration.a = three.low;
    duration.b = three.central;
    duration.c = three.high;
    if (!(three.low > 0.0)) duration.not_below = 0.0;  // otherwise it goes by its logarithm
  }
  return duration;
}

std::optional<double> read_time(input::MapReader& map, const char* key) {
  return map.number(key, base::dimension::time, clock_range);
}

std::optional<std::vector<Shift>> read_shifts(input::MapReader& map, const char* key) {
  const input::YamlValue* value = map.find(key);
  if (!value) return std::nullopt;
  std::vector<Shift> shifts;
  const auto parts = value->is_map() ? std::vector<input::YamlValue>{*value} : input::parts_of(*value);
  for (std::size_t i = 0; i < parts.size(); ++i) {
    const std::string path = map.path_of(key) + (value->is_list() ? "." + std::to_string(i) : "");
    if (parts[i].is_map()) {
      if (const auto shift = read_shift({parts[i], path, map.reading(), map.location()}))
        shifts.push_back(*shift);
      continue;
    }
    const auto shift = parts[i].is_scalar() ? shift_of(parts[i].text) : std::nullopt;
    if (shift)
      shifts.push_back(*shift);
    else
      map.reading().problems.error(parts[i].location, path,
                                   input::kind_name(parts[i]) +
                                       " is no shift; write monday to friday 07:00 to 15:30, or {days: "
                                       "monday to friday, from: \"07:00\", "
                                       "to: \"15:30\"}");
  }
  if (parts.empty())
    map.error(key, "names no shift; write one at least, such as monday to friday 07:00 to 15:30");
  return shifts;
}

std::optional<std::vector<DaysOff>> read_days_off(input::MapReader& map, const char* key) {
  const input::YamlValue* value = map.find(key);
  if (!value) return std::nullopt;
  std::vector<DaysOff> off;
  if (value->is_scalar() && value->text == "none") return off;
  const auto parts = input::parts_of(*value);
  if (value->is_map()) map.error(key, "is a map of keys; write a list of days and ranges of days");
  for (std::size_t i = 0; i < parts.size(); ++i) {
    const std::vector<std::string> words = words_of(parts[i].text);
    const bool range = words.size() == 3 && words[1] == "to";
    const auto first = words.empty() ? std::nullopt : base::read_day(words[0]);
    const auto last = range ? base::read_day(words[2]) : first;
    if (parts[i].is_scalar() && (range || words.size() == 1) && first && last && *first <= *last) {
      off.push_back({*first, *last});
      continue;
    }
    map.reading().problems.error(
        parts[i].location, map.path_of(key) + (value->is_list() ? "." + std::to_string(i) : ""),
        input::kind_name(parts[i]) +
            (first && last ? " ends before it begins" : " is no day and no range of days") +
            "; write 2031-12-24, or 2031-12-24 to 2032-01-02");
  }
  return off;
}

}  // namespace dullcast::shop
