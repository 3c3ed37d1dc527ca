#pragma once

#include "engine/simulation/event_function.hpp"
#include "engine/simulation/run_in_progress.hpp"

namespace dullcast::simulation {

/// All that may happen while an interval is drilled, as the run stands. Functions of one instant are tried in
/// this order: progress (the interval's end, changes of settings, standstill), condition (rework, repair,
/// ruined tables, rubbing blades), what breaks, water and cuttings, the string's weight.
EventFunctions events_of(const RunInProgress& run, const DrillingInterval& planned);

void add_progress_events(const RunInProgress& run, const DrillingInterval& planned, EventFunctions& events);
void add_condition_events(const RunInProgress& run, EventFunctions& events);
void add_breaking_events(const RunInProgress& run, EventFunctions& events);
void add_water_events(const RunInProgress& run, EventFunctions& events);
void add_string_event(const RunInProgress& run, const DrillingInterval& planned, EventFunctions& events);

}  // namespace dullcast::simulation
