#pragma once

#include "engine/input/library.hpp"

namespace dullcast::input {

/// Reads `repeat:`, how often the column is drilled and when to stop.
scenario::Repeat read_repeat(MapReader& scenario);

/// Reads `rework:`, the rules of which the first to be met makes rework due, for a bit whose cutters stand
/// out of their blades by `exposure` at most (m; 0 when it could not be read). Warns of a rule that comes
/// after the bit is past repair.
scenario::ReworkRules read_rework(MapReader& scenario, double exposure);

/// Reads `costs:`. The currency is the word all its money is written in.
scenario::Costs read_costs(MapReader& scenario);

/// Reads `other_method:`, another way to drill the same column; nothing when there is none. Its rig costs
/// what this one does (`costs`) unless given.
std::optional<scenario::OtherMethod> read_other_method(MapReader& scenario, const scenario::Costs& costs);

/// Reads `chance:`, "expected" or "drawn", or a map of draw: and seed: (given alone, a seed draws).
scenario::RandomEvents read_random_events(MapReader& scenario);

/// What a run drills in all its holes (m), at most as many as a bit usually makes.
double most_footage(const scenario::Column& column, const scenario::Repeat& repeat);

/// Whether rows every so often (m; 0 for none) over a footage (m) are more than memory holds.
bool too_many_rows(double footage, double output_every);

/// Reads `stepping:` of a run that drills `footage` in all holes (m; 0 when it could not be read). Too many
/// rows are refused, more than can be wanted warned of.
scenario::Stepping read_stepping(MapReader& scenario, double footage);

}  // namespace dullcast::input
