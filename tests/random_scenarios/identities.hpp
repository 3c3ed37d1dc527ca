#pragma once

#include <string>
#include <vector>

#include "engine/scenario/scenario.hpp"
#include "engine/simulation/outcome.hpp"

namespace dullcast::random_scenarios {

/// What of the things that hold for every run does not hold for this one, each in a few words; empty when all
/// do: every number is one; time, footage, energy and, within a hole, depth rise; wear, damage and hazards
/// never fall; shares and chances lie between 0 and 1; temperatures are between frost and molten diamond; the
/// ledger of energy closes; layers, holes and events come in order and within the scenario.
std::vector<std::string> broken_identities(const scenario::Scenario& scenario,
                                           const simulation::RunOutcome& outcome);

}  // namespace dullcast::random_scenarios
