#pragma once

#include <string>
#include <vector>

#include "engine/input/csv_table.hpp"
#include "engine/input/located_yaml.hpp"

/// Tables whose rows are maps: one column a key.
namespace dullcast::input {

/// The keys that a table's headings may name.
struct TableKeys {
  std::vector<std::string> names;       // in the order in which a person says them
  std::vector<std::string> with_units;  // those of them whose values have a dimension
  bool single_cutters = false;          // one cutter's finding as well (cutter_key)
};

/// The key of one cutter's finding, counted from 1: "cutter_7".
std::string cutter_key(int cutter);
inline constexpr int most_cutter_keys = 400;

/// What a heading names: a key, one cutter's ("cutter 7 (mm)"), or, where `drilled` is a key, the length
/// drilled in one rock ("drilled sandstone (m)"), whose columns are put together. A unit in brackets counts
/// for cells that state none. Capitals, blanks and hyphens in a heading make no difference.
struct TableColumn {
  std::string key;   // empty: the heading was wrong, and its cells are not read
  std::string rock;  // of `drilled`, where the column is of one rock
  std::string unit;  // as written; empty for none
};

/// The columns of a table; reports headings that name nothing or the same twice.
std::vector<TableColumn> table_columns(const CsvTable& table, const TableKeys& keys, const std::string& file,
                                       Problems& problems);

/// The rows of a table as maps, as they would stand in a file of YAML. Cells left empty say nothing. In a
/// table separated by semicolons numbers may have a decimal comma; one that could as well part thousands
/// ("6,750") is reported.
std::vector<YamlValue> maps_of_table(const CsvTable& table, const TableKeys& keys, const std::string& file,
                                     Problems& problems);

/// The parts of a value that lists several things: the items of a list, or of a text whose parts stand
/// between `;` or `|`, each with its place. Empty for nothing.
std::vector<YamlValue> parts_of(const YamlValue& value);

}  // namespace dullcast::input
