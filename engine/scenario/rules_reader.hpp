#pragma once

#include "engine/scenario/library.hpp"

namespace dullcast {

/// Reads `repeat:`, how often the column is drilled and when to stop.
Repeat read_repeat(MapReader& scenario);

/// Reads `rework:`, the rules of which the first to be met makes rework due.
ReworkRules read_rework(MapReader& scenario);

/// Reads `costs:`. The currency is the word all its money is written in.
Costs read_costs(MapReader& scenario);

/// Reads `other_method:`, another way to drill the same column; nothing when there is none. Its rig costs
/// what this one does (`costs`) unless given.
std::optional<OtherMethod> read_other_method(MapReader& scenario, const Costs& costs);

/// Reads `chance:`, "expected" or "drawn", or a map of draw: and seed: (given alone, a seed draws).
Chance read_chance(MapReader& scenario);

/// Reads `stepping:`.
Stepping read_stepping(MapReader& scenario);

}  // namespace dullcast
