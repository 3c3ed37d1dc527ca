#pragma once

#include <iosfwd>

#include "engine/simulation/outcome.hpp"

namespace dullcast::commands {

/// Every passage of a layer in every hole as comma-separated values, SI with the units in the heading; holes,
/// layers and cutters count from 1.
void write_passages_csv(std::ostream& out, const simulation::RunOutcome& outcome);

}  // namespace dullcast::commands
