#include <cmath>
#include <cstdio>
#include <string>

#include "engine/base/plain_text.hpp"
#include "tools/commands/window_report.hpp"

namespace dullcast::commands {
namespace {

std::string number(double value) {
  char text[32];
  std::snprintf(text, sizeof text, "%.9g", value);
  return text;
}

/// Limits whose use has a column: all that can be used up.
constexpr analysis::WindowLimit counted[] = {
    analysis::WindowLimit::heat,      analysis::WindowLimit::wear,     analysis::WindowLimit::chips,
    analysis::WindowLimit::retention, analysis::WindowLimit::progress, analysis::WindowLimit::standstill,
    analysis::WindowLimit::packing,   analysis::WindowLimit::film,     analysis::WindowLimit::rubbing,
    analysis::WindowLimit::weight,    analysis::WindowLimit::pressure};

/// Names of a cell's figures, in the order of `figures`.
constexpr const char* figure_names =
    "weight_reached_N,rate_of_penetration_m_per_s,hottest_flat_K,wear_m_per_m,metres_to_allowance_m,"
    "chips_per_m,chips_per_pass,load_share,solids_fraction,packing_share,rotating_s,film_s,ran_dry,stopped,"
    "depth_of_cut_m_per_rev,depth_to_rub_m_per_rev,blade_weight_share,torque_N_m,pressure_Pa,cost_per_m";
constexpr int figure_count = 20;

std::string figures(const analysis::WindowCell& c) {
  std::string line;
  const double values[] = {c.weight_reached,
                           c.rate_of_penetration,
                           c.hottest_flat,
                           c.wear_per_metre,
                           c.metres_to_allowance,
                           c.chips_per_metre,
                           c.chips_per_pass,
                           c.load_share,
                           c.solids_fraction,
                           c.packing,
                           c.rotating_time,
                           c.time_in_film,
                           c.ran_dry ? 1.0 : 0.0,
                           c.stopped ? 1.0 : 0.0,
                           c.depth_of_cut,
                           c.depth_to_rub,
                           c.blade_share,
                           c.torque,
                           c.pressure};
  for (const double value : values) line += "," + number(value);
  return line + "," + (c.cost_per_metre ? number(*c.cost_per_metre) : "");
}

}  // namespace

void write_window_csv(std::ostream& out, const scenario::Scenario& scenario,
                      const std::vector<analysis::OperatingWindow>& windows) {
  out << "row,layer,rock,top_m,bottom_m,flow_m3_per_s,weight_N,rotary_speed_rev_per_s,limit," << figure_names;
  for (const analysis::WindowLimit limit : counted) out << ",use_" << analysis::window_limit_name(limit);
  out << ",currency,failure,title,bit\n";
  for (const analysis::OperatingWindow& window : windows) {
    const auto head = [&](const char* row, double weight, double speed, analysis::WindowLimit limit) {
      out << row << "," << window.layer + 1 << "," << base::csv_cell(window.rock) << "," << number(window.top)
          << "," << number(window.bottom) << "," << number(window.flow) << "," << number(weight) << ","
          << number(speed) << "," << analysis::window_limit_name(limit);
    };
    const auto whole = [&](const char* row, const analysis::WindowCell& cell) {
      head(row, cell.weight, cell.rotary_speed, cell.limit);
      out << figures(cell);
      for (const analysis::WindowLimit limit : counted) out << "," << number(cell.use(limit));
      out << "," << base::csv_cell(scenario.costs.currency) << "," << base::csv_cell(cell.failure) << ","
          << base::csv_cell(scenario.title) << "," << base::csv_cell(scenario.bit.name) << "\n";
    };
    const auto end = [&](const char* row, const std::optional<double>& weight,
                         const analysis::WindowEdge& edge, analysis::WindowLimit limit) {
      if (!weight) return;
      head(row, *weight, edge.rotary_speed, limit);
      out << std::string(figure_count + std::size(counted) + 4, ',') << "\n";
    };
    for (const analysis::WindowCell& cell : window.cells) whole("cell", cell);
    whole("planned", window.planned);
    for (const analysis::WindowEdge& edge : window.edges) {
      end("greatest", edge.greatest, edge, edge.above);
      end("least", edge.least, edge, edge.below);
    }
  }
}

}  // namespace dullcast::commands
