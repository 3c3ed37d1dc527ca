#pragma once

#include <optional>

#include "engine/input/csv_table.hpp"
#include "engine/input/located_yaml.hpp"

/// A shelf as a table: one row a bit, one column a key of its record.
namespace dullcast::input {

/// The keys of one record, in the order in which a person says them.
const std::vector<std::string>& record_keys();

/// The key of one cutter's finding, counted from 1: "cutter_7".
std::string cutter_key(int cutter);
inline constexpr int most_cutter_keys = 400;

/// What a heading names: a key of a record or of one cutter ("cutter 7 (mm)"), or the length drilled in one
/// rock ("drilled sandstone (m)"), whose columns are put together. A unit in brackets counts for cells that
/// state none. Capitals, blanks and hyphens in a heading make no difference.
struct ShelfColumn {
  std::string key;   // empty: the heading was wrong, and its cells are not read
  std::string rock;  // of `drilled`, where the column is of one rock
  std::string unit;  // as written; empty for none
};

/// The columns of a table; reports headings that name nothing or the same twice.
std::vector<ShelfColumn> shelf_columns(const CsvTable& table, const std::string& file, Problems& problems);

/// The rows of a table as records: maps as they would stand in a file of YAML. Cells left empty say nothing.
/// In a table separated by semicolons numbers may have a decimal comma; one that could as well part thousands
/// ("6,750") is reported.
std::vector<YamlValue> records_of_table(const CsvTable& table, const std::string& file, Problems& problems);

/// The parts of a value that lists several things: the items of a list, or of a text whose parts stand
/// between `;` or `|`, each with its place. Empty for nothing.
std::vector<YamlValue> parts_of(const YamlValue& value);

}  // namespace dullcast::input
