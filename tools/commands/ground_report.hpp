#pragma once

#include <vector>

#include "engine/analysis/survival_without_flow.hpp"
#include "engine/simulation/outcome.hpp"
#include "tools/commands/report_words.hpp"

namespace dullcast::commands {

/// Whether the ground suits the bit, layer by layer, with the reasons.
void print_suitability(const Sheet& sheet, const scenario::Scenario& scenario,
                       const simulation::RunOutcome& outcome);

/// How long each layer's drilling survives when the pump stops unnoticed. Prints nothing without figures.
void print_survival(const Sheet& sheet, const scenario::Scenario& scenario,
                    const std::vector<analysis::Survival>& survival, bool at_rework);

}  // namespace dullcast::commands
