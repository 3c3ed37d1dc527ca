#include "engine/input/map_reader.hpp"

#include <algorithm>
#include <charconv>
#include <limits>

#include "engine/base/plain_text.hpp"
#include "engine/base/words.hpp"
#include "engine/input/key_places.hpp"

namespace dullcast::input {

const YamlValue& no_value() {
  static const YamlValue nothing{};
  return nothing;
}

namespace {
const YamlValue& map_or_nothing(const YamlValue& value, const std::string& path, Reading& reading) {
  if (value.is_map() || value.is_nothing()) return value;
  reading.problems.error(value.location, path,
                         "is " + kind_name(value) + "; write a map of keys (key: value, one to a line)");
  return no_value();
}
}  // namespace

std::optional<double> read_number(const YamlValue& value, const std::string& path,
                                  const base::Dimension& wanted, const base::Range& range, Reading& reading) {
  if (reading.keys) reading.keys->note(value.location, path, {AskedFor::number, &wanted, range});
  if (!value.is_scalar()) {
    reading.problems.error(
        value.location, path,
        "is " + kind_name(value) + " where " + wanted.name + " is wanted; write " + wanted.examples);
    return std::nullopt;
  }
  try {
    const double number = reading.units.parse(value.text, wanted, reading.currency);
    if (within(range, number)) {
      if (reading.numbers) reading.numbers->note(path, {&wanted, range, number});
      return number;
    }
    reading.problems.error(value.location, path,
                           quoted_text(value.text) + " is out of range; it must be " + range.words);
  } catch (const UnitError& failure) {
    const std::string text = failure.what();
    // "has no unit" and the like speak of the value; show it.
    const bool shown = text.starts_with("\"");
    reading.problems.error(value.location, path, shown ? text : quoted_text(value.text) + " " + text);
  }
  return std::nullopt;
}

MapReader::MapReader(const YamlValue& value, std::string path, Reading& reading,
                     const scenario::Location& otherwise)
    : value_(map_or_nothing(value, path, reading)),
      path_(std::move(path)),
      reading_(reading),
      location_(value.location.file.empty() ? otherwise : value.location) {
  if (reading_.keys && value.is_map()) note("", {AskedFor::map});
}

void MapReader::note(std::string_view key, KeyAsked asked) const {
  if (reading_.keys) reading_.keys->note(location_, path_of(key), std::move(asked));
}

std::string MapReader::path_of(std::string_view key) const {
  if (key.empty()) return path_;
  return path_.empty() ? std::string(key) : path_ + "." + std::string(key);
}

scenario::Location MapReader::place(std::string_view key) const {
  const auto* entry = value_.find(key);
  return entry ? entry->value.location : location_;
}

bool MapReader::has(std::string_view key) const {
  const auto* entry = value_.find(key);
  return entry && !entry->value.is_nothing();
}

const YamlValue* MapReader::find(std::string_view key) {
  known_.emplace_back(key);
  note(key, {});
  const auto* entry = value_.find(key);
  return entry && !entry->value.is_nothing() ? &entry->value : nullptr;
}

const YamlValue* MapReader::uncertain(std::string_view key, const base::Dimension& wanted,
                                      const base::Range& range) {
  note(key, {AskedFor::uncertain_number, &wanted, range});
  return find(key);
}

std::optional<double> MapReader::number(std::string_view key, const base::Dimension& wanted,
                                        const base::Range& range) {
  note(key, {AskedFor::number, &wanted, range});
  const YamlValue* value = find(key);
  if (!value) return std::nullopt;
  return read_number(*value, path_of(key), wanted, range, reading_);
}

double MapReader::number_or(std::string_view key, const base::Dimension& wanted, const base::Range& range,
                            double otherwise) {
  return number(key, wanted, range).value_or(otherwise);
}

double MapReader::required(std::string_view key, const base::Dimension& wanted, const base::Range& range,
                           const char* example) {
  if (!has(key)) {
    known_.emplace_back(key);
    note(key, {AskedFor::number, &wanted, range});
    error(key, std::string("is missing; write ") + std::string(key) + ": " +
                   (example ? example : wanted.examples));
    return std::numeric_limits<double>::quiet_NaN();  // the error keeps it out of any Scenario
  }
  return number(key, wanted, range).value_or(std::numeric_limits<double>::quiet_NaN());
}

std::optional<int> MapReader::whole_number(std::string_view key, int least, int most) {
  const auto number = long_whole_number(key, least, most);
  if (!number) return std::nullopt;
  return static_cast<int>(*number);
}

std::optional<std::int64_t> MapReader::long_whole_number(std::string_view key, std::int64_t least,
                                                         std::int64_t most) {
  note(key, {AskedFor::whole_number, nullptr, {}, least, most});
  const YamlValue* value = find(key);
  if (!value) return std::nullopt;
  std::int64_t number = 0;
  const char* end = value->text.data() + value->text.size();
  const auto [stop, failure] = std::from_chars(value->text.data(), end, number);
  if (value->is_scalar() && failure == std::errc() && stop == end && number >= least && number <= most) {
    return number;
  }
  const bool spaced = value->is_scalar() && value->text.find_first_of(" ,") != std::string::npos;
  error(key, kind_name(*value) + (spaced ? " has a space or a comma in it and" : "") +
                 " is no whole number from " + std::to_string(least) + " to " + std::to_string(most) +
                 "; write " + std::string(key) + ": " + std::to_string(std::max(least, std::int64_t{1})));
  return std::nullopt;
}

std::optional<std::string> MapReader::whole_text(std::string_view key) {
  note(key, {AskedFor::words});
  const YamlValue* value = find(key);
  if (!value) return std::nullopt;
  if (value->is_scalar()) return value->text;
  error(key, "is " + kind_name(*value) + "; write a few words of text");
  return std::nullopt;
}

std::optional<std::string> MapReader::plain_only(std::string_view key, std::string text) {
  if (base::is_plain(text)) return text;
  error(key, quoted_text(text) +
                 " holds a control character, a tab or an end of line; write plain words on one line");
  return std::nullopt;
}

std::optional<std::string> MapReader::word(std::string_view key) {
  auto text = whole_text(key);
  return text ? plain_only(key, std::move(*text)) : std::nullopt;
}

std::optional<std::string> MapReader::remark(std::string_view key) {
  auto text = whole_text(key);
  if (!text) return std::nullopt;
  while (text->ends_with('\n')) text->pop_back();
  std::replace(text->begin(), text->end(), '\n', ' ');
  return plain_only(key, std::move(*text));
}

std::optional<bool> MapReader::yes_or_no(std::string_view key) {
  const auto index = choice(key, {"yes", "no", "true", "false"});
  if (!index) return std::nullopt;
  return *index == 0 || *index == 2;
}

std::optional<std::size_t> MapReader::choice(std::string_view key, const std::vector<std::string>& words) {
  note(key, {AskedFor::one_of, nullptr, {}, 0, 0, words});
  const YamlValue* value = find(key);
  if (!value) return std::nullopt;
  const auto found = std::find(words.begin(), words.end(), value->is_scalar() ? value->text : "");
  if (found != words.end()) return static_cast<std::size_t>(found - words.begin());
  error(key, "is " + kind_name(*value) + "; write " + base::one_of(words));
  return std::nullopt;
}

MapReader MapReader::map(std::string_view key) {
  note(key, {AskedFor::map});
  const YamlValue* value = find(key);
  return {value ? *value : no_value(), path_of(key), reading_, location_};
}

const std::vector<YamlValue>& MapReader::list(std::string_view key) {
  note(key, {AskedFor::list});
  const YamlValue* value = find(key);
  if (!value) return no_value().items;
  if (!value->is_list()) {
    error(key, "is " + kind_name(*value) + "; write a list, one \"- \" to an item");
    return no_value().items;
  }
  return value->items;
}

void MapReader::error(std::string_view key, const std::string& text) {
  reading_.problems.error(place(key), path_of(key), text);
}

void MapReader::warn(std::string_view key, const std::string& text) {
  reading_.problems.warn(place(key), path_of(key), text);
}

void MapReader::finish() {
  for (const auto& entry : value_.entries) {
    if (std::find(known_.begin(), known_.end(), entry.key) != known_.end()) continue;
    const bool told = !reading_.problems.only_counts();
    reading_.problems.error(entry.location, path_of(entry.key),
                            told ? "is not a key here; " + key_hint(entry.key, path_, known_) : "");
  }
}

}  // namespace dullcast::input
