#pragma once

#include <boost/program_options.hpp>
#include <string>
#include <vector>

#include "engine/base/display.hpp"
#include "engine/input/problems.hpp"
#include "engine/scenario/scenario.hpp"

namespace dullcast::commands {

/// A scenario ready to run: read, with the end state of an earlier result when it goes on from one. `library`
/// is what --library gave, `sets` what --set gave. Warnings go to standard error when asked for. Throws
/// ScenarioErrors, and std::invalid_argument for an earlier result that cannot be gone on from.
scenario::Scenario ready_scenario(const std::string& file, const std::string& library,
                                  const std::vector<std::string>& sets, bool tell_warnings);

/// What is unwise but possible, on standard error.
void tell_unwise(const std::vector<input::Warning>& warnings);

/// Where the scenario of `file` goes on from an earlier result, lets its bit start as that left it, with what
/// was found and done since. Throws std::invalid_argument for a result that cannot be gone on from.
void go_on_from_result(scenario::Scenario& scenario, const std::string& file);

/// What every command that drills asks for: one scenario, --set, --units, --threads and --library.
struct Asked {
  std::string file, library;
  std::vector<std::string> sets;
  base::ShownUnits units = base::ShownUnits::field;
  int threads = 1;
};
/// Adds those options; `example` is what --set's help shows, `threads_for` what the threads are for.
void add_usual_options(boost::program_options::options_description& shown, const std::string& example,
                       const std::string& threads_for);
/// Of these --library alone.
void add_library_option(boost::program_options::options_description& shown);
/// Of these --threads and --library alone, for commands that drill something else.
void add_drilling_options(boost::program_options::options_description& shown, const std::string& threads_for);
/// Reads them; `purpose` ends the sentence "name the scenario to ...", and is empty where none is needed.
/// Throws WrongWords.
Asked usual_options(const boost::program_options::variables_map& values, const std::string& purpose);

}  // namespace dullcast::commands
