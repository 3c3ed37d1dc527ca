#pragma once

#include <ostream>
#include <vector>

#include "engine/analysis/operating_window.hpp"
#include "tools/commands/report_words.hpp"

namespace dullcast::commands {

/// One window as a map of letters (weight up, speed across; the cell next to the planned setting in
/// brackets), its edges in words, and what the planned setting does. `brief` leaves map and edges out.
void print_window(const Sheet& sheet, const scenario::Scenario& scenario,
                  const analysis::OperatingWindow& window, bool brief = false);

/// What the letters and the limits of all windows mean, and how far to trust them.
void print_window_legend(const Sheet& sheet, const std::vector<analysis::OperatingWindow>& windows);

/// Every cell, planned setting and edge of all windows as comma-separated values; units stand in the header.
/// The column `row` says which a line is: cell, planned, greatest or least (an edge's end, with what binds
/// just outside it; only the first columns and `limit` are filled).
void write_window_csv(std::ostream& out, const scenario::Scenario& scenario,
                      const std::vector<analysis::OperatingWindow>& windows);

/// The letter that stands for a limit in a map.
char window_letter(analysis::WindowLimit limit);

}  // namespace dullcast::commands
