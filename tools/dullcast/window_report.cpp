#include "tools/dullcast/window_report.hpp"

#include <algorithm>
#include <cmath>
#include <set>

namespace dullcast {
namespace {

/// A map shows one system of units; both would not fit.
ShownUnits map_units(ShownUnits units) {
  return units == ShownUnits::si ? units : ShownUnits::field;
}

const Shown& flow_unit(const Scenario& scenario) {
  return scenario.fluid.kind == FluidKind::gas ? shown::gas_flow : shown::flow;
}

std::string speed_words(double rotary_speed) {
  return show(rotary_speed, shown::rotary_speed, ShownUnits::si);
}

/// What a limit says, in few words.
std::string limit_words(WindowLimit limit) {
  switch (limit) {
    case WindowLimit::inside:
      return "inside the window";
    case WindowLimit::heat:
      return "a flat too hot";
    case WindowLimit::wear:
      return "wear too fast";
    case WindowLimit::chips:
      return "edges chip";
    case WindowLimit::seats:
      return "a seat, bond or blade loaded too high";
    case WindowLimit::progress:
      return "too slow";
    case WindowLimit::standstill:
      return "does not drill or stops";
    case WindowLimit::packing:
      return "junk slots fill";
    case WindowLimit::film:
      return "steam over a cutter, or dry";
    case WindowLimit::rubbing:
      return "blades rub";
    case WindowLimit::weight:
      return "over the weight limit";
    case WindowLimit::pressure:
      return "more pressure than the pump has";
    case WindowLimit::failed:
      return "could not be calculated";
  }
  return "";
}

/// The nearest of rising values.
std::size_t nearest(const std::vector<double>& values, double value) {
  const auto closer = [value](double a, double b) { return std::abs(a - value) < std::abs(b - value); };
  return static_cast<std::size_t>(std::min_element(values.begin(), values.end(), closer) - values.begin());
}

void print_map(const Sheet& sheet, const OperatingWindow& window) {
  const ShownUnits units = map_units(sheet.units);
  constexpr int label = 12, cell = 6;
  const std::size_t row = nearest(window.weights, window.planned.weight_reached);
  const std::size_t column = nearest(window.rotary_speeds, window.planned.rotary_speed);
  for (std::size_t up = window.weights.size(); up-- > 0;) {
    std::string line = show(window.weights[up], shown::weight, units);
    line.insert(0, static_cast<std::size_t>(std::max(0, label - static_cast<int>(line.size()))), ' ');
    for (std::size_t k = 0; k < window.rotary_speeds.size(); ++k) {
      const bool planned = up == row && k == column;
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
    const std::string text = show_number(speed * shown::rotary_speed.si_factor);
    speeds +=
        std::string(static_cast<std::size_t>(std::max(1, cell - 1 - static_cast<int>(text.size()))), ' ') +
        text + " ";
  }
  sheet.out << "  " << speeds << "rpm\n";
}

void print_edges(const Sheet& sheet, const OperatingWindow& window) {
  const int wide = sheet.units == ShownUnits::both ? 24 : 12;
  const std::vector<int> widths = {10, wide, wide, 26};
  sheet.row({"at", "from", "up to", "lighter", "heavier"}, widths);
  for (const WindowEdge& edge : window.edges) {
    if (!edge.greatest) {
      sheet.row({speed_words(edge.rotary_speed), "none", "none",
                 "nearest at " + show(edge.weight_above, shown::weight, map_units(sheet.units)) + ": " +
                     limit_words(edge.above)},
                widths);
      continue;
    }
    sheet.row({speed_words(edge.rotary_speed), show(*edge.least, shown::weight, sheet.units),
               show(*edge.greatest, shown::weight, sheet.units),
               edge.below == WindowLimit::inside ? "not tried" : limit_words(edge.below),
               edge.above == WindowLimit::inside ? "not tried" : limit_words(edge.above)},
              widths);
  }
}

std::string figures(const Scenario& scenario, const WindowCell& cell, ShownUnits units) {
  std::string words = show(cell.rate_of_penetration, shown::progress, units) + ", flats to " +
                      show(cell.hottest_flat, shown::temperature, units);
  if (cell.cost_per_metre)
    words += ", " + show_money_per_length(*cell.cost_per_metre, scenario.costs.currency, units);
  return words;
}

void print_planned(const Sheet& sheet, const Scenario& scenario, const OperatingWindow& window) {
  const WindowCell& planned = window.planned;
  std::string words =
      show(planned.weight, shown::weight, sheet.units) + " at " + speed_words(planned.rotary_speed);
  constexpr double held = 0.98;  // of the weight asked for
  if (planned.weight_reached > 0.0 && planned.weight_reached < held * planned.weight)
    words += ", held to " + show(planned.weight_reached, shown::weight, sheet.units) + " by the feed limit";
  sheet.line("planned", words + ": " + limit_words(planned.limit));
  if (planned.rate_of_penetration > 0.0) sheet.line("", figures(scenario, planned, sheet.units));
  const WindowCell* cheapest = nullptr;
  for (const WindowCell& cell : window.cells) {
    if (cell.inside() && cell.cost_per_metre &&
        (cheapest == nullptr || *cell.cost_per_metre < *cheapest->cost_per_metre))
      cheapest = &cell;
  }
  if (cheapest != nullptr)
    sheet.line("cheapest cell", show(cheapest->weight, shown::weight, sheet.units) + " at " +
                                    speed_words(cheapest->rotary_speed) + ": " +
                                    figures(scenario, *cheapest, sheet.units));
}

void print_failures(const Sheet& sheet, const OperatingWindow& window) {
  int failed = 0;
  const auto look = [&](const WindowCell& cell) {
    if (cell.limit != WindowLimit::failed || ++failed > 1) return;
    sheet.line("failed", show(cell.weight, shown::weight, sheet.units) + " at " +
                             speed_words(cell.rotary_speed) + ": " + cell.failure);
  };
  for (const WindowCell& cell : window.cells) look(cell);
  look(window.planned);
  if (failed > 1) sheet.line("", "and " + std::to_string(failed - 1) + " more (the CSV has them all)");
}

/// A limit with its value, for the legend; empty for limits without one or not in force.
std::string limit_value(WindowLimit limit, const WindowLimits& limits, ShownUnits units) {
  const auto beyond = [](double value, const std::string& words) {
    return std::isinf(value) ? std::string() : words;
  };
  switch (limit) {
    case WindowLimit::heat:
      return beyond(limits.hottest_flat, "over " + show(limits.hottest_flat, shown::temperature, units));
    case WindowLimit::wear:
      return show(limits.wear_allowance, shown::length, units) + " of worn height used up in under " +
             show(limits.metres_to_allowance, shown::depth, units) + " of this layer's rock";
    case WindowLimit::chips:
      return show_number(limits.chips) + " chips expected in one pass of the layer";
    case WindowLimit::seats:
      return percent_words(limits.load_share) + " of median strength";
    case WindowLimit::progress:
      return "under " + show(limits.least_progress, shown::progress, units);
    case WindowLimit::packing:
      return percent_words(limits.packing) + " of packed";
    case WindowLimit::film:
      return "over " + seconds_words(limits.film) + " of film, or the bottom boiled dry";
    case WindowLimit::weight:
      return show(limits.weight, shown::weight, units);
    case WindowLimit::pressure:
      return show(limits.pressure, shown::pressure, units) + " at the bit";
    case WindowLimit::rubbing:
      return "the depth of cut has used up the cutters' exposure";
    default:
      return "";
  }
}

}  // namespace

char window_letter(WindowLimit limit) {
  // By the order of WindowLimit.
  constexpr char letters[] = ".HWCSPNJFBLUX";
  static_assert(sizeof letters == window_limit_count + 1, "one letter a limit");
  return letters[static_cast<std::size_t>(limit)];
}

void print_window(const Sheet& sheet, const Scenario& scenario, const OperatingWindow& window) {
  sheet.heading("Layer " + std::to_string(window.layer + 1) + ", " + spoken(window.rock) + " from " +
                show(window.top, shown::depth, sheet.units) + " to " +
                show(window.bottom, shown::depth, sheet.units) + ", at " +
                show(window.flow, flow_unit(scenario), sheet.units));
  print_map(sheet, window);
  sheet.out << "\n";
  print_edges(sheet, window);
  sheet.out << "\n";
  print_planned(sheet, scenario, window);
  print_failures(sheet, window);
  sheet.out << "\n";
}

void print_window_legend(const Sheet& sheet, const std::vector<OperatingWindow>& windows) {
  std::set<WindowLimit> seen;
  for (const OperatingWindow& window : windows) {
    for (const WindowCell& cell : window.cells) seen.insert(cell.limit);
  }
  sheet.heading("Letters: the limit that is most exceeded, or none");
  for (const WindowLimit limit : seen) {
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

}  // namespace dullcast
