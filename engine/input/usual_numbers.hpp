#pragma once

#include <string>
#include <vector>

#include "engine/input/map_reader.hpp"
#include "engine/scenario/scenario.hpp"

/// What numbers of rocks usually are, so that a slip in a unit is noticed.
namespace dullcast::input {

/// Between which values (SI) a number lies in all rocks of a library, low to high.
struct UsualNumber {
  double least = 0.0, most = 0.0;
};

/// One for each of number_fields(RockRecord), in its order; empty for no rocks.
std::vector<UsualNumber> usual_numbers(const std::vector<scenario::RockRecord>& rocks);

/// "; rocks of the library have 2 to 300 MPa" for the rock number `key`; empty where there are none.
std::string usual_words(std::string_view key, const std::vector<UsualNumber>& usual, const UnitParser& units);

/// Warns of each number of a rock that `map` states and that lies further than a factor of three outside what
/// rocks of the library have [asm].
void warn_unusual(MapReader& map, const scenario::RockRecord& rock, const std::vector<UsualNumber>& usual);

}  // namespace dullcast::input
