#pragma once

#include "engine/input/scenario_reader.hpp"
#include "engine/scenario/inspected_bit.hpp"

/// A shelf: the records of bits that came back, in a file of YAML or a table that a spreadsheet writes.
namespace dullcast::input {

/// Reads a shelf. A file whose name ends in .csv is a table (shelf_table.hpp); any other is YAML: a list
/// under `shelf:` with one map a record, and under `shared:` what counts for every record that does not say
/// otherwise. Each record comes with its run (run_of_record), whose resolved text is left empty. Paths of
/// scenarios start from the shelf's folder; a scenario is read once for all records that name it. Throws
/// ScenarioErrors with all mistakes of the file, each with its place (key "shelf.3.flow" in YAML, "flow" in a
/// table): what scenarios are checked for, bits named twice on one day, scenarios that cannot be used or go
/// on from a result, no record at all. What is unwise but possible is appended to `warnings`.
std::vector<scenario::ShelvedBit> read_shelf(const std::string& path, const ScenarioReader& reader,
                                             std::vector<Warning>& warnings);

/// The same of a text, which may hold no record yet; `file` is the name for messages, tells the layout by its
/// ending and is the place that relative paths start from.
std::vector<scenario::ShelvedBit> read_shelf_text(const std::string& text, const std::string& file,
                                                  const ScenarioReader& reader,
                                                  std::vector<Warning>& warnings);

/// Whether a file of this name is a table.
bool is_table_name(const std::string& file);

}  // namespace dullcast::input
