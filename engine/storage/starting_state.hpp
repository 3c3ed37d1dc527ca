#pragma once

#include "engine/scenario/scenario.hpp"
#include "engine/storage/stored_run.hpp"

namespace dullcast::storage {

/// Lets the scenario's bit begin where `earlier` ended: worn heights, heat damage, chip hazard, lost cutters
/// and tables, erosion and the wear of blades and gauge pads become its starting_* values (zero for what a
/// file of format 1.0 does not hold). Throws FileError, saying what differs, unless the bits agree in
/// diameter, number of cutters, the cutters' radii on the bit (within 1 micrometre, which forgives a change
/// of units) and the size of a cutter; when the stored state is not finite and non-negative or beyond what
/// the bit has (worn past a cutter's exposure, heat damage over 1, chip hazard over 1000, a whole blade or
/// pad eroded or rubbed off); when no cutter is left or a blade sheared off. The scenario is untouched then.
void apply_starting_state(scenario::Scenario& scenario, const StoredRun& earlier);

}  // namespace dullcast::storage
