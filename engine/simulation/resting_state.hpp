#pragma once

#include "engine/simulation/assembly.hpp"
#include "engine/simulation/state_layout.hpp"

namespace dullcast::simulation {

/// Puts x at the top of a fresh hole: bit and fluid at the inlet's temperature, the rock's skin at the
/// rock's, the bottom clean, the ledger empty, and full of water where a pump runs or water stands (a gas
/// always fills it). What a bit carries from hole to hole (wear, damage, chip hazards, lost steel) stays as
/// it is in x.
void rest(const RunModels& models, State& x);

}  // namespace dullcast::simulation
