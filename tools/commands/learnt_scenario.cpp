#include "tools/commands/learnt_scenario.hpp"

#include "engine/input/scenario_writer.hpp"
#include "engine/learning/one_bit.hpp"
#include "tools/commands/progress_line.hpp"
#include "tools/commands/ready_scenario.hpp"

namespace dullcast::commands {

scenario::Scenario learnt_scenario(scenario::Scenario scenario, const std::string& library, int threads) {
  if (!scenario.calibrate_from) return scenario;
  const scenario::Scenario inspected =
      ready_scenario(scenario.calibrate_from->scenario_file, library, {}, false);
  ProgressLine progress("Matching the inspected bit");
  learning::FitOptions fit;
  fit.threads = threads;
  fit.told = [&](double done, double all) { progress.tell(done, all); };
  scenario =
      learning::with_learned(scenario, learning::learn_from_one(inspected, *scenario.calibrate_from, fit));
  scenario.calibrate_from.reset();
  scenario.text = input::resolved_text(scenario);
  return scenario;
}

}  // namespace dullcast::commands
