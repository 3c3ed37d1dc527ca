#pragma once

#include <map>
#include <string>
#include <vector>

#include "engine/input/keys_asked.hpp"

/// What the readers of files that people write know, kind by kind.
namespace dullcast::schema_maker {

/// Every path that a kind's readers ask for, with all that they ask of it.
using AskedKeys = std::map<std::string, std::vector<input::KeyAsked>>;

/// The kinds whose keys readers tell; a file of the library and one of what was learnt are made of a
/// scenario's parts.
enum class Kind { scenario, sweep_plan, shop_plan, shelf };

/// Has the readers read what is shipped in `scenarios` (the source tree's folder) and texts that lead them to
/// all that no shipped file states, and keeps what they ask for. Throws ScenarioErrors for a library that
/// cannot be used, std::runtime_error for a folder that lacks what is shipped.
AskedKeys asked_keys(Kind kind, const std::string& scenarios);

}  // namespace dullcast::schema_maker
