#pragma once

#include "engine/scenario/library.hpp"

namespace dullcast {

/// Reads `repeat:`, how often the column is drilled and when to stop.
Repeat read_repeat(MapReader& scenario);

/// Reads `rework:`, the rules of which the first to be met makes rework due.
ReworkRules read_rework(MapReader& scenario);

/// Reads `costs:`. The currency is the word all its money is written in.
Costs read_costs(MapReader& scenario);

/// Reads `stepping:`.
Stepping read_stepping(MapReader& scenario);

}  // namespace dullcast
