#include "tools/dullcast/ready_scenario.hpp"

#include "engine/results/result_error.hpp"
#include "engine/results/starting_state.hpp"
#include "engine/results/stored_run.hpp"
#include "engine/scenario/scenario_reader.hpp"
#include "tools/dullcast/command.hpp"

namespace dullcast {

Scenario ready_scenario(const std::string& file, const std::string& library,
                        const std::vector<std::string>& sets, bool tell_warnings) {
  std::vector<Warning> warnings;
  Scenario scenario = read_scenario(file, library_folder(library, file), sets, warnings);
  if (tell_warnings) {
    for (const Warning& warning : warnings) std::cerr << warning.message() << " [unwise]\n";
  }
  if (!scenario.bit.continues.empty()) {
    try {
      apply_starting_state(scenario, read_result(scenario.bit.continues));
    } catch (const ResultError& error) {
      throw std::invalid_argument(file + ": bit.continues: " + error.what() +
                                  " (run the scenario that makes it first)");
    }
  }
  return scenario;
}

ShownUnits units_asked(const std::string& word) {
  if (word == "field") return ShownUnits::field;
  if (word == "si") return ShownUnits::si;
  if (word == "both") return ShownUnits::both;
  throw WrongWords("--units is field, si or both, not \"" + word + "\"");
}

}  // namespace dullcast
