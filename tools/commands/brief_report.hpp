#pragma once

#include <ostream>
#include <vector>

#include "engine/base/display.hpp"
#include "engine/pages/due_words.hpp"
#include "engine/scenario/scenario.hpp"
#include "engine/simulation/outcome.hpp"

namespace dullcast::commands {

/// A forecast in ten lines: when rework is due, by which rule, the band, the hottest moment, the worst
/// verdict on the ground, the first thing to do, when to inspect, and what it is worth. `band` as results
/// keep it; empty when only the central run was made.
void print_brief(std::ostream& out, const scenario::Scenario& scenario, const simulation::RunOutcome& outcome,
                 const std::vector<simulation::LifeEnd>& band, bool calibrated, base::ShownUnits units);

// What tables that put runs side by side say too.
using pages::due_words;
using pages::end_words;
using pages::verdict_in_a_line;

}  // namespace dullcast::commands
