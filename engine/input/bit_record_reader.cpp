#include "engine/input/bit_record_reader.hpp"

#include <charconv>
#include <chrono>
#include <cmath>

#include "engine/base/plain_text.hpp"
#include "engine/base/words.hpp"
#include "engine/input/cutter_findings.hpp"
#include "engine/input/dull_grading.hpp"
#include "engine/input/letters.hpp"
#include "engine/input/setting_ranges.hpp"
#include "engine/input/shelf_table.hpp"

namespace dullcast::input {
namespace {

// As thin as a layer may be, to as much as a million holes of a kilometre.
constexpr base::Range drilled_range{5e-3, 1e9, true, "from 5 mm to a million kilometres"};
constexpr base::Range gauge_loss_range{0.0, 0.1, true, "0 (in gauge) or more, up to 100 mm"};
constexpr int most_holes = 1'000'000;
constexpr std::size_t longest_bit_name = 80;

/// A day as ISO 8601 writes it, YYYY-MM-DD, that there is in the calendar.
bool is_day(std::string_view text) {
  if (text.size() != 10 || text[4] != '-' || text[7] != '-') return false;
  const auto number = [&](std::size_t at, std::size_t count) {
    int value = -1;
    for (std::size_t i = at; i < at + count; ++i) {
      if (!digit(text[i])) return -1;
    }
    std::from_chars(text.data() + at, text.data() + at + count, value);
    return value;
  };
  const int year = number(0, 4), month = number(5, 2), day = number(8, 2);
  return year > 0 && month > 0 && day > 0 &&
         std::chrono::year_month_day(std::chrono::year(year),
                                     std::chrono::month(static_cast<unsigned>(month)),
                                     std::chrono::day(static_cast<unsigned>(day)))
             .ok();
}

void read_name_and_day(MapReader& map, scenario::InspectedBit& found) {
  found.bit = map.word("bit").value_or("");
  if (!map.has("bit")) {
    map.error("bit", "is missing; write the shop's name of the bit, such as K-17");
  } else if (found.bit.empty() || found.bit.size() > longest_bit_name) {
    map.error("bit", quoted_text(found.bit) + " is no name; write one of 1 to " +
                         std::to_string(longest_bit_name) + " bytes, such as K-17");
  }
  found.inspected = map.word("inspected").value_or("");
  if (!found.inspected.empty() && !is_day(found.inspected))
    map.error("inspected",
              quoted_text(found.inspected) + " is no day; write year, month and day, such as 2031-04-17");
}

/// "sandstone 120 m": the rock's name goes up to the first digit.
void read_one_rock(MapReader& map, const YamlValue& part, const std::string& path, const RecordBase& base,
                   scenario::InspectedBit& found) {
  const std::size_t number = part.text.find_first_of("0123456789.");
  std::string rock = part.text.substr(0, number);
  while (!rock.empty() && (blank(rock.back()) || rock.back() == ':')) rock.pop_back();
  for (char& c : rock) {
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
    if (c == ' ') c = '_';
  }
  Problems& problems = map.reading().problems;
  if (!part.is_scalar() || rock.empty() || number == std::string::npos) {
    problems.error(part.location, path,
                   kind_name(part) +
                       " is no ground drilled; write a rock and its length, such as sandstone "
                       "120 m, all holes together");
    return;
  }
  if (base.library.rocks.find(rock) == base.library.rocks.end())
    problems.error(part.location, path,
                   problems.only_counts() ? "" : unknown_name("rock", rock, names_of(base.library.rocks)));
  YamlValue length = part;
  length.text = part.text.substr(number);
  if (const auto read = read_number(length, path, base::dimension::depth, drilled_range, map.reading()))
    found.drilled.push_back({rock, *read});
}

std::vector<YamlValue> bounded_parts(MapReader& map, const char* key) {
  const YamlValue* value = map.find(key);
  std::vector<YamlValue> parts = value ? parts_of(*value) : std::vector<YamlValue>{};
  if (value && value->is_map())
    map.error(key, "is a map of keys; write a list, or one text with its parts between semicolons");
  if (parts.size() > most_record_parts) {
    map.error(key, "names " + std::to_string(parts.size()) + " things; no record has more than " +
                       std::to_string(most_record_parts));
    parts.clear();
  }
  return parts;
}

std::vector<std::string> read_word_list(MapReader& map, const char* key) {
  std::vector<std::string> words;
  for (const YamlValue& part : bounded_parts(map, key)) {
    if (part.is_scalar() && base::is_plain(part.text)) {
      words.push_back(part.text);
    } else {
      map.reading().problems.error(part.location, map.path_of(key),
                                   kind_name(part) + " is no plain words; write a few on one line");
    }
  }
  return words;
}

/// What is said of each cutter under its own key (cutter_7), nothing where nothing is; empty where none is.
std::vector<YamlValue> single_cutters(MapReader& map, int count) {
  std::vector<YamlValue> parts;
  for (int number = 1; number <= most_cutter_keys; ++number) {
    const std::string key = cutter_key(number);
    if (number > count && !map.has(key)) continue;
    const YamlValue* value = map.find(key);
    if (!value) continue;
    if (number > count) {
      map.error(key, "is a cutter that this bit does not have; it has " + std::to_string(count) +
                         ", counted from the axis outward");
      continue;
    }
    parts.resize(static_cast<std::size_t>(count));
    parts[static_cast<std::size_t>(number - 1)] = *value;
  }
  return parts;
}

/// What is said of each cutter, from the axis outward; empty where nothing is, or not of as many as there
/// are.
std::vector<YamlValue> parts_of_cutters(MapReader& map, const RecordBase& base, bool& singly) {
  const auto count = static_cast<std::size_t>(base.scenario.bit.layout.count());
  std::vector<YamlValue> single = single_cutters(map, static_cast<int>(count));
  singly = !single.empty();
  const YamlValue* value = map.find("cutters");
  if (!value) return single;
  if (singly) {
    map.error("cutters", "stands beside keys of single cutters; keep one or the others");
    return {};
  }
  std::vector<YamlValue> parts = parts_of(*value);
  if (parts.size() == count) return parts;
  map.error("cutters", (value->is_map() ? "is " + kind_name(*value)
                                        : "says something of " + std::to_string(parts.size())) +
                           ", but the bit of " + base.scenario.file + " has " + std::to_string(count) +
                           " cutters; write one finding a cutter from the axis outward, or not measured");
  return {};
}

void read_cutters(MapReader& map, const RecordBase& base, scenario::InspectedBit& found) {
  const geometry::BitLayout& layout = base.scenario.bit.layout;
  bool singly = false;
  const std::vector<YamlValue> parts = parts_of_cutters(map, base, singly);
  for (std::size_t i = 0; i < parts.size(); ++i) {
    CutterFinding finding;  // not measured
    if (!parts[i].is_nothing()) {
      const std::string path =
          map.path_of(singly ? cutter_key(static_cast<int>(i) + 1) : "cutters." + std::to_string(i));
      finding =
          read_finding(parts[i], path, map.reading(), layout.shape(static_cast<Eigen::Index>(i)).radius);
    }
    scenario::CutterSeen seen;
    seen.worn_height = finding.height;
    seen.at_least = finding.at_least;
    seen.renewed = finding.renewed;
    seen.lost = finding.lost;
    seen.table_gone = finding.table_gone;
    seen.chipped = finding.chipped;
    seen.heat_checked = finding.heat_checked;
    found.cutters.push_back(seen);
  }
}

/// How many cutters were chipped, lost or heat-checked; never fewer than are marked one by one.
std::optional<int> read_count(MapReader& map, const char* key, bool scenario::CutterSeen::*mark,
                              const RecordBase& base, const scenario::InspectedBit& found) {
  const auto most = static_cast<int>(base.scenario.bit.layout.count());
  const auto count = map.whole_number(key, 0, most);
  int marked = 0;
  for (const scenario::CutterSeen& seen : found.cutters) marked += seen.*mark ? 1 : 0;
  if (count && *count < marked)
    map.error(key, "counts " + std::to_string(*count) + ", but cutters marks " + std::to_string(marked) +
                       "; put one of them right");
  return count;
}

}  // namespace

void read_ground_and_plan(MapReader& map, const RecordBase& base, scenario::InspectedBit& found) {
  const auto ground = bounded_parts(map, "drilled");
  for (std::size_t i = 0; i < ground.size(); ++i)
    read_one_rock(map, ground[i], map.path_of("drilled") + "." + std::to_string(i), base, found);
  found.weight_on_bit = map.number("weight_on_bit", base::dimension::force, setting_range::weight_that_cuts);
  found.rotary_speed = map.number("rotary_speed", base::dimension::rotary_speed, setting_range::turning);
  found.flow = map.number("flow", base::dimension::flow, setting_range::flow);
}

scenario::InspectedBit read_bit_record(MapReader& map, const RecordBase& base) {
  scenario::InspectedBit found;
  found.location = map.location();
  read_name_and_day(map, found);
  found.scenario_file = base.scenario.file;
  found.lot = map.word("lot").value_or("");
  if (map.has("lot")) named_record(map, "lot", "lot", found.lot, base.library.lots);
  found.holes = map.whole_number("holes", 1, most_holes).value_or(base.scenario.repeat.holes);
  read_ground_and_plan(map, base, found);
  found.inner_grade = read_grade(map, "inner_grade");
  found.outer_grade = read_grade(map, "outer_grade");
  read_dull_grading(map, found);
  if (const auto loss = map.number("gauge_loss", base::dimension::length, gauge_loss_range))
    found.gauge_loss = loss;
  if (const auto reason = map.word("reason_pulled")) found.reason_pulled = *reason;
  read_cutters(map, base, found);
  found.breakage_noted = map.yes_or_no("breakage_noted").value_or(true);
  found.chipped = read_count(map, "chipped", &scenario::CutterSeen::chipped, base, found);
  found.lost = read_count(map, "lost", &scenario::CutterSeen::lost, base, found);
  found.heat_checked = read_count(map, "heat_checked", &scenario::CutterSeen::heat_checked, base, found);
  found.pockets = map.word("pockets").value_or("");
  found.body = map.word("body").value_or("");
  found.repairs = read_word_list(map, "repairs");
  found.photos = read_word_list(map, "photos");
  found.note = map.remark("note").value_or("");
  found.measurement_error = map.number_or("measurement_error", base::dimension::length, reading_error_range,
                                          found.measurement_error);
  if (!map.has("inner_grade") && !map.has("outer_grade") && !map.has("dull_grading") &&
      found.cutters.empty() && !map.has("chipped") && !map.has("lost") && !map.has("heat_checked"))
    map.warn("", "says what the bit did, but nothing of what was found on it: nothing is learnt from it");
  return found;
}

}  // namespace dullcast::input
