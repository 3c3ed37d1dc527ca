#pragma once

#include <string>

#include "engine/sweep/manifest.hpp"

namespace dullcast::commands {

/// Everything a sweep is made of, read from where the plan says it stands: the plan, its base scenario, its
/// table, the library (`library` is what --library gave), and how its bit starts where the scenario goes on
/// from an earlier result. Throws ScenarioErrors, and std::invalid_argument for a result that cannot be gone
/// on from.
sweep::SweepManifest read_sweep_inputs(const std::string& plan_file, const std::string& library);

/// Version and commit, and the CRC-32 of this program's own file.
void name_program(sweep::SweepManifest& beginning);

/// One of a sweep's cases as a scenario, from a sweep's file or the folder of one that is under way. Throws
/// ScenarioErrors, ResultError, and std::invalid_argument for a case that is not there.
scenario::Scenario case_of_sweep(const std::string& sweep, long number);

}  // namespace dullcast::commands
