#include <algorithm>
#include <cmath>

#include "engine/analysis/cooling_table.hpp"
#include "engine/analysis/layer_hole.hpp"
#include "engine/base/threads.hpp"
#include "tools/commands/command.hpp"
#include "tools/commands/options.hpp"
#include "tools/commands/ready_scenario.hpp"
#include "tools/commands/report_words.hpp"

namespace dullcast::commands {

namespace po = boost::program_options;

namespace {

po::options_description cooling_options() {
  po::options_description shown("Options");
  add_usual_options(shown, "--set \"plan.0.weight_on_bit=5000 lbf\"", "for the trial holes");
  return shown;
}

const base::Shown& flow_unit(const scenario::Scenario& scenario) {
  return scenario.fluid.kind == scenario::FluidKind::gas ? base::shown::gas_flow : base::shown::flow;
}

void print_flows(const Sheet& sheet, const scenario::Scenario& scenario, const analysis::FlowTable& table) {
  sheet.heading("What each flow does at the bit (clean slots, nothing boils)");
  const int wide = sheet.units == base::ShownUnits::both ? 28 : 15;
  const std::vector<int> widths = {wide, 18, wide, wide, wide, 17};
  sheet.row({"flow", "cooling", "past cutters", "uphole", "pressure drop", "cuttings lifted", ""}, widths);
  for (const analysis::FlowRow& row : table.rows) {
    sheet.row({base::show(row.flow, flow_unit(scenario), sheet.units),
               base::show_number(std::round(row.convection)) + " W/(m2 K)",
               base::show(row.slot_velocity, base::shown::fluid_speed, sheet.units),
               base::show(row.uphole_velocity, base::shown::fluid_speed, sheet.units),
               base::show(row.pressure_drop, base::shown::pressure, sheet.units),
               percent_words(row.lifted_share), row.planned ? "<- planned" : ""},
              widths);
  }
  const scenario::Layer& layer = scenario.column.layers[static_cast<std::size_t>(table.layer)];
  sheet.out << "  Cooling is convection at the outermost cutter (" << cutter_words({table.outermost_cutter})
            << ", at " << base::show(table.radius, base::shown::length, sheet.units) << " from the axis) at "
            << base::show(table.rotary_speed, base::shown::rotary_speed, base::ShownUnits::si)
            << ", as planned in " << spoken(layer.rock.name) << ";\n"
            << "  rotation stirs too while the flow renews the water between the blades. Cuttings lifted: "
               "least of the "
               "layers.\n\n";
}

std::string least_words(const analysis::LeastFlow& least, const scenario::Scenario& scenario,
                        base::ShownUnits units) {
  const std::string limit = base::show(least.limit, base::shown::temperature, units);
  switch (least.coolable) {
    case analysis::Coolable::between:
      return base::show(least.flow, flow_unit(scenario), units);
    case analysis::Coolable::at_any_flow:
      return "any flow tried, from " + base::show(least.flow, flow_unit(scenario), units);
    case analysis::Coolable::at_no_flow:
      return "over " + limit + " at any flow (" +
             base::show(least.hottest_at_most_flow, base::shown::temperature, units) + " at " +
             base::show(least.flow, flow_unit(scenario), units) + ")";
    case analysis::Coolable::does_not_drill:
      return "the plan's weight does not drill it";
  }
  return "";
}

void print_least(const Sheet& sheet, const scenario::Scenario& scenario, const std::string& which,
                 const std::vector<analysis::LeastFlow>& all) {
  sheet.heading("Least flow that keeps every flat under " +
                base::show(all.front().limit, base::shown::temperature, base::ShownUnits::both) + ", " +
                which);
  const int wide = sheet.units == base::ShownUnits::both ? 24 : 14;
  const std::vector<int> widths = {rock_column(scenario), wide, wide, wide, wide};
  sheet.row({"rock", "to", "planned", "hottest then", "to clean", "to cool"}, widths);
  for (const analysis::LeastFlow& least : all) {
    const scenario::Layer& layer = scenario.column.layers[static_cast<std::size_t>(least.layer)];
    const bool drills = least.coolable != analysis::Coolable::does_not_drill;
    sheet.row(
        {spoken(least.rock), base::show(layer.bottom, base::shown::depth, sheet.units),
         base::show(least.planned_flow, flow_unit(scenario), sheet.units),
         drills ? base::show(least.hottest_at_plan, base::shown::temperature, sheet.units) : std::string("-"),
         !drills ? std::string("-")
         : std::isfinite(least.flow_to_clean)
             ? base::show(least.flow_to_clean, flow_unit(scenario), sheet.units)
             : std::string("more than tried"),
         least_words(least, scenario, sheet.units)},
        widths);
  }
  sheet.out << "\n";
}

std::vector<analysis::LeastFlow> least_flows(const scenario::Scenario& scenario,
                                             const simulation::BitCondition& condition,
                                             const std::vector<double>& flows, int threads) {
  const auto count = static_cast<int>(scenario.column.layers.size());
  std::vector<analysis::LeastFlow> all(static_cast<std::size_t>(count));
  base::parallel_for(count, threads, [&](int layer) {
    all[static_cast<std::size_t>(layer)] = analysis::least_flow(scenario, layer, condition, flows);
  });
  return all;
}

}  // namespace

int cooling_command(const std::vector<std::string>& words) {
  const ReadOptions read = read_options(
      words,
      "dullcast cooling SCENARIO.yaml [--set KEY=VALUE]... [options]\n\n"
      "Prints what the flow does for the scenario's bit, and for each layer the least flow that keeps "
      "its cutters cool\nat the plan's weight and speed: by short trial holes, one after another. Writes "
      "no file.\n"
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
  std::cout << scenario.title << "\n  " << scenario.bit.name << ", " << spoken(scenario.fluid.name)
            << "\n  Estimates.\n\n";
  print_flows(sheet, scenario, analysis::flow_table(scenario, flows));
  print_least(sheet, scenario, "bit as it starts",
              least_flows(scenario, analysis::starting_condition(scenario), flows, asked.threads));
  print_least(sheet, scenario, "bit worn to its rule",
              least_flows(scenario, analysis::worn_to_allowance(scenario), flows, asked.threads));
  std::cout << "An estimate for steady drilling of ten minutes in each rock, at the plan's weight and speed. "
               "Cleaning "
               "usually asks\n"
               "for more flow than cooling does: the greater of the two is the least to run. Lines under "
               "pressure: keep "
               "clear.\n";
  return ended_well;
}

}  // namespace dullcast::commands
