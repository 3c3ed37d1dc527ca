#include "engine/base/plain_text.hpp"
#include "tools/commands/command.hpp"
#include "tools/commands/file_check.hpp"
#include "tools/commands/options.hpp"

namespace dullcast::commands {

namespace po = boost::program_options;

int check_command(const std::vector<std::string>& words) {
  po::options_description shown("Options");
  shown.add_options()("set", po::value<std::vector<std::string>>()->value_name("KEY=VALUE"),
                      "change one value of the scenarios first; may be given again")(
      "library", po::value<std::string>()->default_value("")->value_name("FOLDER"),
      "folder of rocks, grades, lots, fluids, bodies, bits and model numbers")(
      "resolved", "print each scenario with every default and library number written out")(
      "brief", "one line a file, and the first thing to put right");
  const ReadOptions read = read_options(
      words,
      "dullcast check FILE... [options]\n\n"
      "Says what each file is - a scenario, a sweep's plan, a shop's plan, a file of the library, a shelf\n"
      "of inspected bits, what such a shelf told, a result - and all that is wrong or unwise in it and in\n"
      "what it leads to, with its place. Runs nothing but what the records that a shop's plan names did.\n"
      "Ends with 0 when all can be used, 3 when one cannot.\n",
      shown, "file", -1);
  if (read.finished) return ended_well;
  if (read.values.count("file") == 0) throw WrongWords("name at least one file to check");
  const auto sets = read.values.count("set") ? read.values["set"].as<std::vector<std::string>>()
                                             : std::vector<std::string>{};
  const bool brief = read.values.count("brief") > 0, resolved = read.values.count("resolved") > 0;
  int code = ended_well;
  for (const std::string& file : read.values["file"].as<std::vector<std::string>>()) {
    const FileCheck check = check_file(file, read.values["library"].as<std::string>(), sets);
    const bool good = check.faults.empty();
    for (const std::string& unwise : check.unwise) {
      if (!brief) std::cout << base::plain(unwise) << " [unwise]\n";
    }
    for (const std::string& fault : check.faults) {
      std::cout << base::plain_lines(fault) << "\n";
      if (brief) break;
    }
    if (!good) code = wrong_input;
    if (good && resolved && !check.resolved.empty()) {
      std::cout << check.resolved;
      continue;
    }
    std::cout << base::plain(file) << ": " << base::plain(check.what) << ": "
              << (good ? check.good : check.bad);
    if (!good) std::cout << ", " << check.count << " to put right";
    if (brief && !check.unwise.empty()) std::cout << ", " << check.unwise.size() << " unwise";
    std::cout << "\n";
  }
  return code;
}

}  // namespace dullcast::commands
