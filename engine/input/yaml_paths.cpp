#include "engine/input/yaml_paths.hpp"

#include <charconv>

namespace dullcast::input {
namespace {

/// "layers" at the top of a path is short for column.layers, as in --set.
std::string in_full(const YamlValue& root, const std::string& path) {
  const bool layers = path == "layers" || path.starts_with("layers.");
  return layers && !root.find("layers") ? "column." + path : path;
}

}  // namespace

std::vector<std::string> steps_of_path(const std::string& path) {
  std::vector<std::string> steps(1);
  for (const char c : path) {
    if (c == '.') {
      steps.emplace_back();
    } else {
      steps.back() += c;
    }
  }
  return steps;
}

std::optional<std::size_t> place_in_list(const std::string& step, std::size_t count) {
  std::size_t index = 0;
  const char* end = step.data() + step.size();
  const auto [stop, failure] = std::from_chars(step.data(), end, index);
  if (failure != std::errc() || stop != end || index >= count) return std::nullopt;
  return index;
}

const YamlValue* value_at(const YamlValue& root, const std::string& asked) {
  const YamlValue* here = &root;
  for (const std::string& step : steps_of_path(in_full(root, asked))) {
    if (here->is_list()) {
      const auto index = place_in_list(step, here->items.size());
      if (!index) return nullptr;
      here = &here->items[*index];
    } else {
      const YamlEntry* entry = here->find(step);
      if (!entry) return nullptr;
      here = &entry->value;
    }
  }
  return here;
}

std::vector<std::string> open_stars(const YamlValue& root, const std::string& asked) {
  std::vector<std::string> open{in_full(root, asked)};
  for (;;) {
    std::vector<std::string> next;
    bool any = false;
    for (const std::string& path : open) {
      const std::size_t star = path.find(".*");
      const bool whole_step = star != path.npos && (star + 2 == path.size() || path[star + 2] == '.');
      if (!whole_step) {
        next.push_back(path);
        continue;
      }
      any = true;
      const YamlValue* list = value_at(root, path.substr(0, star));
      if (!list || !list->is_list()) continue;
      for (std::size_t i = 0; i < list->items.size(); ++i)
        next.push_back(path.substr(0, star + 1) + std::to_string(i) + path.substr(star + 2));
    }
    open = std::move(next);
    if (!any) return open;
  }
}

}  // namespace dullcast::input
