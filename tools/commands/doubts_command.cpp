
#include "tools/commands/brief_findings.hpp"
#include "tools/commands/command.hpp"
#include "tools/commands/options.hpp"
#include "tools/commands/outputs.hpp"
#include "tools/commands/progress_line.hpp"
#include "tools/commands/ready_scenario.hpp"
#include "tools/commands/uncertainty_report.hpp"

namespace dullcast::commands {

namespace po = boost::program_options;

int doubts_command(const std::vector<std::string>& words) {
  po::options_description shown("Options");
  shown.add_options()("whole-life", po::value<int>()->value_name("N")->default_value(12),
                      "how many of the numbers that matter most to follow through whole lives")(
      "csv", po::value<std::string>()->value_name("FILE"),
      "also write every number as comma-separated values")("all", "name the numbers that do nothing as well")(
      "brief", "the five that matter most, in ten lines");
  add_replace_option(shown);
  add_usual_options(shown, "--set repeat.holes=3", "for the runs");
  const ReadOptions read = read_options(
      words,
      "dullcast doubts SCENARIO.yaml [--whole-life N] [--csv FILE] [options]\n\n"
      "Moves every uncertain number of the library to its low and its high value, one at a time, and\n"
      "prints which of them make the forecast of when rework is due uncertain.\n",
      shown, "scenario", 1);
  if (read.finished) return ended_well;
  const Asked asked = usual_options(read.values, "look for doubts in");
  analysis::UncertaintyOptions options;
  options.threads = asked.threads;
  options.whole_lives = read.values["whole-life"].as<int>();
  if (options.whole_lives < 0) throw WrongWords("--whole-life takes a number of 0 or more");
  const scenario::Scenario scenario = ready_scenario(asked.file, asked.library, asked.sets, true);
  Outputs outputs(read.values);
  outputs.reads(asked, scenario);
  outputs.will_write_csv();
  analysis::UncertaintyRanking doubts;
  {
    ProgressLine progress("Doubting");
    doubts = analysis::rank_uncertainties(scenario, options,
                                          [&](double done, double all) { progress.tell(done, all); });
  }
  if (read.values.count("brief"))
    print_brief(std::cout, scenario, doubts, asked.units);
  else
    print_uncertainty_ranking(std::cout, scenario, doubts, asked.units, read.values.count("all") > 0);
  outputs.write_csv([&](std::ostream& out) { write_uncertainty_csv(out, doubts, scenario); });
  return ended_well;
}

}  // namespace dullcast::commands
