#include <functional>
#include <mutex>

#include "engine/analysis/layer_hole.hpp"
#include "engine/base/threads.hpp"
#include "tools/commands/command.hpp"
#include "tools/commands/cooling_report.hpp"
#include "tools/commands/options.hpp"
#include "tools/commands/outputs.hpp"
#include "tools/commands/progress_line.hpp"
#include "tools/commands/ready_scenario.hpp"

namespace dullcast::commands {

namespace po = boost::program_options;

namespace {

po::options_description cooling_options() {
  po::options_description shown("Options");
  shown.add_options()("brief", "only what the plan's flow lacks, and where")(
      "csv", po::value<std::string>()->value_name("FILE"),
      "also write both tables as comma-separated values");
  add_replace_option(shown);
  add_usual_options(shown, "--set \"plan.0.weight_on_bit=5000 lbf\"", "for the trial holes");
  return shown;
}

std::vector<analysis::LeastFlow> least_flows(const scenario::Scenario& scenario,
                                             const simulation::BitCondition& condition,
                                             const std::vector<double>& flows, int threads,
                                             const std::function<void(double, double)>& progress) {
  const auto count = static_cast<int>(scenario.column.layers.size());
  std::vector<analysis::LeastFlow> all(static_cast<std::size_t>(count));
  std::mutex telling;
  int done = 0;
  base::parallel_for(count, threads, [&](int layer) {
    all[static_cast<std::size_t>(layer)] = analysis::least_flow(scenario, layer, condition, flows);
    const std::lock_guard<std::mutex> lock(telling);
    progress(++done, count);
  });
  return all;
}

}  // namespace

int cooling_command(const std::vector<std::string>& words) {
  const ReadOptions read = read_options(
      words,
      "dullcast cooling SCENARIO.yaml [--set KEY=VALUE]... [options]\n\n"
      "Prints what the flow does for the scenario's bit, and for each layer the least flow that keeps "
      "its cutters cool\nat the plan's weight and speed: by short trial holes, one after another.\n"
      "Ends with 0 when done, 2 for wrong options, 3 for a scenario that cannot be used, 4 when a trial "
      "fails.\n",
      cooling_options(), "scenario", 1);
  if (read.finished) return ended_well;
  const Asked asked = usual_options(read.values, "look at");
  const Sheet sheet{std::cout, asked.units};
  const scenario::Scenario scenario = ready_scenario(asked.file, asked.library, asked.sets, true);

  const std::vector<double> flows = analysis::flows_to_try(scenario);
  if (flows.empty() || !(flows.back() > flows.front()))
    throw std::invalid_argument(asked.file + ": plan: no flow is planned, so there is none to compare with");
  Outputs outputs(read.values);
  outputs.reads(asked, scenario);
  outputs.will_write_csv();
  CoolingFigures figures;
  {
    ProgressLine progress("Trying flows");
    figures.flows = analysis::flow_table(scenario, flows);
    figures.at_start = least_flows(scenario, analysis::starting_condition(scenario), flows, asked.threads,
                                   [&](double done, double all) { progress.tell(done, 2.0 * all); });
    figures.worn = least_flows(scenario, analysis::worn_to_allowance(scenario), flows, asked.threads,
                               [&](double done, double all) { progress.tell(all + done, 2.0 * all); });
  }
  print_cooling(sheet, scenario, figures, read.values.count("brief") > 0);
  outputs.write_csv([&](std::ostream& out) { write_cooling_csv(out, figures); });
  return ended_well;
}

}  // namespace dullcast::commands
