#pragma once

#include <string>
#include <vector>

#include "engine/analysis/number_effects.hpp"
#include "engine/pages/run_view.hpp"
#include "engine/scenario/scenario.hpp"
#include "engine/simulation/outcome.hpp"
#include "tools/commands/outputs.hpp"

namespace dullcast::commands {

/// A run ready for a page: a stored one, or a scenario's, drilled for it and not kept.
struct PageRun {
  std::string name;  // the file, as the user gave it
  scenario::Scenario scenario;
  simulation::RunOutcome outcome;
  std::vector<simulation::LifeEnd> band;        // empty when only the central run was made
  int learned_from = 0;                         // inspected bits
  std::vector<analysis::NumberEffect> effects;  // what the band is due to
};

/// What commands for pages ask for beside their files.
struct PageRunOptions {
  std::string library;
  int threads = 1;
  bool band = true;  // drill the ends of the band of a scenario too
};

/// Reads a result, or drills a scenario: its central run, and its band where asked for. Throws FileError,
/// ScenarioErrors, std::invalid_argument.
PageRun page_run(const std::string& file, const PageRunOptions& options);

/// Tells `outputs` all that these files lead to. Throws what reading a scenario throws.
void reads_for_pages(Outputs& outputs, const std::vector<std::string>& files, const std::string& library);

/// How run_view tells this run.
pages::RunViewOptions view_options(const PageRun& run, base::ShownUnits units);

}  // namespace dullcast::commands
