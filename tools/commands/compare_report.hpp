#pragma once

#include <iosfwd>
#include <vector>

#include "engine/input/input_differences.hpp"
#include "tools/commands/report_words.hpp"
#include "tools/commands/told_run.hpp"

namespace dullcast::commands {

/// Tells what differs between runs: their inputs, then what came of it side by side, then layer by layer
/// where they drill the same column. `all` tells every differing input, otherwise the first ones and a count;
/// `brief` only what came of it.
void print_comparison(const Sheet& sheet, const std::vector<ToldRun>& runs,
                      const std::vector<input::InputDifference>& differences, bool all, bool brief);

/// The same as comma-separated values: part (input, outcome, layer), what, unit, then a column a run.
/// Outcomes and layers in SI, inputs as their resolved text.
void write_comparison_csv(std::ostream& out, const std::vector<ToldRun>& runs,
                          const std::vector<input::InputDifference>& differences);

}  // namespace dullcast::commands
