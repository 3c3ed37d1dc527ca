#pragma once

#include <vector>

#include "engine/input/map_reader.hpp"
#include "engine/sweep/sweep_plan.hpp"

namespace dullcast::sweep {

/// Reads the list under factors:. `scenario` is the base scenario's tree, with what is fixed applied. In a
/// design by `table` factors state no values of their own.
std::vector<Factor> read_factors(input::MapReader& plan, const input::YamlValue& scenario, DesignKind design);

/// Reads a table of comma-separated values into design rows: a heading of the targets' names, each perhaps
/// with its unit in brackets ("speed [rpm]"), then a line a case. Also settles what kind of value each target
/// takes. Errors are located in the table's file.
void read_design_table(const std::string& text, const std::string& file, input::Reading& reading,
                       std::vector<Factor>& factors, DesignChoice& design);

/// Opens a path's stars in the base scenario; reports one that leads nowhere.
std::vector<std::string> opened_paths(input::MapReader& map, std::string_view key, const std::string& path,
                                      const input::YamlValue& scenario);

}  // namespace dullcast::sweep
