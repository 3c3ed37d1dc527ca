#pragma once

#include "engine/simulation/outcome.hpp"
#include "tools/commands/report_words.hpp"

namespace dullcast::commands {

/// Chip risk by layer; prints nothing where every chance is next to nothing.
void print_chip_risk(const Sheet& sheet, const scenario::Scenario& scenario,
                     const simulation::RunOutcome& outcome);

/// What broke, or what is most likely to break first; side force, gauge and steel; what the shop will do and
/// what it costs.
void print_damage(const Sheet& sheet, const scenario::Scenario& scenario,
                  const simulation::RunOutcome& outcome);

}  // namespace dullcast::commands
