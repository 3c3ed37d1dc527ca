#pragma once

#include <string>

#include "engine/simulation/outcome.hpp"

namespace dullcast::pages {

/// One sentence that tells an event to a person. SI units and degrees Celsius.
std::string event_sentence(const simulation::Event& event);

/// Gives every event of a run its sentence.
void tell_events(simulation::RunOutcome& outcome);

}  // namespace dullcast::pages
