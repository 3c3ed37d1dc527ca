#pragma once

#include <string>
#include <vector>

#include "engine/scenario/scenario.hpp"
#include "engine/simulation/outcome.hpp"
#include "engine/storage/stored_run.hpp"

namespace dullcast::commands {

/// A run that is there already, ready to be told again or beside others.
struct ToldRun {
  std::string name;  // the file, as the user gave it
  scenario::Scenario scenario;
  simulation::RunOutcome outcome;
  std::vector<simulation::LifeEnd> band;  // empty when only the central run was made
};

/// Whether a file is to be drilled: a scenario by its name.
bool is_scenario_name(const std::string& file);

/// The scenario of a stored run as it was drilled: its resolved text read again, and the bit as it started.
/// `library` is what --library gave. Throws ScenarioErrors.
scenario::Scenario scenario_of(const storage::StoredRun& run, const std::string& library);

/// Reads a result, or drills a scenario's central run without writing it. Throws FileError, ScenarioErrors.
ToldRun told_run(const std::string& file, const std::string& library);

}  // namespace dullcast::commands
