#pragma once

#include <functional>
#include <map>
#include <string>

#include "engine/input/map_reader.hpp"
#include "engine/input/usual_numbers.hpp"

/// The library of rocks, cutter grades, lots, fluids, bodies, bits and model numbers that scenarios draw
/// from.
namespace dullcast::input {

/// A library as read. Bits stay as YAML, because a scenario may change any part of one before it is laid out.
struct Library {
  std::map<std::string, scenario::RockRecord, std::less<>> rocks;
  std::map<std::string, scenario::GradeRecord, std::less<>> grades;
  std::map<std::string, scenario::LotRecord, std::less<>> lots;
  std::map<std::string, scenario::BodyRecord, std::less<>> bodies;
  std::map<std::string, scenario::FluidRecord, std::less<>> fluids;
  std::map<std::string, YamlValue, std::less<>> bits;
  scenario::ModelNumbers models;
  std::vector<UsualNumber> usual_rock;  // of the library's own rocks, whatever a scenario adds
};

/// The files of a library folder.
inline constexpr const char* library_files[] = {"rocks.yaml",  "grades.yaml", "lots.yaml",  "bodies.yaml",
                                                "fluids.yaml", "bits.yaml",   "models.yaml"};

/// A library as written: the text of every file by its name. Small enough to travel with results.
struct LibraryTexts {
  std::string folder;  // for messages
  std::map<std::string, std::string> files;
};

/// Throws ScenarioErrors when a file cannot be read.
LibraryTexts read_library_texts(const std::string& folder);

/// Reads library texts. Every number there has low, central, high, source and mark. Throws ScenarioErrors
/// with all errors of all files.
Library read_library(const LibraryTexts& texts, const UnitParser& units);
Library read_library(const std::string& folder, const UnitParser& units);

/// A scenario's own entries, by the keys of the library's files (rocks:, grades:, lots:, bodies:, fluids:,
/// bits:, models:), read over `library`: a known name changes the numbers given, a new one adds a record,
/// which starts from another with `like: NAME` or gives every number; a bit is described in full. A new
/// record may leave out its optional numbers: a rock then has no inclusions and does not stick (0, asm), a
/// grade's strengths are those of the standard grade, a body's resistances and strength those of steel.
void read_own_entries(MapReader& scenario, Library& library);

/// Reports a rock that holds inclusions without their size or strength, at the key inclusion_share of `map`,
/// and gives stones whose abrasivity is not stated the usual one of their strength (stone_abrasivity.hpp).
void check_inclusions(MapReader& map, scenario::RockRecord& rock);

/// The names of a map, for messages.
template <class Record>
std::vector<std::string> names_of(const std::map<std::string, Record, std::less<>>& records) {
  std::vector<std::string> result;
  for (const auto& [name, record] : records) result.push_back(name);
  return result;
}

/// "the library has no rock NAME; did you mean ...?".
std::string unknown_name(const char* what, std::string_view name, const std::vector<std::string>& names);

/// Looks up the record named by the text under a key of `map`; reports an unknown name and returns null.
template <class Record>
const Record* named_record(MapReader& map, std::string_view key, const char* what, std::string_view name,
                           const std::map<std::string, Record, std::less<>>& records) {
  const auto found = records.find(name);
  if (found != records.end()) return &found->second;
  const bool told = !map.reading().problems.only_counts();
  map.error(key, told ? unknown_name(what, name, names_of(records)) : "");
  return nullptr;
}

}  // namespace dullcast::input
