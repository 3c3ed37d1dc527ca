
#include "tools/commands/command.hpp"
#include "tools/commands/options.hpp"
#include "tools/commands/outputs.hpp"
#include "tools/commands/progress_line.hpp"
#include "tools/commands/ready_scenario.hpp"
#include "tools/commands/window_report.hpp"
#include "tools/commands/window_words.hpp"

namespace dullcast::commands {

namespace po = boost::program_options;

namespace {

po::options_description window_options() {
  using Words = std::vector<std::string>;
  po::options_description shown("Options");
  shown.add_options()("layer", po::value<std::vector<int>>()->value_name("N"),
                      "only this layer, counted from 1; may be given again")(
      "flow", po::value<std::string>()->value_name("FLOW"),
      "this flow, e.g. \"60 gal/min\", instead of each layer's planned one")(
      "weights", po::value<std::string>()->value_name("RANGE"),
      "weights on bit, e.g. \"2000 lbf to 8000 lbf in 7\" or \"5000 lbf\"")(
      "speeds", po::value<std::string>()->value_name("RANGE"),
      "rotary speeds, e.g. \"40 rpm to 140 rpm in 6\"")(
      "worn", po::value<std::string>()->default_value("start")->value_name("WHICH"),
      "the bit: new, half (of what its rule allows), or as the scenario has it at the start")(
      "limit", po::value<Words>()->value_name("NAME=VALUE"),
      "another limit, e.g. \"heat=300 degC\", \"wear=100 m\" or \"weight=none\"; names: heat, wear, chips, "
      "seats, progress, packing, film, weight, pressure; may be given again")(
      "keep-feed-limit",
      "let the plan's feed limit hold the bit back in every cell, so that the weight may not be "
      "reached")("csv", po::value<std::string>()->value_name("FILE"),
                 "also write every figure as comma-separated values")(
      "brief", "of each layer only what the planned setting does and the cheapest cell");
  add_replace_option(shown);
  add_usual_options(shown, "--set \"bit.grade=standard\"", "for the trial holes");
  return shown;
}

/// The layers asked for, counted from 0; all of them where none is named.
std::vector<int> layers_asked(const po::variables_map& values, const scenario::Scenario& scenario) {
  const auto count = static_cast<int>(scenario.column.layers.size());
  std::vector<int> layers;
  if (values.count("layer") == 0) {
    for (int k = 0; k < count; ++k) layers.push_back(k);
    return layers;
  }
  for (const int layer : values["layer"].as<std::vector<int>>()) {
    if (layer < 1 || layer > count)
      throw WrongWords("--layer " + std::to_string(layer) + " is not there: the column has layers 1 to " +
                       std::to_string(count));
    layers.push_back(layer - 1);
  }
  return layers;
}

const char* bit_words(analysis::WindowBit bit) {
  switch (bit) {
    case analysis::WindowBit::as_new:
      return "new";
    case analysis::WindowBit::half_worn:
      return "worn to half of what its rule allows";
    case analysis::WindowBit::as_it_starts:
      return "as it starts";
  }
  return "";
}

}  // namespace

int window_command(const std::vector<std::string>& words) {
  const ReadOptions read = read_options(
      words,
      "dullcast window SCENARIO.yaml [--layer N] [--flow FLOW] [--weights RANGE] [--speeds RANGE] "
      "[options]\n\n"
      "Prints for each layer of the scenario's column where its bit may be run: weight on bit against "
      "rotary\n"
      "speed at a flow, with the limit that binds outside. Every cell is a short trial hole of its own.\n"
      "Ends with 0 when done, 2 for wrong options, 3 for a scenario that cannot be used.\n",
      window_options(), "scenario", 1);
  if (read.finished) return ended_well;
  const Asked asked = usual_options(read.values, "draw the window of");
  const input::UnitParser units;
  analysis::WindowOptions options;
  options.threads = asked.threads;
  options.keep_feed_limit = read.values.count("keep-feed-limit") > 0;
  options.bit = read_window_bit(read.values["worn"].as<std::string>());
  const auto given = [&](const char* name) { return read.values[name].as<std::string>(); };
  if (read.values.count("flow"))
    options.flow = read_value("--flow", given("flow"), base::dimension::flow, units);
  if (read.values.count("weights"))
    options.weights = read_range("--weights", given("weights"), base::dimension::force, units);
  if (read.values.count("speeds"))
    options.rotary_speeds = read_range("--speeds", given("speeds"), base::dimension::rotary_speed, units);
  const auto changed = read.values.count("limit") ? read.values["limit"].as<std::vector<std::string>>()
                                                  : std::vector<std::string>{};
  analysis::WindowLimits unused;  // wrong words are told before the scenario is read
  for (const std::string& limit : changed) read_limit(limit, units, unused);

  const scenario::Scenario scenario = ready_scenario(asked.file, asked.library, asked.sets, true);
  options.limits = analysis::usual_window_limits(scenario);
  for (const std::string& limit : changed) read_limit(limit, units, *options.limits);
  const std::vector<int> layers = layers_asked(read.values, scenario);
  Outputs outputs(read.values);
  outputs.reads(asked, scenario);
  outputs.will_write_csv();

  std::vector<analysis::OperatingWindow> windows;
  {
    ProgressLine line("Trying settings");
    const auto count = static_cast<double>(layers.size());
    for (const int layer : layers) {
      options.layer = layer;
      const auto before = static_cast<double>(windows.size());
      options.progress = [&](double done, double all) { line.tell(before + done / all, count); };
      windows.push_back(analysis::operating_window(scenario, options));
    }
  }
  const Sheet sheet{std::cout, asked.units};
  const bool brief = read.values.count("brief") > 0;
  std::cout << "Operating window of \"" << scenario.title << "\"\n  " << scenario.bit.name << ", "
            << bit_words(options.bit) << "; " << spoken(scenario.fluid.name) << "\n  Estimates.\n\n";
  for (const analysis::OperatingWindow& window : windows) print_window(sheet, scenario, window, brief);
  if (brief)
    std::cout << "An estimate at central numbers, not a permission: come up to a new setting in steps.\n";
  else
    print_window_legend(sheet, windows);
  outputs.write_csv([&](std::ostream& out) { write_window_csv(out, scenario, windows); });
  return ended_well;
}

}  // namespace dullcast::commands
