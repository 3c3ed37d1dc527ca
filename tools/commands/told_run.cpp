#include "tools/commands/told_run.hpp"

#include <filesystem>

#include "engine/analysis/forecast.hpp"
#include "engine/base/file_error.hpp"
#include "engine/input/earlier_text.hpp"
#include "engine/input/scenario_reader.hpp"
#include "engine/input/scenario_writer.hpp"
#include "engine/pages/event_sentences.hpp"
#include "tools/commands/command.hpp"
#include "tools/commands/progress_line.hpp"
#include "tools/commands/ready_scenario.hpp"

namespace dullcast::commands {

bool is_scenario_name(const std::string& file) {
  const std::string ending = std::filesystem::path(file).extension().string();
  return ending == ".yaml" || ending == ".yml";
}

scenario::Scenario scenario_of(const storage::StoredRun& run, const std::string& library) {
  const input::ScenarioReader reader(library_folder(library, run.path));
  std::vector<input::Warning> said_before;
  // Its own folder is not known any more, and nothing that it leads to is opened again.
  scenario::Scenario scenario = reader.read_tree(
      input::without_withdrawn_numbers(input::ScenarioReader::parse(run.scenario_text, run.path)), run.path,
      {}, said_before);
  scenario.text = input::resolved_text(scenario);
  storage::copy_start(run, scenario.bit);
  return scenario;
}

ToldRun told_run(const std::string& file, const std::string& library) {
  ToldRun told;
  told.name = file;
  if (is_scenario_name(file)) {
    told.scenario = ready_scenario(file, library, {}, true);
    if (told.scenario.calibrate_from)
      throw std::invalid_argument(file +
                                  ": learns from an inspected bit; run it first and compare its result");
    ProgressLine progress("Drilling " + file);
    analysis::ForecastOptions options;
    options.band = false;
    told.outcome = analysis::forecast(told.scenario, options, [&](double done, double all) {
                     progress.tell(done, all);
                   }).central;
    pages::tell_events(told.outcome);
    return told;
  }
  storage::StoredRun run = storage::read_result(file);
  told.scenario = scenario_of(run, library);
  told.outcome = std::move(run.outcome);
  told.band = std::move(run.band);
  return told;
}

}  // namespace dullcast::commands
