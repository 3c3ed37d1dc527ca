#pragma once

#include "engine/input/table_maps.hpp"

/// A shelf as a table: one row a bit, one column a key of its record.
namespace dullcast::input {

/// The keys of one record, in the order in which a person says them.
const std::vector<std::string>& record_keys();

/// The columns of a shelf (table_columns of its keys and of single cutters).
std::vector<TableColumn> shelf_columns(const CsvTable& table, const std::string& file, Problems& problems);

/// The rows of a shelf as records (maps_of_table).
std::vector<YamlValue> records_of_table(const CsvTable& table, const std::string& file, Problems& problems);

}  // namespace dullcast::input
