#pragma once

#include <iosfwd>

#include "engine/analysis/uncertainty_ranking.hpp"
#include "engine/base/display.hpp"

namespace dullcast::commands {

/// Tells which numbers dominate; `all` names those without effect too.
void print_uncertainty_ranking(std::ostream& out, const scenario::Scenario& scenario,
                               const analysis::UncertaintyRanking& doubts, base::ShownUnits units, bool all);

/// One line a number as comma-separated values, SI: number, unit, low, central, high, mark, share, spread,
/// whether lived through, and for both ends hole, hours, whether rework fell due, hottest flat (K), chip
/// chance, wear per hole (m); then what share and spread are of, "life" or "wear_of_hole"; last the
/// scenario's title and bit.
void write_uncertainty_csv(std::ostream& out, const analysis::UncertaintyRanking& doubts,
                           const scenario::Scenario& scenario);

}  // namespace dullcast::commands
