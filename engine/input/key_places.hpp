#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace dullcast::input {

/// Where in a scenario a key stands: the maps that have it ("bit.blades", "an item of plan"); empty for a key
/// that no map has. Names that people give are no keys.
std::vector<std::string> places_of_key(std::string_view key);

/// What to say of a key that the map at `path` does not have, whose keys are `known`: keys that have its name
/// as a part ("back_rake": inner_back_rake or outer_back_rake), the nearest one, where it belongs instead, or
/// all of `known`.
std::string key_hint(const std::string& key, const std::string& path, std::vector<std::string> known);

}  // namespace dullcast::input
