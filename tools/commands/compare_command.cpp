#include <stdexcept>

#include "tools/commands/command.hpp"
#include "tools/commands/compare_report.hpp"
#include "tools/commands/options.hpp"
#include "tools/commands/outputs.hpp"
#include "tools/commands/usual_units.hpp"

namespace dullcast::commands {

namespace po = boost::program_options;

int compare_command(const std::vector<std::string>& words) {
  po::options_description shown("Options");
  shown.add_options()("all", "tell every input that differs, however many")("brief", "only what came of it")(
      "csv", po::value<std::string>()->value_name("FILE"), "also write it all as comma-separated values");
  add_replace_option(shown);
  add_units_option(shown);
  add_library_option(shown);
  const ReadOptions read = read_options(words,
                                        "dullcast compare FILE FILE... [options]\n\n"
                                        "Puts runs side by side: what differs in their inputs, and what it "
                                        "changed, each beside the first. A FILE is a "
                                        "result\n"
                                        "(.h5) or a scenario (.yaml), whose central run is drilled for it "
                                        "and not kept. tools/draw-compare draws "
                                        "results on\nshared axes.\n"
                                        "Ends with 0 when done, 2 for wrong options, 3 for a scenario that "
                                        "cannot be used, 4 for a file that cannot be\n"
                                        "read or written.\n",
                                        shown, "file", -1);
  if (read.finished) return ended_well;
  const auto files = read.values.count("file") ? read.values["file"].as<std::vector<std::string>>()
                                               : std::vector<std::string>{};
  if (files.size() < 2) throw WrongWords("name at least two results or scenarios to compare");
  if (files.size() > 26) throw WrongWords("compares at most 26 at once");
  const base::ShownUnits units = units_of(read.values);
  Outputs outputs(read.values);
  for (const std::string& file : files) outputs.reads(file);
  outputs.will_write_csv();
  std::vector<ToldRun> runs;
  std::vector<std::string> texts;
  for (const std::string& file : files) {
    runs.push_back(told_run(file, read.values["library"].as<std::string>()));
    texts.push_back(runs.back().scenario.text);
  }
  const std::vector<input::InputDifference> differences = input::input_differences(texts);
  print_comparison(Sheet{std::cout, units}, runs, differences, read.values.count("all") > 0,
                   read.values.count("brief") > 0);
  outputs.write_csv([&](std::ostream& out) { write_comparison_csv(out, runs, differences); });
  return ended_well;
}

}  // namespace dullcast::commands
