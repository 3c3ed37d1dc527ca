#pragma once

#include <iosfwd>

#include "engine/forecast/doubts.hpp"
#include "engine/scenario/display.hpp"

namespace dullcast {

/// Tells which numbers dominate; `all` names those without effect too.
void print_doubts(std::ostream& out, const Scenario& scenario, const Doubts& doubts, ShownUnits units,
                  bool all);

/// One line a number as comma-separated values, SI: number, unit, low, central, high, mark, share, spread,
/// whether lived through, and for both ends hole, hours, whether rework fell due, hottest flat (K), chip
/// chance, wear per hole (m).
void write_doubts_csv(std::ostream& out, const Doubts& doubts);

}  // namespace dullcast
