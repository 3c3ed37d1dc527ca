#pragma once

#include <string>

#include "engine/input/scenario_reader.hpp"
#include "tools/shelf_maker/bits_found.hpp"

namespace dullcast::shelf_maker {

/// The whole shelf as a table: what forty bits did (bits_drilled.hpp) and what was found on them
/// (bits_found.hpp), its scenarios taken from `folder`. The same seed and engine give the same text. Throws
/// ScenarioErrors when the scenarios cannot be used.
std::string shelf_text(const input::ScenarioReader& reader, const std::string& folder, unsigned long seed,
                       const Planted& planted);

}  // namespace dullcast::shelf_maker
