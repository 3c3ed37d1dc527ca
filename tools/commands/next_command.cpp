#include <optional>
#include <utility>

#include "engine/analysis/layer_hole.hpp"
#include "engine/input/latest_record.hpp"
#include "engine/learning/found_condition.hpp"
#include "tools/commands/command.hpp"
#include "tools/commands/learnt_scenario.hpp"
#include "tools/commands/next_report.hpp"
#include "tools/commands/options.hpp"
#include "tools/commands/outputs.hpp"
#include "tools/commands/progress_line.hpp"
#include "tools/commands/ready_scenario.hpp"
#include "tools/commands/ready_shelf.hpp"
#include "tools/commands/start_words.hpp"

namespace dullcast::commands {

namespace po = boost::program_options;

namespace {

po::options_description next_options() {
  po::options_description shown("Options");
  shown.add_options()("shelf", po::value<std::string>()->value_name("FILE"),
                      "take the bit from this shelf, as it was found, instead of the scenario's")(
      "bit", po::value<std::string>()->value_name("NAME"), "which of its bits");
  shown.add_options()("draws", po::value<int>()->default_value(analysis::band_draws)->value_name("N"),
                      "draws of chance and of the library's numbers; more of them tell finer differences")(
      "brief", "the answer and where it flips, in a few lines")(
      "csv", po::value<std::string>()->value_name("FILE"),
      "also write the three choices as comma-separated values");
  add_replace_option(shown);
  add_usual_options(shown, "--set \"costs.rig=95 $/h\"", "for the draws");
  return shown;
}

/// Puts the shelf's bit, as it was found, in place of the scenario's; returns how that was worked out.
std::string take_from_shelf(const scenario::ShelvedBit& shelved, scenario::Scenario& scenario) {
  const learning::FoundCondition found = learning::found_condition(shelved);
  scenario.bit = shelved.run.bit;
  scenario.bit.continues.clear();
  scenario.bit.since_result = {};
  analysis::start_from(scenario, found.bit);
  std::string words = start_words(scenario.bit);
  if (words.empty()) words = "as new";
  if (found.scaled == 0) return words;
  return words + "; heights of " + std::to_string(found.scaled) + " from its run" +
         (found.wear_factor == 1.0 ? std::string()
                                   : ", times " + base::show_number(found.wear_factor, 2) +
                                         (found.by_grade ? " by its dull grade" : " by those read"));
}

}  // namespace

int next_command(const std::vector<std::string>& words) {
  const ReadOptions read = read_options(
      words,
      "dullcast next SCENARIO.yaml [--draws N] [--csv FILE] [options]\n"
      "dullcast next SCENARIO.yaml --shelf FILE --bit NAME [options]\n\n"
      "Run the bit again, rework it first, or scrap it for a new one? Drills the scenario's hole once by "
      "each\n"
      "choice, in draws of chance and of the library's numbers, from how the scenario starts its bit "
      "(starting_wear\nand so on) or as a shelf's bit was found, and prints each choice's chance to finish "
      "the hole, its expected cost "
      "line by "
      "line, and the wear\nat which the answer flips.\n"
      "Ends with 0 when done, 2 for wrong options, 3 for a scenario that cannot be used, 4 when the runs "
      "fail.\n",
      next_options(), "scenario", 1);
  if (read.finished) return ended_well;
  const Asked asked = usual_options(read.values, "look ahead to");
  analysis::HoleDrawOptions options;
  options.draws = read.values["draws"].as<int>();
  if (options.draws < 2 || options.draws > 100'000)
    throw WrongWords("--draws takes a number from 2 to 100000");
  options.threads = asked.threads;
  if ((read.values.count("shelf") > 0) != (read.values.count("bit") > 0))
    throw WrongWords("--shelf and --bit go together");
  scenario::Scenario scenario = ready_scenario(asked.file, asked.library, asked.sets, true);
  Outputs outputs(read.values);
  outputs.reads(asked, scenario);
  std::optional<scenario::ShelvedBit> shelved;
  if (read.values.count("shelf")) {
    const std::string file = read.values["shelf"].as<std::string>();
    const std::vector<scenario::ShelvedBit> shelf = ready_shelf(file, asked.library);
    outputs.reads(file, asked.library, shelf);
    shelved = input::latest_record(shelf, read.values["bit"].as<std::string>(), file);
  }
  outputs.will_write_csv();
  scenario = learnt_scenario(std::move(scenario), asked.library, asked.threads);
  NextFigures figures;
  figures.found = shelved ? take_from_shelf(*shelved, scenario) : start_words(scenario.bit);
  {
    ProgressLine progress("Drilling the next hole by each choice");
    figures.hole =
        analysis::next_hole(scenario, options, [&](double done, double all) { progress.tell(done, all); });
  }
  if (figures.hole.cheapest) {
    ProgressLine progress("Looking for the wear at which the answer flips");
    figures.flip =
        analysis::wear_flip(scenario, options, [&](double done, double all) { progress.tell(done, all); });
  }
  print_next(Sheet{std::cout, asked.units}, scenario, figures, read.values.count("brief") > 0);
  outputs.write_csv([&](std::ostream& out) { write_next_csv(out, figures); });
  return ended_well;
}

}  // namespace dullcast::commands
