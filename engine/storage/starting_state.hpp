#pragma once

#include "engine/scenario/scenario.hpp"
#include "engine/storage/stored_run.hpp"

namespace dullcast::storage {

/// Lets the scenario's bit begin where `earlier` ended, with what its since_result says put over that: worn
/// heights, heat damage, chip hazard, chips, lost cutters and tables, erosion and the wear of blades and
/// gauge pads become its starting_* values (zero for what a file of an earlier format does not hold). What
/// was measured and found comes first, then what was done: a new cutter starts with nothing; a turned one
/// without wear, chips and hazard but with its heat damage [asm]; blades built up without erosion and wear,
/// pads without theirs. Throws FileError, saying what differs, unless the bits agree in diameter, number of
/// cutters, the cutters' radii on the bit (within 1 micrometre, which forgives a change of units) and, but
/// for new ones, the size of each cutter, and its shape and grade where its kind goes by another name; when
/// the stored state is not finite and non-negative or what is left of it after that is beyond what the
/// bit has (worn past a cutter's exposure, heat damage over 1, chip hazard over 1000, a whole blade or pad
/// eroded or rubbed off); when a cutter to be turned is lost, bare or worn past its middle; when no cutter is
/// left or a blade sheared off. The scenario is untouched then.
void apply_starting_state(scenario::Scenario& scenario, const StoredRun& earlier);

}  // namespace dullcast::storage
