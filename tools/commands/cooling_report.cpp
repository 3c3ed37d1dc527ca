#include "tools/commands/cooling_report.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <ostream>

#include "engine/base/plain_text.hpp"

namespace dullcast::commands {
namespace {

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

/// What a layer's planned flow lacks, and how much would do; empty where it is enough.
std::string lack(const analysis::LeastFlow& least, const scenario::Scenario& scenario,
                 base::ShownUnits units) {
  const auto flow = [&](double value) { return base::show(value, flow_unit(scenario), units); };
  if (least.coolable == analysis::Coolable::does_not_drill) return "the plan's weight does not drill it";
  std::string words;
  if (least.coolable == analysis::Coolable::at_no_flow)
    words = "no flow keeps it cool: less weight or speed";
  else if (least.coolable == analysis::Coolable::between && least.flow > least.planned_flow)
    words = "to cool " + flow(least.flow);
  if (!std::isfinite(least.flow_to_clean))
    words += (words.empty() ? "" : ", ") + std::string("no flow tried cleans it: feed slower");
  else if (least.flow_to_clean > least.planned_flow)
    words += (words.empty() ? "to clean " : ", to clean ") + flow(least.flow_to_clean);
  return words;
}

void print_brief(const Sheet& sheet, const scenario::Scenario& scenario, const CoolingFigures& figures) {
  constexpr std::size_t most_lines = 6;
  std::size_t lacking = 0;
  for (std::size_t k = 0; k < figures.worn.size(); ++k) {
    // The worn bit asks for more; a new one that lacks something is told by it as well.
    const std::string words = lack(figures.worn[k], scenario, sheet.units);
    if (words.empty()) continue;
    if (++lacking > most_lines) continue;
    const scenario::Layer& layer = scenario.column.layers[static_cast<std::size_t>(figures.worn[k].layer)];
    sheet.line(spoken(figures.worn[k].rock),
               "to " + base::show(layer.bottom, base::shown::depth, sheet.units) + ": planned " +
                   base::show(figures.worn[k].planned_flow, flow_unit(scenario), sheet.units) + "; " + words);
  }
  if (lacking > most_lines) sheet.line("", "and " + std::to_string(lacking - most_lines) + " layers more");
  if (lacking == 0) sheet.line("flow", "enough in every layer, worn to the rule too");
  sheet.out << "Estimates, for a bit worn to its rule. Lines under pressure: keep clear.\n";
}

}  // namespace

void print_cooling(const Sheet& sheet, const scenario::Scenario& scenario, const CoolingFigures& figures,
                   bool brief) {
  sheet.out << scenario.title << "\n  " << scenario.bit.name << ", " << spoken(scenario.fluid.name) << "\n";
  if (brief) {
    print_brief(sheet, scenario, figures);
    return;
  }
  sheet.out << "  Estimates.\n\n";
  print_flows(sheet, scenario, figures.flows);
  print_least(sheet, scenario, "bit as it starts", figures.at_start);
  print_least(sheet, scenario, "bit worn to its rule", figures.worn);
  sheet.out << "An estimate for steady drilling of ten minutes in each rock, at the plan's weight and speed. "
               "Cleaning "
               "usually asks\nfor more flow than cooling does: the greater of the two is the least to run. "
               "Lines under "
               "pressure: keep clear.\n";
}

void write_cooling_csv(std::ostream& out, const CoolingFigures& figures) {
  out << "table,flow_m3_per_s,planned,convection_W_per_m2_K,slot_velocity_m_per_s,uphole_velocity_m_per_s,"
         "pressure_drop_Pa,lifted_share,layer,rock,planned_flow_m3_per_s,hottest_at_plan_K,limit_K,least_to_"
         "cool,"
         "flow_to_clean_m3_per_s\n";
  char text[300];
  for (const analysis::FlowRow& row : figures.flows.rows) {
    std::snprintf(text, sizeof text, "flow,%.9g,%d,%.9g,%.9g,%.9g,%.9g,%.9g,,,,,,,\n", row.flow,
                  row.planned ? 1 : 0, row.convection, row.slot_velocity, row.uphole_velocity,
                  row.pressure_drop, row.lifted_share);
    out << text;
  }
  const auto least = [&](const char* table, const std::vector<analysis::LeastFlow>& all) {
    for (const analysis::LeastFlow& one : all) {
      const char* coolable = one.coolable == analysis::Coolable::between       ? "between"
                             : one.coolable == analysis::Coolable::at_any_flow ? "at_any_flow"
                             : one.coolable == analysis::Coolable::at_no_flow  ? "at_no_flow"
                                                                               : "does_not_drill";
      std::snprintf(text, sizeof text, "%s,%.9g,,,,,,,%d,", table, one.flow, one.layer + 1);
      out << text << base::csv_cell(one.rock);
      std::snprintf(text, sizeof text, ",%.9g,%.9g,%.9g,%s,%.9g\n", one.planned_flow, one.hottest_at_plan,
                    one.limit, coolable, one.flow_to_clean);
      out << text;
    }
  };
  least("least_at_start", figures.at_start);
  least("least_worn", figures.worn);
}

}  // namespace dullcast::commands
