#include "engine/shop/plan_reading.hpp"

#include <algorithm>

#include "engine/base/words.hpp"
#include "engine/input/bit_reader.hpp"
#include "engine/input/shelf_reader.hpp"
#include "engine/input/text_file.hpp"

namespace dullcast::shop {
namespace {

constexpr std::size_t longest_name = 80;

}  // namespace

std::optional<std::string> PlanReading::text_of(input::MapReader& map, const char* key,
                                                const std::string& file) {
  const auto met =
      std::find_if(texts.begin(), texts.end(), [&](const PlanText& one) { return one.file == file; });
  if (met != texts.end()) return met->text;
  try {
    texts.push_back({file, input::read_text_file(file)});
  } catch (const input::ScenarioErrors& failure) {
    map.error(key, "cannot be used: " + failure.messages().front());
    return std::nullopt;
  }
  return texts.back().text;
}

void PlanReading::keep(const input::ScenarioErrors& failure) {
  for (const std::string& message : failure.messages()) {
    if (std::find(other_files.begin(), other_files.end(), message) == other_files.end())
      other_files.push_back(message);
  }
}

void PlanReading::keep(const std::vector<input::Warning>& warnings) {
  for (const input::Warning& warning : warnings) {
    const std::string message = warning.message();
    if (std::none_of(unwise.begin(), unwise.end(),
                     [&](const input::Warning& other) { return other.message() == message; }))
      unwise.push_back(warning);
  }
}

PlanRows plan_rows(input::MapReader& map, const char* key, const input::TableKeys& keys, PlanReading& plan) {
  PlanRows result;
  result.key = map.path_of(key);
  result.location = map.place(key);
  const input::YamlValue* value = map.find(key);
  if (!value) return result;
  if (value->is_list()) {
    result.rows = value->items;
  } else if (value->is_scalar() && input::is_table_name(value->text)) {
    const std::string file = input::path_beside(value->text, plan.folder);
    result.table = true;
    result.location = {file, 1, 1};
    if (const auto text = plan.text_of(map, key, file)) {
      input::Problems& problems = map.reading().problems;
      result.rows = input::maps_of_table(input::read_csv(*text, file, problems), keys, file, problems);
    }
  } else {
    map.error(key, "is " + input::kind_name(*value) +
                       "; write a list, one \"- \" to an item, or the name of a table such as " + key +
                       ".csv");
  }
  if (result.rows.size() > input::most_csv_rows) {
    map.error(key, "has " + std::to_string(result.rows.size()) + " items; no plan has more than " +
                       std::to_string(input::most_csv_rows));
    result.rows.clear();
  }
  return result;
}

std::optional<std::size_t> index_of(input::MapReader& map, const char* key, const char* what,
                                    const std::vector<std::string>& names) {
  const auto name = map.word(key);
  if (!name) return std::nullopt;
  const auto found = std::find(names.begin(), names.end(), *name);
  if (found != names.end()) return static_cast<std::size_t>(found - names.begin());
  const std::string nearest = base::nearest_word(*name, names);
  map.error(key, input::quoted_text(*name) + " is no " + what + " of the plan" +
                     (!nearest.empty()      ? "; did you mean " + nearest + "?"
                      : names.empty()       ? ", which has none"
                      : names.size() <= 12u ? "; write " + base::one_of(names)
                                            : ""));
  return std::nullopt;
}

std::string own_name(input::MapReader& map, const char* key, const char* example,
                     std::map<std::string, int>& met) {
  const auto name = map.word(key);
  if (!name) {
    if (!map.has(key)) map.error(key, std::string("is missing; write a name, such as ") + example);
    return {};
  }
  if (name->empty() || name->size() > longest_name) {
    map.error(key, input::quoted_text(*name) + " is no name; write one of 1 to " +
                       std::to_string(longest_name) + " bytes, such as " + example);
    return {};
  }
  const auto [first, is_new] = met.emplace(*name, map.place(key).line);
  if (is_new) return *name;
  map.error(key, input::quoted_text(*name) + " stands on line " + std::to_string(first->second) +
                     " already; give each a name of its own");
  return {};
}

}  // namespace dullcast::shop
