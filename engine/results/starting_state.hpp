#pragma once

#include "engine/results/stored_run.hpp"
#include "engine/scenario/scenario.hpp"

namespace dullcast {

/// Lets the scenario's bit begin where `earlier` ended: its worn heights and heat damage become starting_wear
/// and starting_damage. Throws ResultError, saying what differs, unless the bits agree in diameter, number of
/// cutters, the cutters' radii on the bit (within 1 micrometre, which forgives a change of units) and the
/// size of a cutter, and when the stored state is not finite and non-negative. The scenario is untouched
/// then.
void apply_starting_state(Scenario& scenario, const StoredRun& earlier);

}  // namespace dullcast
