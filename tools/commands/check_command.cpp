#include "engine/input/scenario_reader.hpp"
#include "tools/commands/command.hpp"
#include "tools/commands/options.hpp"

namespace dullcast::commands {

namespace po = boost::program_options;

int check_command(const std::vector<std::string>& words) {
  po::options_description shown("Options");
  shown.add_options()("set", po::value<std::vector<std::string>>()->value_name("KEY=VALUE"),
                      "change one value before checking, e.g. --set repeat.holes=3; may be given again")(
      "library", po::value<std::string>()->default_value("")->value_name("FOLDER"),
      "folder of rocks, grades, fluids, bodies, bits and model numbers")(
      "resolved", "print each scenario with every default and library number written out");
  const ReadOptions read =
      read_options(words,
                   "dullcast check FILE.yaml... [options]\n\n"
                   "Says everything that is wrong or unwise in scenarios, with its place, and runs nothing.\n"
                   "Ends with 0 when all can be run, 3 when one cannot.\n",
                   shown, "file", -1);
  if (read.finished) return ended_well;
  if (read.values.count("file") == 0) throw WrongWords("name at least one scenario to check");
  const auto sets = read.values.count("set") ? read.values["set"].as<std::vector<std::string>>()
                                             : std::vector<std::string>{};
  int code = ended_well;
  for (const std::string& file : read.values["file"].as<std::vector<std::string>>()) {
    std::vector<input::Warning> warnings;
    try {
      const scenario::Scenario scenario = input::read_scenario(
          file, library_folder(read.values["library"].as<std::string>(), file), sets, warnings);
      for (const input::Warning& warning : warnings) std::cout << warning.message() << " [unwise]\n";
      if (read.values.count("resolved") != 0)
        std::cout << scenario.text;
      else
        std::cout << file << ": can be run\n";
    } catch (const input::ScenarioErrors& errors) {
      for (const std::string& message : errors.messages()) std::cout << message << "\n";
      std::cout << file << ": cannot be run, " << errors.messages().size() << " to put right\n";
      code = wrong_input;
    }
  }
  return code;
}

}  // namespace dullcast::commands
