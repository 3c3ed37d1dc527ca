#pragma once

#include <vector>

#include "engine/forecast/survival.hpp"
#include "engine/run/outcome.hpp"
#include "tools/dullcast/report_words.hpp"

namespace dullcast {

/// Whether the ground suits the bit, layer by layer, with the reasons.
void print_suitability(const Sheet& sheet, const Scenario& scenario, const RunOutcome& outcome);

/// How long each layer's drilling survives when the pump stops unnoticed. Prints nothing without figures.
void print_survival(const Sheet& sheet, const Scenario& scenario, const std::vector<Survival>& survival,
                    bool at_rework);

}  // namespace dullcast
