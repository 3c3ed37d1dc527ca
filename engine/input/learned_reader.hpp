#pragma once

#include "engine/input/library.hpp"

namespace dullcast::input {

/// Reads `learned:` of a scenario: the name of a file, or a map with the same keys: what inspected bits have
/// told of the library's numbers, as own entries (rocks:, lots:, models:, ...), and how they go together.
/// Puts the numbers into `library`; the scenario's own entries, read afterwards, have the last word. Reports
/// what cannot be used.
std::optional<scenario::Learned> read_learned(MapReader& scenario, const std::string& folder,
                                              Library& library);

/// A file that was learnt, by itself: what scenarios name under `learned`. `library` is that which it is
/// about. Throws ScenarioErrors with all errors.
scenario::Learned read_learned_file(const std::string& file, const UnitParser& units, Library library);

/// Numbers of records that the library does not have but a scenario makes for itself, such as a lot: to be
/// called once its own entries are read. Where it is certain of a number, that stays.
void put_learned(const scenario::Learned& learned, Library& library);

}  // namespace dullcast::input
