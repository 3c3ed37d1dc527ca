#pragma once

#include <string>
#include <vector>

#include "engine/input/located_yaml.hpp"

namespace dullcast::input {

/// Applies "key=value" texts of --set to a scenario's tree before it is checked: paths such as bit.grade,
/// plan.0.rotary_speed (lists count from 0), repeat.holes; layers.2.rock is short for column.layers.2.rock.
/// The value is YAML (so [1, 2] is a list). What is set knows its place as "--set KEY". A path through
/// something that is no map or list, an index outside its list, a text without "=" or a key set twice is an
/// error; a key that the reader does not know is reported later by the reader, as in a file.
void apply_sets(const std::vector<std::string>& sets, YamlValue& root, Problems& problems);

}  // namespace dullcast::input
