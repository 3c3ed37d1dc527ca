#pragma once

#include "engine/input/library.hpp"

namespace dullcast::input {

/// Reads `repeat:`, how often the column is drilled and when to stop.
scenario::Repeat read_repeat(MapReader& scenario);

/// Reads `rework:`, the rules of which the first to be met makes rework due.
scenario::ReworkRules read_rework(MapReader& scenario);

/// Reads `costs:`. The currency is the word all its money is written in.
scenario::Costs read_costs(MapReader& scenario);

/// Reads `other_method:`, another way to drill the same column; nothing when there is none. Its rig costs
/// what this one does (`costs`) unless given.
std::optional<scenario::OtherMethod> read_other_method(MapReader& scenario, const scenario::Costs& costs);

/// Reads `chance:`, "expected" or "drawn", or a map of draw: and seed: (given alone, a seed draws).
scenario::RandomEvents read_random_events(MapReader& scenario);

/// Reads `stepping:`.
scenario::Stepping read_stepping(MapReader& scenario);

}  // namespace dullcast::input
