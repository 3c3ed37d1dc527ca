#include <ctime>
#include <filesystem>
#include <optional>

#include "engine/analysis/forecast.hpp"
#include "engine/base/output_place.hpp"
#include "engine/base/program_version.hpp"
#include "engine/input/learned_writer.hpp"
#include "engine/input/problems.hpp"
#include "tools/commands/command.hpp"
#include "tools/commands/learn_report.hpp"
#include "tools/commands/options.hpp"
#include "tools/commands/outputs.hpp"
#include "tools/commands/progress_line.hpp"
#include "tools/commands/ready_scenario.hpp"
#include "tools/commands/ready_shelf.hpp"
#include "tools/commands/usual_units.hpp"

namespace dullcast::commands {

namespace po = boost::program_options;

namespace {

po::options_description learn_options() {
  po::options_description shown("Options");
  shown.add_options()("output,o", po::value<std::string>()->value_name("FILE"),
                      "what was learnt, for scenarios to name under learned:")(
      "for", po::value<std::string>()->value_name("SCENARIO"),
      "also forecast this scenario, before and after what was learnt")(
      "csv", po::value<std::string>()->value_name("FILE"),
      "also write how each bit fits as comma-separated values")("brief", "in ten lines");
  add_replace_option(shown);
  add_units_option(shown);
  add_drilling_options(shown, "for the runs");
  return shown;
}

std::string today() {
  const std::time_t now = std::time(nullptr);
  std::tm parts{};
  gmtime_r(&now, &parts);
  char text[16];
  return std::strftime(text, sizeof text, "%Y-%m-%d", &parts) > 0 ? text : "";
}

void keep(const std::string& file, const ShelfLesson& lesson) {
  scenario::Learned learned = lesson.learned;
  learned.shelf = std::filesystem::path(lesson.shelf).filename().string();
  learned.made = today() + " by dullcast " + base::program_version() + " (" + base::program_commit() + ")";
  base::write_text(file,
                   input::learned_text(learned,
                                       "What inspected bits have told of the library's numbers; name this "
                                       "file in a scenario under learned:\nLow, central and high are the "
                                       "10 %, 50 % and 90 % points of what is left to think. Estimates."));
}

/// The band of a scenario without and with what was learnt.
void forecast_both(const Sheet& sheet, const scenario::Scenario& next, const ShelfLesson& lesson,
                   int threads) {
  analysis::ForecastOptions options;
  options.threads = threads;
  ProgressLine progress("Forecasting with and without it");
  const auto half = [&](double from) {
    return [&progress, from](double done, double all) { progress.tell(from * all + done, 2.0 * all); };
  };
  const analysis::Forecast before = analysis::forecast(next, options, half(0.0));
  const analysis::Forecast now =
      analysis::forecast(learning::with_learned(next, lesson.learned), options, half(1.0));
  print_both_bands(sheet, next.title, analysis::band_of(before), analysis::band_of(now));
}

}  // namespace

int learn_command(const std::vector<std::string>& words) {
  const ReadOptions read = read_options(
      words,
      "dullcast learn SHELF [-o FILE] [options]\n\n"
      "Reads a shelf of inspected bits, drills each record again, and finds what they tell together of how "
      "fast\n"
      "diamond wears in each rock, how easily edges chip and how good each lot is; what they cannot tell; "
      "how\n"
      "well they foretell the next bit; and which of them do not fit. -o keeps it for scenarios to rest on.\n"
      "Ends with 0 when done, 2 for wrong options, 3 for a shelf that cannot be used, 4 when a run or the\n"
      "writing fails.\n",
      learn_options(), "shelf", 1);
  if (read.finished) return ended_well;
  ShelfLesson lesson;
  lesson.shelf = named_file(read, "shelf", "shelf to learn from");
  const std::string library = read.values["library"].as<std::string>();
  const Sheet sheet{std::cout, units_of(read.values)};
  learning::FitOptions options;
  options.threads = threads_asked(read.values);
  Outputs outputs(read.values);
  std::optional<scenario::Scenario> next;
  if (read.values.count("for")) {
    next = ready_scenario(read.values["for"].as<std::string>(), library, {}, true);
    outputs.reads(read.values["for"].as<std::string>());
    if (next->learned || next->calibrate_from)
      throw WrongWords(
          "--for takes a scenario that rests on no inspected bit yet, to show what this shelf changes");
  }
  lesson.bits = ready_shelf(lesson.shelf, library);
  outputs.reads(lesson.shelf, library, lesson.bits);
  for (const scenario::ShelvedBit& bit : lesson.bits) {
    if (bit.run.learned)
      throw input::ScenarioErrors(
          {bit.found.scenario_file +
           ": rests on inspected bits already (learned), which would count twice; make "
           "records from a scenario without it"});
  }
  if (read.values.count("output")) outputs.will_write(read.values["output"].as<std::string>());
  outputs.will_write_csv();
  {
    ProgressLine progress("Drilling the shelf again");
    options.told = [&](double done, double all) { progress.tell(done, all); };
    lesson.fit = learning::fit_shelf(lesson.bits, options);
    options.told = {};  // its line on the screen ends here
  }
  {
    ProgressLine progress("Holding each bit against the others");
    lesson.judged = learning::leave_one_out(lesson.bits, lesson.fit, options.threads);
  }
  lesson.told = learning::what_was_told(lesson.fit);
  lesson.learned = learning::learned_numbers(lesson.fit, static_cast<int>(lesson.bits.size()));
  print_lesson(sheet, lesson, read.values.count("brief") > 0);
  if (next) forecast_both(sheet, *next, lesson, options.threads);
  outputs.write_csv([&](std::ostream& out) { write_lesson_csv(out, lesson); });
  if (!read.values.count("output")) return ended_well;
  const std::string output = read.values["output"].as<std::string>();
  keep(output, lesson);
  sheet.out << "Written to " << output << "\n";
  return ended_well;
}

}  // namespace dullcast::commands
