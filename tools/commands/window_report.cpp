#include "tools/commands/window_report.hpp"

#include <algorithm>
#include <cmath>
#include <set>

#include "engine/analysis/cheapest_cell.hpp"

namespace dullcast::commands {
namespace {

/// A map shows one system of units; both would not fit.
base::ShownUnits map_units(base::ShownUnits units) {
  return units == base::ShownUnits::si ? units : base::ShownUnits::field;
}

const base::Shown& flow_unit(const scenario::Scenario& scenario) {
  return scenario.fluid.kind == scenario::FluidKind::gas ? base::shown::gas_flow : base::shown::flow;
}

std::string speed_words(double rotary_speed) {
  return base::show(rotary_speed, base::shown::rotary_speed, base::ShownUnits::si);
}

/// What a limit says, in few words.
std::string limit_words(analysis::WindowLimit limit) {
  switch (limit) {
    case analysis::WindowLimit::inside:
      return "inside the window";
    case analysis::WindowLimit::heat:
      return "a flat too hot";
    case analysis::WindowLimit::wear:
      return "wear too fast";
    case analysis::WindowLimit::chips:
      return "edges chip";
    case analysis::WindowLimit::retention:
      return "a seat, bond or blade loaded too high";
    case analysis::WindowLimit::progress:
      return "too slow";
    case analysis::WindowLimit::standstill:
      return "does not drill or stops";
    case analysis::WindowLimit::packing:
      return "junk slots fill";
    case analysis::WindowLimit::film:
      return "steam over a cutter, or dry";
    case analysis::WindowLimit::rubbing:
      return "blades rub";
    case analysis::WindowLimit::weight:
      return "over the weight limit";
    case analysis::WindowLimit::pressure:
      return "more pressure than the pump has";
    case analysis::WindowLimit::failed:
      return "could not be calculated";
  }
  return "";
}

/// The nearest of rising values.
std::size_t nearest(const std::vector<double>& values, double value) {
  const auto closer = [value](double a, double b) { return std::abs(a - value) < std::abs(b - value); };
  return static_cast<std::size_t>(std::min_element(values.begin(), values.end(), closer) - values.begin());
}

/// Whether the planned setting is no further past the grid than half a step.
bool plan_on_grid(const analysis::OperatingWindow& window) {
  const auto within = [](const std::vector<double>& values, double value) {
    const double last_step = values.size() > 1 ? values.back() - values[values.size() - 2] : values.back();
    return value <= values.back() + 0.5 * last_step;
  };
  return within(window.weights, window.planned.weight_reached) &&
         within(window.rotary_speeds, window.planned.rotary_speed);
}

void print_map(const Sheet& sheet, const analysis::OperatingWindow& window) {
  const base::ShownUnits units = map_units(sheet.units);
  constexpr int label = 12, cell = 6;
  const std::size_t row = nearest(window.weights, window.planned.weight_reached);
  const std::size_t column = nearest(window.rotary_speeds, window.planned.rotary_speed);
  const bool on_grid = plan_on_grid(window);
  for (std::size_t up = window.weights.size(); up-- > 0;) {
    std::string line = base::show(window.weights[up], base::shown::weight, units);
    line.insert(0, static_cast<std::size_t>(std::max(0, label - static_cast<int>(line.size()))), ' ');
    for (std::size_t k = 0; k < window.rotary_speeds.size(); ++k) {
      const bool planned = on_grid && up == row && k == column;
      std::string text(static_cast<std::size_t>(cell), ' ');
      text[3] = planned ? '[' : ' ';
      text[4] = window_letter(window.cell(up, k).limit);
      text[5] = planned ? ']' : ' ';
      line += text;
    }
    sheet.out << "  " << line.substr(0, line.find_last_not_of(' ') + 1) << "\n";
  }
  std::string speeds(label, ' ');
  for (const double speed : window.rotary_speeds) {
    const std::string text = base::show_number(speed * base::shown::rotary_speed.si_factor);
    speeds +=
        std::string(static_cast<std::size_t>(std::max(1, cell - 1 - static_cast<int>(text.size()))), ' ') +
        text + " ";
  }
  sheet.out << "  " << speeds << "rpm\n";
}

void print_edges(const Sheet& sheet, const analysis::OperatingWindow& window) {
  const int wide = sheet.units == base::ShownUnits::both ? 24 : 12;
  const std::vector<int> widths = {10, wide, wide, 26};
  sheet.row({"at", "from", "up to", "lighter", "heavier"}, widths);
  for (const analysis::WindowEdge& edge : window.edges) {
    if (!edge.greatest) {
      sheet.row({speed_words(edge.rotary_speed), "none", "none",
                 "nearest at " + base::show(edge.weight_above, base::shown::weight, map_units(sheet.units)) +
                     ": " + limit_words(edge.above)},
                widths);
      continue;
    }
    sheet.row({speed_words(edge.rotary_speed), base::show(*edge.least, base::shown::weight, sheet.units),
               base::show(*edge.greatest, base::shown::weight, sheet.units),
               edge.below == analysis::WindowLimit::inside ? "not tried" : limit_words(edge.below),
               edge.above == analysis::WindowLimit::inside ? "not tried" : limit_words(edge.above)},
              widths);
  }
}

std::string figures(const scenario::Scenario& scenario, const analysis::WindowCell& cell,
                    base::ShownUnits units) {
  std::string words = base::show(cell.rate_of_penetration, base::shown::progress, units) + ", flats to " +
                      base::show(cell.hottest_flat, base::shown::temperature, units);
  if (cell.cost_per_metre)
    words += ", " + base::show_money_per_length(*cell.cost_per_metre, scenario.costs.currency, units);
  return words;
}

void print_planned(const Sheet& sheet, const scenario::Scenario& scenario,
                   const analysis::OperatingWindow& window) {
  const analysis::WindowCell& planned = window.planned;
  std::string words = base::show(planned.weight, base::shown::weight, sheet.units) + " at " +
                      speed_words(planned.rotary_speed);
  constexpr double held = 0.98;  // of the weight asked for
  if (planned.weight_reached > 0.0 && planned.weight_reached < held * planned.weight)
    words += ", held to " + base::show(planned.weight_reached, base::shown::weight, sheet.units) +
             " by the feed limit";
  if (!plan_on_grid(window)) words += ", beyond the grid";
  sheet.line("planned", words + ": " + limit_words(planned.limit));
  if (planned.rate_of_penetration > 0.0) sheet.line("", figures(scenario, planned, sheet.units));
}

std::string setting_words(const analysis::WindowCell& cell, base::ShownUnits units) {
  return base::show(cell.weight, base::shown::weight, units) + " at " + speed_words(cell.rotary_speed);
}

/// Where the grid ends beside the cheapest cell.
std::string edge_words(const analysis::CheapestCells& found) {
  std::string words;
  const auto add = [&words](bool there, const char* which) {
    if (there) words += (words.empty() ? "" : ", ") + std::string(which);
  };
  add(found.lightest, "lightest weight");
  add(found.heaviest, "heaviest weight");
  add(found.slowest, "slowest speed");
  add(found.fastest, "fastest speed");
  return "edge of grid (" + words + " tried): what lies beyond was not tried";
}

void print_cheapest(const Sheet& sheet, const scenario::Scenario& scenario,
                    const analysis::OperatingWindow& window) {
  const analysis::CheapestCells found = analysis::cheapest_cells(window);
  if (found.free != nullptr) {
    sheet.line("cheapest cell",
               setting_words(*found.free, sheet.units) + ": " + figures(scenario, *found.free, sheet.units));
    if (found.at_edge()) sheet.line("", edge_words(found));
  }
  if (found.held_back == nullptr) return;
  std::string by;
  for (std::size_t k = 0; k < found.held_by.size(); ++k) {
    if (found.held_by[k] == 0) continue;
    by += (by.empty() ? "" : ", ") + limit_words(static_cast<analysis::WindowLimit>(k)) + " (" +
          std::to_string(found.held_by[k]) + ")";
  }
  sheet.line(found.free != nullptr ? "cheaper, but" : "no cell is free",
             "past a limit, in so many cells: " + by);
  sheet.line("", "cheapest of these " + setting_words(*found.held_back, sheet.units) + ": " +
                     figures(scenario, *found.held_back, sheet.units));
}

void print_failures(const Sheet& sheet, const analysis::OperatingWindow& window) {
  int failed = 0;
  const auto look = [&](const analysis::WindowCell& cell) {
    if (cell.limit != analysis::WindowLimit::failed || ++failed > 1) return;
    sheet.line("failed", base::show(cell.weight, base::shown::weight, sheet.units) + " at " +
                             speed_words(cell.rotary_speed) + ": " + cell.failure);
  };
  for (const analysis::WindowCell& cell : window.cells) look(cell);
  look(window.planned);
  if (failed > 1) sheet.line("", "and " + std::to_string(failed - 1) + " more (the CSV has them all)");
}

/// A limit with its value, for the legend; empty for limits without one or not in force.
std::string limit_value(analysis::WindowLimit limit, const analysis::WindowLimits& limits,
                        base::ShownUnits units) {
  const auto beyond = [](double value, const std::string& words) {
    return std::isinf(value) ? std::string() : words;
  };
  switch (limit) {
    case analysis::WindowLimit::heat:
      return beyond(limits.hottest_flat,
                    "over " + base::show(limits.hottest_flat, base::shown::temperature, units));
    case analysis::WindowLimit::wear:
      return base::show(limits.wear_allowance, base::shown::length, units) +
             " of worn height used up in under " +
             base::show(limits.metres_to_allowance, base::shown::depth, units) + " of this layer's rock";
    case analysis::WindowLimit::chips:
      return base::show_number(limits.chips) + " chips expected in one pass of the layer";
    case analysis::WindowLimit::retention:
      return percent_words(limits.load_share) + " of median strength";
    case analysis::WindowLimit::progress:
      return "under " + base::show(limits.least_progress, base::shown::progress, units);
    case analysis::WindowLimit::packing:
      return percent_words(limits.packing) + " of packed";
    case analysis::WindowLimit::film:
      return "over " + seconds_words(limits.film) + " of film, or the bottom boiled dry";
    case analysis::WindowLimit::weight:
      return base::show(limits.weight, base::shown::weight, units);
    case analysis::WindowLimit::pressure:
      return base::show(limits.pressure, base::shown::pressure, units) + " at the bit";
    case analysis::WindowLimit::rubbing:
      return "the depth of cut has used up the cutters' exposure";
    default:
      return "";
  }
}

}  // namespace

char window_letter(analysis::WindowLimit limit) {
  // By the order of WindowLimit.
  constexpr char letters[] = ".HWCSPNJFBLUX";
  static_assert(sizeof letters == analysis::window_limit_count + 1, "one letter a limit");
  return letters[static_cast<std::size_t>(limit)];
}

void print_window(const Sheet& sheet, const scenario::Scenario& scenario,
                  const analysis::OperatingWindow& window, bool brief) {
  sheet.heading("Layer " + std::to_string(window.layer + 1) + ", " + spoken(window.rock) + " from " +
                base::show(window.top, base::shown::depth, sheet.units) + " to " +
                base::show(window.bottom, base::shown::depth, sheet.units) + ", at " +
                base::show(window.flow, flow_unit(scenario), sheet.units));
  if (!brief) {
    print_map(sheet, window);
    sheet.out << "\n";
    print_edges(sheet, window);
    sheet.out << "\n";
  }
  print_planned(sheet, scenario, window);
  print_cheapest(sheet, scenario, window);
  print_failures(sheet, window);
  if (!brief) sheet.out << "\n";
}

void print_window_legend(const Sheet& sheet, const std::vector<analysis::OperatingWindow>& windows) {
  std::set<analysis::WindowLimit> seen;
  for (const analysis::OperatingWindow& window : windows) {
    for (const analysis::WindowCell& cell : window.cells) seen.insert(cell.limit);
  }
  sheet.heading("Letters: the limit that is most exceeded, or none");
  for (const analysis::WindowLimit limit : seen) {
    const std::string value = limit_value(limit, windows.front().limits, sheet.units);
    sheet.line(std::string(1, window_letter(limit)),
               limit_words(limit) + (value.empty() ? "" : ": " + value));
  }
  sheet.line("[ ]", "the cell nearest to the planned setting");
  sheet.out
      << "\nEdges are found to within 2 % of the weight; \"from\" and \"up to\" were inside themselves. "
         "Weight here is\n"
         "what the bit carries. Each cell drills that layer alone for ten minutes from its top, the bit "
         "worn alike, so\n"
         "what builds up over a hole is not in it. Money is rig time on bottom and the bit's wear in that "
         "rock alone.\n"
         "Estimates: no cell is a permission. Come up to a new setting in steps and keep the rig's, the "
         "string's and\n"
         "the maker's own limits, local codes and the licensed driller's judgement before all of this.\n";
}

}  // namespace dullcast::commands
