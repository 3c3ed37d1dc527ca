#include "engine/input/set_values.hpp"

#include <set>

#include "engine/base/plain_text.hpp"
#include "engine/input/yaml_paths.hpp"

namespace dullcast::input {

namespace {

/// Puts the place of a --set on a value and all below it.
void place_at(YamlValue& value, const scenario::Location& location) {
  value.location = location;
  for (auto& item : value.items) place_at(item, location);
  for (auto& entry : value.entries) {
    entry.location = location;
    place_at(entry.value, location);
  }
}

/// The value at a path, made where it is missing; null after reporting an impossible path.
YamlValue* walk(YamlValue& root, const std::vector<std::string>& path, const scenario::Location& place,
                Problems& problems) {
  YamlValue* here = &root;
  std::string walked;
  for (const auto& step : path) {
    if (step.empty()) {
      problems.error(place, "", "has an empty step in its path; write it like plan.0.rotary_speed=80 rpm");
      return nullptr;
    }
    if (here->is_list()) {
      const auto index = place_in_list(step, here->items.size());
      if (!index) {
        problems.error(place, "",
                       "\"" + step + "\" is no place in " + walked + ", a list of " +
                           std::to_string(here->items.size()) + "; count from 0");
        return nullptr;
      }
      here = &here->items[*index];
    } else if (here->is_map() || here->is_nothing() || (walked == "fluid" && here->is_scalar())) {
      if (here->is_scalar()) {  // "fluid: water" is short for a map with its name
        YamlValue name = *here;
        here->text.clear();
        here->entries.push_back({"name", name.location, name});
      }
      if (!here->is_map()) {
        here->kind = YamlValue::Kind::map;
        if (here->location.file.empty()) here->location = place;
      }
      auto* entry = here->find(step);
      if (!entry) {
        here->entries.push_back({step, place, YamlValue{}});
        entry = &here->entries.back();
        entry->value.location = place;
      }
      here = &entry->value;
    } else {
      problems.error(
          place, "",
          "there is nothing below " + walked + ", which is " + kind_name(*here) + "; shorten the path");
      return nullptr;
    }
    walked += (walked.empty() ? "" : ".") + step;
  }
  return here;
}

}  // namespace

void apply_sets(const std::vector<std::string>& sets, YamlValue& root, Problems& problems) {
  std::set<std::string> seen;
  for (const auto& text : sets) {
    const auto equals = text.find('=');
    const std::string key = text.substr(0, equals);
    const scenario::Location place{"--set " + key, 0, 0};
    if (equals == std::string::npos || key.empty()) {
      problems.error({"--set " + text, 0, 0}, "",
                     "has no key and value; write it like --set bit.grade=premium");
      continue;
    }
    if (base::first_not_utf8(text) != std::string::npos || !base::is_plain(key)) {
      problems.error(place, "", "holds a control character or is not UTF-8; write plain text");
      continue;
    }
    if (!seen.insert(key).second) {
      problems.error(place, "", "is given twice; keep one of them");
      continue;
    }
    Problems in_value;
    YamlValue value = parse_yaml(text.substr(equals + 1), place.file, in_value);
    if (in_value.any_error()) {
      problems.error(
          place, "",
          quoted_text(text.substr(equals + 1)) + " is no value; quote it or write it as in a file");
      continue;
    }
    auto path = steps_of_path(key);
    if (path.front() == "layers" && !root.find("layers")) path.insert(path.begin(), "column");
    if (YamlValue* target = walk(root, path, place, problems)) {
      place_at(value, place);
      *target = std::move(value);
    }
  }
}

}  // namespace dullcast::input
