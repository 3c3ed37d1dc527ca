#pragma once

#include <ostream>
#include <vector>

#include "engine/base/display.hpp"
#include "engine/scenario/scenario.hpp"
#include "engine/simulation/outcome.hpp"

namespace dullcast::commands {

/// A forecast in ten lines: when rework is due, by which rule, the band, the hottest moment, the worst
/// verdict on the ground, the first thing to do, when to inspect, and what it is worth. `band` as results
/// keep it; empty when only the central run was made.
void print_brief(std::ostream& out, const scenario::Scenario& scenario, const simulation::RunOutcome& outcome,
                 const std::vector<simulation::LifeEnd>& band, bool calibrated, base::ShownUnits units);

/// The same in words for tables that put runs side by side: "hole 31 of 40", "not in 40 holes".
std::string due_words(const scenario::Scenario& scenario, const simulation::RunOutcome& outcome);
/// One end of a band: "hole 7", "not within 40 holes".
std::string end_words(const simulation::LifeEnd& end);
/// The worst verdict on the column's layers and what it rests on: "with care: hard sandstone, ...". `go`
/// where nothing is wrong.
std::string verdict_in_a_line(const scenario::Scenario& scenario, const simulation::RunOutcome& outcome,
                              base::ShownUnits units);

}  // namespace dullcast::commands
