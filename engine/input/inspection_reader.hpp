#pragma once

#include <functional>

#include "engine/input/library.hpp"

namespace dullcast::input {

/// Reads `calibrate_from:`, one inspected bit: the scenario it ran, how many of its holes, and the worn
/// height measured on each of its cutters (as cutter_findings reads it; only heights that wear alone made
/// are kept, NaN stands for the others). `cutters_of(path)` tells how many
/// cutters the bit of another scenario has, throwing ScenarioErrors when it cannot be read.
std::optional<scenario::Inspection> read_inspection(
    MapReader& scenario, const std::string& folder,
    const std::function<Eigen::Index(const std::string& path)>& cutters_of);

}  // namespace dullcast::input
