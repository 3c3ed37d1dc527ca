#include "engine/input/keys_asked.hpp"

#include <algorithm>
#include <string_view>

#include "engine/input/yaml_paths.hpp"

namespace dullcast::input {

namespace {

std::string with_stars(const std::string& path) {
  std::string result;
  for (const std::string& step : steps_of_path(path)) {
    const bool place = !step.empty() && step.find_first_not_of("0123456789") == std::string::npos;
    result += (result.empty() ? "" : ".") + (place ? "*" : step);
  }
  return result;
}

}  // namespace

bool KeyAsked::operator==(const KeyAsked& other) const {
  return kind == other.kind && wanted == other.wanted && least == other.least && most == other.most &&
         choices == other.choices && range.least == other.range.least && range.most == other.range.most &&
         range.least_itself == other.range.least_itself;
}

void KeysAsked::note(const scenario::Location& where, const std::string& path, KeyAsked asked) {
  if (where.file != file_ || path.empty()) return;
  std::vector<KeyAsked>& here = asked_[with_stars(path)];
  if (std::find(here.begin(), here.end(), asked) == here.end()) here.push_back(std::move(asked));
}

}  // namespace dullcast::input
