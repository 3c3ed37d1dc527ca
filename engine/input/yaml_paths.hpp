#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "engine/input/located_yaml.hpp"

namespace dullcast::input {

/// The steps of a path: what stands between its dots, plan.0.flow in three.
std::vector<std::string> steps_of_path(const std::string& path);

/// The place, counted from 0, that a step names in a list of so many items; none where it names none.
std::optional<std::size_t> place_in_list(const std::string& step, std::size_t count);

/// The value at a path such as plan.0.flow ("layers" is short for column.layers); null where nothing stands.
const YamlValue* value_at(const YamlValue& root, const std::string& path);

/// A path with its stars opened: plan.*.flow becomes plan.0.flow, plan.1.flow, ... for every item of the
/// list; one without stars comes back as it is. Empty when a star stands where there is no list.
std::vector<std::string> open_stars(const YamlValue& root, const std::string& path);

}  // namespace dullcast::input
