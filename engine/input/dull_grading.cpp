#include "engine/input/dull_grading.hpp"

#include <algorithm>
#include <charconv>

#include "engine/base/words.hpp"

namespace dullcast::input {
namespace {

constexpr const char* grading_key = "dull_grading";
constexpr double sixteenth_of_an_inch = 0.0254 / 16.0;  // m, exact

/// A code of the system and what it stands for.
struct GradingCode {
  const char* code;
  const char* words;
};

// Those of the system's codes that a fixed-cutter bit without moving parts can have.
constexpr GradingCode characteristics[] = {{"BF", "bond failure"},
                                           {"BT", "broken cutters"},
                                           {"BU", "balled up"},
                                           {"CR", "cored"},
                                           {"CT", "chipped cutters"},
                                           {"ER", "erosion"},
                                           {"HC", "heat checking"},
                                           {"JD", "junk damage"},
                                           {"LN", "lost nozzle"},
                                           {"LT", "lost cutters"},
                                           {"NO", "no dull characteristic"},
                                           {"NR", "not rerunnable"},
                                           {"PN", "plugged nozzle"},
                                           {"RG", "rounded gauge"},
                                           {"RO", "ring out"},
                                           {"RR", "rerunnable"},
                                           {"WO", "washed out bit"},
                                           {"WT", "worn cutters"}};
constexpr GradingCode places_on_bit[] = {{"A", "all areas"}, {"C", "cone"},     {"G", "gauge"},
                                         {"N", "nose"},      {"S", "shoulder"}, {"T", "taper"}};
constexpr GradingCode reasons[] = {{"BHA", "change of the bottom-hole assembly"},
                                   {"CM", "condition mud"},
                                   {"CP", "core point"},
                                   {"DMF", "downhole motor failure"},
                                   {"DP", "drill plug"},
                                   {"DSF", "drill string failure"},
                                   {"DST", "drill stem test"},
                                   {"DTF", "downhole tool failure"},
                                   {"FM", "formation change"},
                                   {"HP", "hole problems"},
                                   {"HR", "hours on bit"},
                                   {"LIH", "left in hole"},
                                   {"LOG", "run logs"},
                                   {"PP", "pump pressure"},
                                   {"PR", "penetration rate"},
                                   {"RIG", "rig repair"},
                                   {"TD", "total depth"},
                                   {"TQ", "torque"},
                                   {"TW", "twist off"},
                                   {"WC", "weather conditions"}};

std::string capitals(std::string text) {
  for (char& c : text) c = c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c;
  return text;
}

/// What a code stands for; empty, with the error told, when it is none of `codes`.
template <std::size_t count>
std::string words_of(MapReader& map, const std::string& field, const char* what,
                     const GradingCode (&codes)[count]) {
  std::vector<std::string> all;
  for (const GradingCode& each : codes) {
    if (capitals(field) == each.code) return each.words;
    all.push_back(std::string(each.code) + " (" + each.words + ")");
  }
  map.error(grading_key,
            quoted_text(field) + " is no " + what + " of a fixed-cutter bit; write " + base::one_of(all));
  return {};
}

std::optional<int> whole_from(std::string_view text, int most) {
  int number = 0;
  const auto [end, failure] = std::from_chars(text.data(), text.data() + text.size(), number);
  const bool whole = failure == std::errc() && end == text.data() + text.size();
  return whole && number >= 0 && number <= most ? std::optional(number) : std::nullopt;
}

void take_characteristic(const std::string& words, scenario::InspectedBit& bit) {
  if (words.empty() || words == "no dull characteristic") return;
  if (std::find(bit.characteristics.begin(), bit.characteristics.end(), words) == bit.characteristics.end())
    bit.characteristics.push_back(words);
  bit.some_chipped |= words == "chipped cutters" || words == "broken cutters";
  bit.some_lost |= words == "lost cutters";
  bit.some_bared |= words == "bond failure";
  bit.some_heat_checked |= words == "heat checking";
}

/// "I", or how much under gauge: "2" or "2/16" sixteenths of an inch, "1/8".
std::optional<double> gauge_of(const std::string& field) {
  if (capitals(field) == "I") return 0.0;
  const auto slash = field.find('/');
  const auto over = whole_from(std::string_view(field).substr(0, slash), 32);
  if (!over || *over == 0) return std::nullopt;
  if (slash == field.npos) return *over * sixteenth_of_an_inch;
  const auto under = whole_from(std::string_view(field).substr(slash + 1), 16);
  if (!under || *under == 0 || 16 % *under != 0) return std::nullopt;
  return *over * sixteenth_of_an_inch * 16.0 / *under;
}

void take_zone(MapReader& map, const std::string& field, const char* zone,
               std::optional<scenario::GradeSeen>& grade) {
  const auto number = whole_from(field, 8);
  if (!number) {
    map.error(grading_key,
              quoted_text(field) + " is no grade of the " + zone + " rows; write a whole number from 0 to 8");
  } else if (grade && (grade->at_least ? *number < grade->grade : *number != grade->grade)) {
    map.error(grading_key, "grades the " + std::string(zone) + " rows " + field + ", but " + zone +
                               "_grade says otherwise; keep one of them");
  } else {
    grade = scenario::GradeSeen{static_cast<double>(*number), false};
  }
}

}  // namespace

std::optional<scenario::GradeSeen> read_grade(MapReader& map, std::string_view key) {
  const YamlValue* value = map.find(key);
  if (!value) return std::nullopt;
  constexpr std::string_view at_least = "at least ";
  scenario::GradeSeen seen;
  std::string_view text = value->text;
  if (capitals(std::string(text.substr(0, at_least.size()))) == capitals(std::string(at_least))) {
    seen.at_least = true;
    text.remove_prefix(at_least.size());
    text.remove_prefix(std::min(text.find_first_not_of(' '), text.size()));
  }
  const auto number = value->is_scalar() ? whole_from(text, 8) : std::nullopt;
  if (!number) {
    map.error(key, kind_name(*value) +
                       " is no dull grade; write a whole number from 0 to 8 (eighths of the cutters' usable "
                       "height that are gone), or at least 6");
    return std::nullopt;
  }
  seen.grade = *number;
  return seen;
}

bool read_dull_grading(MapReader& map, scenario::InspectedBit& bit) {
  const auto text = map.word(grading_key);
  if (!text) return map.has(grading_key);
  std::vector<std::string> fields;
  for (std::size_t at = 0; at < text->size();) {
    const std::size_t end = std::min(text->find_first_of(" ,-", at), text->size());
    if (end > at) fields.push_back(text->substr(at, end - at));
    at = end + 1;
  }
  if (fields.size() != 8) {
    map.error(grading_key, quoted_text(*text) + " has " + std::to_string(fields.size()) +
                               " fields, not eight; write inner, outer, dull characteristic, location, X, "
                               "gauge, other characteristic, reason pulled, such as 2-4-WT-S-X-I-CT-TD");
    return true;
  }
  take_zone(map, fields[0], "inner", bit.inner_grade);
  take_zone(map, fields[1], "outer", bit.outer_grade);
  take_characteristic(words_of(map, fields[2], "dull characteristic", characteristics), bit);
  bit.graded_where = words_of(map, fields[3], "location", places_on_bit);
  if (capitals(fields[4]) != "X")
    map.error(grading_key,
              quoted_text(fields[4]) + " stands for bearings, which a fixed-cutter bit has none of; write X");
  if (const auto loss = gauge_of(fields[5])) {
    bit.gauge_loss = *loss;
  } else {
    map.error(grading_key, quoted_text(fields[5]) +
                               " is no gauge; write I for in gauge, or sixteenths of an inch under, such as "
                               "2 or 1/8");
  }
  take_characteristic(words_of(map, fields[6], "other characteristic", characteristics), bit);
  bit.reason_pulled = words_of(map, fields[7], "reason pulled", reasons);
  return true;
}

}  // namespace dullcast::input
