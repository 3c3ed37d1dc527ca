#pragma once

#include <iosfwd>
#include <vector>

#include "engine/analysis/cooling_table.hpp"
#include "tools/commands/report_words.hpp"

namespace dullcast::commands {

/// What `dullcast cooling` found: each flow at the bit, and the least flow by layer for the bit as it starts
/// and worn to its rule.
struct CoolingFigures {
  analysis::FlowTable flows;
  std::vector<analysis::LeastFlow> at_start, worn;
};

/// All of it, or (`brief`) only whether the planned flow is enough and where it is not.
void print_cooling(const Sheet& sheet, const scenario::Scenario& scenario, const CoolingFigures& figures,
                   bool brief);

/// Both tables as comma-separated values, SI with units in the heading; `table` says which a line is of:
/// flow, least_at_start, least_worn.
void write_cooling_csv(std::ostream& out, const CoolingFigures& figures);

}  // namespace dullcast::commands
