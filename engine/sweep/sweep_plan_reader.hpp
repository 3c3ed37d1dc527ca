#pragma once

#include <string>
#include <vector>

#include "engine/input/scenario_reader.hpp"
#include "engine/sweep/sweep_plan.hpp"

namespace dullcast::sweep {

/// The texts that a sweep is made of: enough to make every case again on any machine.
struct SweepTexts {
  std::string plan, plan_file;  // plan_file: path for messages and for relative paths
  std::string scenario, scenario_file;
  std::string table, table_file;  // of the design, may be empty
  input::LibraryTexts library;
  /// How the bit starts, where the scenario goes on from an earlier result, and what inspected bits told,
  /// where it names a file of that, as "key=value" changes of the scenario: neither is needed any more. Else
  /// empty.
  std::vector<std::string> start{};
};

/// Where a plan says its base scenario and its table stand, seen from where the program runs. The table is
/// empty where it has none. `fixed` is what the plan changes in every run, as "key=value"; what is wrong with
/// it is told when the plan is read. Throws ScenarioErrors when the plan is no YAML map or names no scenario.
struct PlanNames {
  std::string scenario, table;
  std::vector<std::string> fixed;
};
PlanNames names_in_plan(const std::string& plan_text, const std::string& plan_file);

/// Reads a plan against its base scenario. Throws ScenarioErrors with every error found, in the plan's, the
/// table's and the scenario's words; what is unwise but possible goes to `warnings`. What the texts say of
/// the bit's start is among the plan's `fixed` afterwards, in the place of what the plan itself says of those
/// keys.
SweepPlan read_sweep_plan(const SweepTexts& texts, const input::ScenarioReader& reader,
                          std::vector<input::Warning>& warnings);

/// A name of letters, digits and low lines, for columns: "rock shale: density" -> "rock_shale_density".
std::string column_name(const std::string& words);

}  // namespace dullcast::sweep
