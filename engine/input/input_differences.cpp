#include "engine/input/input_differences.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>
#include <string_view>
#include <utility>

#include "engine/base/number_text.hpp"
#include "engine/input/scenario_reader.hpp"

namespace dullcast::input {
namespace {

/// More differing values than this under one list are told as one.
constexpr std::size_t most_of_a_list = 4;

/// Values of a text by their keys, with the order in which they stand.
struct Flat {
  std::vector<std::string> keys;
  std::map<std::string, std::string> values;
};

bool is_remark(const std::string& key) {
  return key == "title" || key == "note" || key == "mark" || key == "source";
}

std::string below(const std::string& path, const std::string& key) {
  return path.empty() ? key : path + "." + key;
}

void put(Flat& flat, const std::string& path, const std::string& value) {
  flat.keys.push_back(path);
  flat.values[path] = value;
}

void flatten(const YamlValue& value, const std::string& path, Flat& flat) {
  if (value.is_map()) {
    const YamlEntry *low = value.find("low"), *central = value.find("central"), *high = value.find("high");
    if (low != nullptr && central != nullptr && high != nullptr) {
      std::string text = central->value.text;
      if (low->value.text != text || high->value.text != text)
        text += " (" + low->value.text + " to " + high->value.text + ")";
      put(flat, path, text);
      return;
    }
    for (const YamlEntry& entry : value.entries) {
      if (!is_remark(entry.key)) flatten(entry.value, below(path, entry.key), flat);
    }
  } else if (value.is_list()) {
    for (std::size_t i = 0; i < value.items.size(); ++i)
      flatten(value.items[i], below(path, std::to_string(i)), flat);
  } else if (value.is_scalar()) {
    put(flat, path, value.text);
  }
}

/// The part of a key before the first number in it, "bit.cutters" of "bit.cutters.3.radius"; and of a record
/// of the library its name, "rocks.shale" of "rocks.shale.density". Empty for a value that stands alone.
std::string list_of(const std::string& key) {
  for (const char* records : {"rocks.", "grades.", "lots.", "bodies.", "fluids."}) {
    if (key.rfind(records, 0) == 0) return key.substr(0, key.find('.', std::string(records).size()));
  }
  std::size_t from = 0;
  while (from < key.size()) {
    const std::size_t dot = std::min(key.find('.', from), key.size());
    if (from > 0 && key.find_first_not_of("0123456789", from) >= dot) return key.substr(0, from - 1);
    from = dot + 1;
  }
  return {};
}

/// Whether two texts say one thing: the same word, or numbers in one unit that rounding alone sets apart.
bool same_value(const std::string& one, const std::string& other) {
  if (one == other) return true;
  double a = 0.0, b = 0.0;
  const auto first = base::read_number(one.data(), one.data() + one.size(), a);
  const auto second = base::read_number(other.data(), other.data() + other.size(), b);
  if (first.ec != std::errc() || second.ec != std::errc()) return false;
  constexpr double rounding = 1e-12;  // some units on the way to SI
  return std::string_view(first.ptr) == std::string_view(second.ptr) &&
         std::abs(a - b) <= rounding * std::max(std::abs(a), std::abs(b));
}

bool differs(const InputDifference& difference) {
  return !std::all_of(difference.values.begin(), difference.values.end(),
                      [&](const std::string& value) { return same_value(value, difference.values.front()); });
}

/// How many things stand under a list or in a record.
std::size_t things_under(const std::string& list, const Flat& flat) {
  std::set<std::string> names;
  for (const std::string& key : flat.keys) {
    if (key.rfind(list + ".", 0) != 0) continue;
    const std::size_t from = list.size() + 1;
    names.insert(key.substr(from, key.find('.', from) - from));
  }
  return names.size();
}

/// One line for many values of a list: what each scenario has of it.
InputDifference as_one(const std::string& list, const std::vector<Flat>& all) {
  InputDifference one{list, {}};
  for (const Flat& flat : all) {
    const std::size_t count = things_under(list, flat);
    one.values.push_back(count == 0 ? std::string()
                                    : std::to_string(count) + (count == 1 ? " item" : " items"));
  }
  // The same number of values: they are what differs.
  if (!differs(one)) {
    for (std::size_t k = 1; k < one.values.size(); ++k) one.values[k] += ", others";
  }
  return one;
}

}  // namespace

std::vector<InputDifference> input_differences(const std::vector<std::string>& resolved_texts) {
  std::vector<Flat> all;
  for (const std::string& text : resolved_texts) {
    Flat flat;
    flatten(ScenarioReader::parse(text, "a scenario"), "", flat);
    all.push_back(std::move(flat));
  }
  std::vector<InputDifference> found;
  std::map<std::string, std::size_t> of_list;
  std::map<std::string, bool> seen;
  for (const Flat& flat : all) {
    for (const std::string& key : flat.keys) {
      if (std::exchange(seen[key], true)) continue;
      InputDifference difference{key, {}};
      for (const Flat& other : all) {
        const auto value = other.values.find(key);
        difference.values.push_back(value == other.values.end() ? std::string() : value->second);
      }
      if (!differs(difference)) continue;
      found.push_back(difference);
      ++of_list[list_of(key)];
    }
  }
  std::vector<InputDifference> told;
  std::map<std::string, bool> lists_told;
  for (const InputDifference& difference : found) {
    const std::string list = list_of(difference.key);
    if (list.empty() || of_list[list] <= most_of_a_list)
      told.push_back(difference);
    else if (!std::exchange(lists_told[list], true))
      told.push_back(as_one(list, all));
  }
  return told;
}

}  // namespace dullcast::input
