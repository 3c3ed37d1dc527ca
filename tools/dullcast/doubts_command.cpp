#include <fstream>

#include "engine/results/result_error.hpp"
#include "tools/dullcast/command.hpp"
#include "tools/dullcast/doubts_report.hpp"
#include "tools/dullcast/options.hpp"
#include "tools/dullcast/progress_line.hpp"
#include "tools/dullcast/ready_scenario.hpp"

namespace dullcast {

namespace po = boost::program_options;

int doubts_command(const std::vector<std::string>& words) {
  po::options_description shown("Options");
  shown.add_options()("whole-life", po::value<int>()->value_name("N")->default_value(12),
                      "how many of the numbers that matter most to follow through whole lives")(
      "csv", po::value<std::string>()->value_name("FILE"),
      "also write every number as comma-separated values")("all", "name the numbers that do nothing as well");
  add_usual_options(shown, "--set repeat.holes=3", "for the runs");
  const ReadOptions read = read_options(
      words,
      "dullcast doubts SCENARIO.yaml [--whole-life N] [--csv FILE] [options]\n\n"
      "Moves every uncertain number of the library to its low and its high value, one at a time, and\n"
      "prints which of them make the forecast of when rework is due uncertain.\n",
      shown, "scenario", 1);
  if (read.finished) return ended_well;
  const Asked asked = usual_options(read.values, "look for doubts in");
  DoubtOptions options;
  options.threads = asked.threads;
  options.whole_lives = read.values["whole-life"].as<int>();
  if (options.whole_lives < 0) throw WrongWords("--whole-life takes a number of 0 or more");
  const Scenario scenario = ready_scenario(asked.file, asked.library, asked.sets, true);
  std::ofstream csv;
  if (read.values.count("csv")) {
    const std::string file = read.values["csv"].as<std::string>();
    csv.open(file);
    if (!csv) throw ResultError(file, "cannot be written");
  }
  Doubts doubts;
  {
    ProgressLine progress("Doubting");
    doubts = find_doubts(scenario, options, [&](double done, double all) { progress.tell(done, all); });
  }
  print_doubts(std::cout, scenario, doubts, asked.units, read.values.count("all") > 0);
  if (csv.is_open()) {
    write_doubts_csv(csv, doubts);
    csv.close();
    if (!csv) throw ResultError(read.values["csv"].as<std::string>(), "could not be written whole");
  }
  return ended_well;
}

}  // namespace dullcast
