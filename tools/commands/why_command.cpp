#include <algorithm>
#include <cmath>

#include "engine/base/words.hpp"
#include "engine/input/latest_record.hpp"
#include "tools/commands/command.hpp"
#include "tools/commands/options.hpp"
#include "tools/commands/outputs.hpp"
#include "tools/commands/progress_line.hpp"
#include "tools/commands/ready_scenario.hpp"
#include "tools/commands/ready_shelf.hpp"
#include "tools/commands/usual_units.hpp"
#include "tools/commands/why_report.hpp"

namespace dullcast::commands {

namespace po = boost::program_options;

namespace {

po::options_description why_options() {
  po::options_description shown("Options");
  shown.add_options()("bit", po::value<std::string>()->value_name("NAME"),
                      "which of the shelf's bits; without it, its lots are compared")(
      "odds", po::value<std::vector<std::string>>()->value_name("CAUSE=ODDS"),
      "odds of a cause before anything was looked at, e.g. --odds heat=30; may be given again. They stand at "
      "plain=50, heat=15, gravel=10, weight=10, lot=10, cleaning=5")(
      "draws", po::value<int>()->default_value(learning::CauseOptions{}.draws)->value_name("N"),
      "draws of the library's numbers")("brief", "the likeliest causes and what to look for")(
      "csv", po::value<std::string>()->value_name("FILE"),
      "also write the causes, or the lots, as comma-separated values");
  add_replace_option(shown);
  add_units_option(shown);
  add_drilling_options(shown, "for the runs");
  return shown;
}

/// Sets one cause's odds from "heat=30".
void set_odds(std::vector<learning::Cause>& causes, const std::string& word) {
  const std::size_t equals = word.find('=');
  if (equals == std::string::npos) throw WrongWords("--odds takes CAUSE=ODDS, not \"" + word + "\"");
  const std::string name = word.substr(0, equals);
  const auto cause = std::find_if(causes.begin(), causes.end(),
                                  [&](const learning::Cause& one) { return one.name == name; });
  if (cause == causes.end()) {
    std::vector<std::string> known;
    for (const learning::Cause& one : causes) known.push_back(one.name);
    const std::string nearest = base::nearest_word(name, known);
    throw WrongWords("--odds knows no cause \"" + name + "\"" +
                     (nearest.empty() ? "" : "; did you mean \"" + nearest + "\"?"));
  }
  char* end = nullptr;
  const std::string number = word.substr(equals + 1);
  const double odds = std::strtod(number.c_str(), &end);
  if (number.empty() || *end != '\0' || !(odds >= 0.0) || !std::isfinite(odds))
    throw WrongWords("--odds: \"" + number + "\" is no number of 0 or more");
  cause->odds = odds;
}

void compare_lots(const Sheet& sheet, const std::vector<scenario::ShelvedBit>& shelf, int threads, bool brief,
                  const Outputs& outputs) {
  std::vector<learning::LotRecordSeen> lots;
  {
    ProgressLine progress("Drilling what the bits did");
    lots = learning::lots_of(shelf, threads, [&](double done, double all) { progress.tell(done, all); });
  }
  print_lots(sheet, lots, brief);
  outputs.write_csv([&](std::ostream& out) { write_lots_csv(out, lots); });
}

}  // namespace

int why_command(const std::vector<std::string>& words) {
  const ReadOptions read = read_options(
      words,
      "dullcast why SHELF --bit NAME [--odds CAUSE=ODDS]... [options]\n"
      "dullcast why SHELF [options]\n\n"
      "Why did a bit come back as it did? Drills its record again as told and under heat, gravel, too much "
      "weight, a\npoor lot and poor cleaning, in draws of the library's numbers, and prints how likely each "
      "is "
      "after what was\nfound, what spoke for and against, and what to look for that would tell them apart. "
      "Without --bit it compares\nthe shelf's lots of cutters by their chips and losses.\n"
      "Ends with 0 when done, 2 for wrong options, 3 for a shelf that cannot be used, 4 when the runs "
      "fail.\n",
      why_options(), "shelf", 1);
  if (read.finished) return ended_well;
  const std::string file = named_file(read, "shelf", "shelf that holds the bit");
  const Sheet sheet{std::cout, units_of(read.values)};
  const int threads = threads_asked(read.values);
  const std::string library = read.values["library"].as<std::string>();
  WhyFigures figures;
  figures.causes = learning::usual_causes();
  if (read.values.count("odds")) {
    for (const std::string& word : read.values["odds"].as<std::vector<std::string>>())
      set_odds(figures.causes, word);
  }
  if (std::none_of(figures.causes.begin(), figures.causes.end(),
                   [](const learning::Cause& cause) { return cause.odds > 0.0; }))
    throw WrongWords("--odds leaves no cause with odds above 0");
  learning::CauseOptions options;
  options.draws = figures.draws = read.values["draws"].as<int>();
  if (options.draws < 2 || options.draws > 10'000) throw WrongWords("--draws takes a number from 2 to 10000");
  options.threads = threads;
  const std::vector<scenario::ShelvedBit> shelf = ready_shelf(file, library);
  Outputs outputs(read.values);
  outputs.reads(file, library, shelf);
  outputs.will_write_csv();
  const bool brief = read.values.count("brief") > 0;
  if (!read.values.count("bit")) {
    compare_lots(sheet, shelf, threads, brief, outputs);
    return ended_well;
  }
  const scenario::ShelvedBit bit = input::latest_record(shelf, read.values["bit"].as<std::string>(), file);
  figures.found = bit.found;
  learning::CausePredictions predictions;
  {
    ProgressLine progress("Drilling it again by each cause");
    options.told = [&](double done, double all) { progress.tell(done, all); };
    predictions = learning::predict_causes(bit, figures.causes, options);
  }
  figures.failed_runs = predictions.failed;
  figures.odds = learning::cause_odds(bit.found, predictions, figures.causes, threads);
  figures.looks = learning::worth_looking(bit.found, predictions, figures.causes, figures.odds);
  print_why(sheet, figures, brief);
  outputs.write_csv([&](std::ostream& out) { write_why_csv(out, figures); });
  return ended_well;
}

}  // namespace dullcast::commands
