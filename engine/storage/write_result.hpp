#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/scenario/scenario.hpp"
#include "engine/simulation/outcome.hpp"
#include "engine/storage/forecast_notes.hpp"

namespace dullcast::storage {

/// Writes one run to the HDF5 file `path`, laid out as results/README.md says (netCDF-4 and CF conventions,
/// SI units; `band`, the ends of its forecast, may be empty, and the forecast's notes absent; cutters, layers
/// and holes counted from 1). The file appears whole or not at all, replaces an earlier one, and the same run
/// gives the same bytes. Every per-cutter array must have one entry per cutter of the bit. Throws FileError
/// for a path that cannot be written and for arrays of the wrong length. HDF5 keeps state of its own: call
/// from one thread at a time.
void write_result(const std::string& path, const scenario::Scenario& scenario,
                  const simulation::RunOutcome& outcome, const std::vector<simulation::LifeEnd>& band = {},
                  const std::optional<ForecastNotes>& notes = {});

}  // namespace dullcast::storage
