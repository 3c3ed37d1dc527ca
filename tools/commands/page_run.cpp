#include "tools/commands/page_run.hpp"

#include <utility>

#include "engine/analysis/told_again.hpp"
#include "engine/pages/event_sentences.hpp"
#include "tools/commands/band_announcement.hpp"
#include "tools/commands/command.hpp"
#include "tools/commands/learnt_scenario.hpp"
#include "tools/commands/ready_scenario.hpp"
#include "tools/commands/told_run.hpp"

namespace dullcast::commands {

PageRun page_run(const std::string& file, const PageRunOptions& options) {
  PageRun made;
  made.name = file;
  analysis::Forecast forecast;
  if (is_scenario_name(file)) {
    scenario::Scenario scenario =
        learnt_scenario(ready_scenario(file, options.library, {}, true), options.library, options.threads);
    ProgressLine progress("Drilling " + file);
    analysis::ForecastOptions how;
    how.band = options.band;
    how.threads = options.threads;
    how.announce = announce_band(progress, "The band of the forecast");
    forecast = analysis::forecast(scenario, how, [&](double done, double all) { progress.tell(done, all); });
    pages::tell_events(forecast.central);
    if (options.band) made.band = analysis::band_of(forecast);
    made.scenario = std::move(forecast.central_scenario);
  } else {
    const storage::StoredRun run = storage::read_result(file);
    made.scenario = scenario_of(run, options.library);
    forecast = analysis::forecast_of(run, made.scenario);
    made.band = run.band;
  }
  made.outcome = std::move(forecast.central);
  made.learned_from = forecast.learned_from;
  made.effects = std::move(forecast.effects);
  return made;
}

void reads_for_pages(Outputs& outputs, const std::vector<std::string>& files, const std::string& library) {
  for (const std::string& file : files) {
    outputs.reads(file);
    if (is_scenario_name(file)) outputs.reads(ready_scenario(file, library, {}, false));
  }
}

pages::RunViewOptions view_options(const PageRun& run, base::ShownUnits units) {
  pages::RunViewOptions options;
  options.name = run.name;
  options.made_by = version_line();
  options.units = units;
  options.learned_from = run.learned_from;
  options.effects = run.effects;
  return options;
}

}  // namespace dullcast::commands
