#include "tools/commands/ready_scenario.hpp"

#include <algorithm>
#include <iostream>
#include <optional>
#include <thread>

#include "engine/base/file_error.hpp"
#include "engine/input/scenario_reader.hpp"
#include "engine/storage/starting_state.hpp"
#include "engine/storage/stored_run.hpp"
#include "tools/commands/command.hpp"
#include "tools/commands/options.hpp"
#include "tools/commands/usual_units.hpp"

namespace dullcast::commands {

namespace po = boost::program_options;

void tell_unwise(const std::vector<input::Warning>& warnings) {
  for (const input::Warning& warning : warnings) std::cerr << warning.message() << " [unwise]\n";
}

scenario::Scenario ready_scenario(const std::string& file, const std::string& library,
                                  const std::vector<std::string>& sets, bool tell_warnings) {
  std::vector<input::Warning> warnings;
  scenario::Scenario scenario = input::read_scenario(file, library_folder(library, file), sets, warnings);
  if (tell_warnings) tell_unwise(warnings);
  go_on_from_result(scenario, file);
  return scenario;
}

void go_on_from_result(scenario::Scenario& scenario, const std::string& file) {
  if (scenario.bit.continues.empty()) return;
  std::optional<storage::StoredRun> earlier;
  try {
    earlier = storage::read_result(scenario.bit.continues);
  } catch (const base::FileError& error) {
    throw std::invalid_argument(file + ": bit.continues: " + error.what() +
                                " (run the scenario that makes it first)");
  }
  try {
    storage::apply_starting_state(scenario, *earlier);
  } catch (const base::FileError& error) {
    throw std::invalid_argument(file + ": bit.continues: " + error.what());
  }
}

void add_usual_options(po::options_description& shown, const std::string& example,
                       const std::string& threads_for) {
  const std::string set = "change one value first, e.g. " + example + "; may be given again";
  shown.add_options()("set", po::value<std::vector<std::string>>()->value_name("KEY=VALUE"), set.c_str());
  add_units_option(shown);
  add_drilling_options(shown, threads_for);
}

void add_drilling_options(po::options_description& shown, const std::string& threads_for) {
  const int cores = static_cast<int>(std::max(1u, std::thread::hardware_concurrency()));
  shown.add_options()("threads", po::value<int>()->default_value(cores)->value_name("N"),
                      threads_for.c_str());
  add_library_option(shown);
}

void add_library_option(po::options_description& shown) {
  shown.add_options()("library", po::value<std::string>()->default_value("")->value_name("FOLDER"),
                      "folder of rocks, grades, lots, fluids, bodies, bits and model numbers");
}

Asked usual_options(const po::variables_map& values, const std::string& purpose) {
  Asked asked;
  if (values.count("scenario")) {
    asked.file = values["scenario"].as<std::vector<std::string>>().front();
  } else if (!purpose.empty()) {
    throw WrongWords("name the scenario to " + purpose);
  }
  asked.library = values["library"].as<std::string>();
  if (values.count("set")) asked.sets = values["set"].as<std::vector<std::string>>();
  asked.units = units_of(values);
  asked.threads = threads_asked(values);
  return asked;
}

}  // namespace dullcast::commands
