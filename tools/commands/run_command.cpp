#include <optional>

#include "engine/analysis/told_again.hpp"
#include "engine/base/file_error.hpp"
#include "engine/pages/event_sentences.hpp"
#include "engine/storage/write_result.hpp"
#include "tools/commands/band_announcement.hpp"
#include "tools/commands/brief_report.hpp"
#include "tools/commands/command.hpp"
#include "tools/commands/forecast_report.hpp"
#include "tools/commands/learnt_scenario.hpp"
#include "tools/commands/options.hpp"
#include "tools/commands/outputs.hpp"
#include "tools/commands/passages_csv.hpp"
#include "tools/commands/progress_line.hpp"
#include "tools/commands/ready_scenario.hpp"
#include "tools/commands/sweep_inputs.hpp"

namespace dullcast::commands {

namespace po = boost::program_options;

namespace {

po::options_description run_options() {
  po::options_description shown("Options");
  shown.add_options()(
      "output,o", po::value<std::string>()->value_name("FILE"),
      "HDF5 file to write; without it, the scenario's name with .h5, in results/ when there is one");
  shown.add_options()("from", po::value<std::string>()->value_name("SWEEP"),
                      "run one case of this sweep again instead of a scenario")(
      "case", po::value<long>()->value_name("N"), "which, counted from 1");
  shown.add_options()("brief",
                      "ten lines: due when, by which rule, band, hottest, verdict, what to do first")(
      "csv", po::value<std::string>()->value_name("FILE"),
      "also write every layer's passage as comma-separated values");
  add_replace_option(shown);
  add_usual_options(shown, "--set repeat.holes=3 --set \"plan.0.flow=20 gal/min\"",
                    "for the runs that find the band");
  shown.add_options()("central-only", "only the central run: no low and high ends, no survival without flow");
  return shown;
}

}  // namespace

int run_command(const std::vector<std::string>& words) {
  const ReadOptions read = read_options(
      words,
      "dullcast run SCENARIO.yaml [-o FILE] [--set KEY=VALUE]... [options]\n"
      "dullcast run --from SWEEP.h5 --case N [-o FILE] [options]\n\n"
      "Drills the scenario's column hole after hole, writes every cutter's forces, temperature "
      "and wear to an\n"
      "HDF5 file, and prints when rework will be due, as low, central and high, whether the ground "
      "suits the bit,\nand how long it survives without flow.\n"
      "Ends with 0 when done, 2 for wrong options, 3 for a scenario that cannot be used, 4 when "
      "the run or the\n"
      "writing fails.\n",
      run_options(), "scenario", 1);
  if (read.finished) return ended_well;
  const bool again = read.values.count("from") > 0;
  if (again != (read.values.count("case") > 0)) throw WrongWords("--from and --case go together");
  if (again && (read.values.count("scenario") || read.values.count("set"))) {
    throw WrongWords("--from runs a case exactly as it was, so it takes neither a scenario nor --set");
  }
  const Asked asked = usual_options(read.values, again ? "" : "run");
  analysis::ForecastOptions options;
  options.band = read.values.count("central-only") == 0;
  options.threads = asked.threads;
  const std::string name = again ? "case_" + std::to_string(read.values["case"].as<long>()) : asked.file;
  const std::string output =
      read.values.count("output") ? read.values["output"].as<std::string>() : usual_output(name);
  scenario::Scenario scenario =
      again ? case_of_sweep(read.values["from"].as<std::string>(), read.values["case"].as<long>())
            : ready_scenario(asked.file, asked.library, asked.sets, true);
  Outputs outputs(read.values);
  if (again)
    outputs.reads(read.values["from"].as<std::string>());
  else
    outputs.reads(asked, scenario);
  outputs.will_write(output);
  outputs.will_write_csv();
  const bool brief = read.values.count("brief") > 0;
  scenario = learnt_scenario(std::move(scenario), asked.library, asked.threads);
  analysis::Forecast result;
  {
    ProgressLine progress("Drilling");
    options.announce = announce_band(progress, "The band of the forecast");
    const auto tell = [&](double done, double all) { progress.tell(done, all); };
    result = analysis::forecast(scenario, options, tell);
  }
  pages::tell_events(result.central);
  std::vector<analysis::Survival> survival;
  if (options.band && !brief) {
    ProgressLine progress("Stopping the pump in each layer");
    const simulation::RunOutcome& run = result.central;
    survival = analysis::survive_without_flow(
        result.central_scenario, run.rework_due ? run.rework_due->condition : run.end, options.threads,
        [&](double done, double all) { progress.tell(done, all); });
  }
  const std::vector<simulation::LifeEnd> band =
      options.band ? analysis::band_of(result) : std::vector<simulation::LifeEnd>{};
  // What was computed is told even when it cannot be kept: the disk may have filled since.
  std::optional<base::FileError> not_kept;
  try {
    storage::write_result(output, result.central_scenario, result.central, band,
                          options.band ? std::optional(analysis::notes_of(result, survival)) : std::nullopt);
  } catch (const base::FileError& error) {
    not_kept = error;
  }
  if (brief) {
    print_brief(std::cout, result.central_scenario, result.central, band, result.learned_from > 0,
                asked.units);
  } else {
    print_forecast(std::cout, result, survival, asked.units, options.band);
  }
  outputs.write_csv([&](std::ostream& out) { write_passages_csv(out, result.central); });
  if (not_kept) {
    std::cout.flush();
    throw base::FileError(*not_kept);
  }
  std::cout << (brief ? "Written to " : "\nWritten to ") << output << "\n";
  return ended_well;
}

}  // namespace dullcast::commands
