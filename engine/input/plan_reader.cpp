#include "engine/input/plan_reader.hpp"

#include <cmath>

#include "engine/base/display.hpp"
#include "engine/base/words.hpp"
#include "engine/input/quantity_reader.hpp"
#include "engine/input/setting_ranges.hpp"
#include "engine/scenario/number_fields.hpp"
#include "engine/scenario/operating_weight.hpp"
#include "engine/scenario/practice.hpp"

namespace dullcast::input {

namespace {

constexpr base::Range weight_per_length_range{0.0, 1e5, true, "0 or more, up to 100 kN/m"};
// Slower, and a hole of a metre takes longer than a year.
constexpr base::Range feed_range{2.7777e-8, 1.0, true, "from 0.1 mm/h to 1 m/s"};
// A hair wider than its words, which come out of their unit a rounding off.
constexpr base::Range inlet_range{233.1499, 473.1501, true, "from -40 to 200 degC"};
constexpr base::Range steel_range{1000.0, 20000.0, true, "from 1000 to 20000 kg/m3"};
constexpr base::Range pipe_range{1e-3, 2.0, true, "from 1 mm to 2 m"};
constexpr base::Range pressure_limit_range{0.0, 2e8, true, "0 (none known) or more, up to 200 MPa"};
constexpr double freezing = 273.15, boiling = 373.15;        // K, of water under one atmosphere
constexpr double same_depth = 5e-3;                          // m
constexpr double pound_force = 4.4482216152605;              // N, exact
constexpr double gallon_a_minute = 3.785411784e-3 / 60.0;    // m3/s, exact
constexpr double usual_least_flow = 10.0 * gallon_a_minute;  // [cp]
constexpr double least_weight_share = 0.05;                  // [asm]

std::string pounds(double weight) {
  return base::plain_number(std::round(weight / pound_force)) + " lbf";
}

void read_weight(MapReader& item, bool has_string, scenario::OperatingInterval& interval) {
  interval.weight_on_bit = item.number("weight_on_bit", base::dimension::force, setting_range::weight);
  interval.pull_down = item.number_or("pull_down", base::dimension::force, setting_range::weight, 0.0);
  interval.holdback = item.number_or("holdback", base::dimension::force, setting_range::weight, 0.0);
  const bool whole = item.has("weight_on_bit"), parts = item.has("pull_down") || item.has("holdback");
  if (whole && parts) {
    item.error("weight_on_bit",
               "is given beside pull_down or holdback; write the whole weight, or its parts");
  } else if (!whole && !parts) {
    item.error("weight_on_bit", "is missing; write weight_on_bit: 6750 lbf, or pull_down: with string:");
  } else if (parts && !has_string) {
    item.warn("pull_down", "there is no string:, so the weight of pipe and collars is left out");
  }
}

void warn_unwise(MapReader& item, const scenario::OperatingInterval& interval,
                 const scenario::StringRecord& string, const scenario::FluidRecord& fluid,
                 double inlet_temperature, double weight_limit, double usual_weight) {
  // What is impossible (no fluid, mist without air to carry it) is refused elsewhere.
  scenario::OperatingInterval possible = interval;
  if (!(interval.flow > 0.0) || !(fluid.density.central > 0.0)) possible.mist_water = 0.0;
  const double density = scenario::fluid_at_bit(fluid, possible, inlet_temperature).fluid.density;
  const double weight =
      scenario::weight_on_bit(interval, scenario::drill_string_of(string), density, interval.to);
  if (weight_limit > 0.0 && weight > weight_limit) {
    item.warn(interval.weight_on_bit ? "weight_on_bit" : "pull_down",
              "puts up to " + pounds(weight) + " on the bit at " + base::depth_text(interval.to) +
                  ", above " + pounds(weight_limit) +
                  " (common practice: 1000 lbf per inch of diameter): cutters run hot and chip");
  }
  if (weight < least_weight_share * usual_weight) {
    item.warn(interval.weight_on_bit ? "weight_on_bit" : "pull_down",
              "puts " + pounds(weight) +
                  " on the bit, hardly any for its size (common practice: up to 1000 lbf "
                  "per inch of diameter): it will rub rather than cut");
  }
  if (fluid.kind == scenario::FluidKind::liquid && interval.flow < usual_least_flow) {
    item.warn("flow",
              "is under 10 gal/min (common practice): cutters lose their cooling and cuttings stay below");
  }
  if (interval.rotary_speed > scenario::usual_most_speed * (1.0 + 1e-9)) {
    item.warn("rotary_speed",
              "is above the usual 80 to 100 rpm (common practice): heat grows with speed, and hard "
              "rock wants less");
  }
}

}  // namespace

scenario::FluidRecord read_fluid(MapReader& scenario, const Library& library, double& inlet_temperature) {
  scenario::FluidRecord fluid;
  const YamlValue* value = scenario.find("fluid");
  if (!value) {
    scenario.error("fluid", "is missing; write fluid: and one of " + base::one_of(names_of(library.fluids)));
    return fluid;
  }
  if (value->is_scalar()) {
    if (const auto* found = named_record(scenario, "fluid", "fluid", value->text, library.fluids))
      fluid = *found;
    return fluid;
  }
  MapReader map = scenario.map("fluid");
  if (const auto name = map.word("name")) {
    if (const auto* found = named_record(map, "name", "fluid", *name, library.fluids)) fluid = *found;
  } else if (!map.has("name")) {
    map.error("name", "is missing; write name: and one of " + base::one_of(names_of(library.fluids)));
  }
  inlet_temperature =
      map.number_or("inlet_temperature", base::dimension::temperature, inlet_range, inlet_temperature);
  if (fluid.kind == scenario::FluidKind::liquid && map.has("inlet_temperature") &&
      (inlet_temperature < freezing || inlet_temperature > boiling)) {
    map.warn("inlet_temperature", std::string("is ") +
                                      (inlet_temperature < freezing ? "below freezing" : "above boiling") +
                                      " for water at the surface: check its unit");
  }
  read_numbers(map, fluid, false);
  map.finish();
  return fluid;
}

scenario::StringRecord read_string(MapReader& scenario, double bit_diameter) {
  constexpr double usual_share = 0.45;  // 3-1/2 in pipe in a 7-7/8 in hole [asm]
  scenario::StringRecord string;
  MapReader map = scenario.map("string");
  string.pipe_diameter =
      map.number_or("pipe_diameter", base::dimension::length, pipe_range, usual_share * bit_diameter);
  if (bit_diameter > 0.0 && string.pipe_diameter >= bit_diameter) {
    map.error("pipe_diameter", "is no less than the bit's diameter of " +
                                   base::plain_number(1000.0 * bit_diameter) +
                                   " mm; cuttings come up between pipe and hole");
  }
  string.pipe_weight =
      map.number_or("pipe_weight", base::dimension::weight_per_length, weight_per_length_range, 0.0);
  string.collar_weight =
      map.number_or("collar_weight", base::dimension::weight_per_length, weight_per_length_range, 0.0);
  string.collar_length = map.number_or("collar_length", base::dimension::depth, setting_range::depth, 0.0);
  string.steel_density =
      map.number_or("steel_density", base::dimension::density, steel_range, string.steel_density);
  if (string.collar_weight > 0.0 && string.collar_length == 0.0) {
    map.warn("collar_weight", "counts for nothing without collar_length:");
  }
  map.finish();
  return string;
}

double read_pump(MapReader& scenario) {
  MapReader map = scenario.map("pump");
  const double limit = map.number_or("pressure_limit", base::dimension::pressure, pressure_limit_range, 0.0);
  map.finish();
  return limit;
}

std::vector<scenario::OperatingInterval> read_plan(MapReader& scenario, const scenario::StringRecord& string,
                                                   const scenario::FluidRecord& fluid,
                                                   double inlet_temperature, double bottom,
                                                   double weight_limit, double usual_weight) {
  std::vector<scenario::OperatingInterval> plan;
  const auto& items = scenario.list("plan");
  if (!scenario.has("plan") || (scenario.find("plan")->is_list() && items.empty())) {
    scenario.error(
        "plan", "is missing; write one \"- \" to a depth interval with weight_on_bit, rotary_speed and flow");
  }
  double above = 0.0;
  for (std::size_t i = 0; i < items.size(); ++i) {
    MapReader item(items[i], "plan." + std::to_string(i), scenario.reading(), scenario.location());
    const std::size_t errors_before = scenario.reading().problems.error_count();
    scenario::OperatingInterval interval;
    interval.from = item.number_or("from", base::dimension::depth, setting_range::depth, above);
    if (std::abs(interval.from - above) <= same_depth) {
      interval.from = above;
    } else {
      item.error("from", interval.from > above
                             ? "leaves a gap: the plan above ends at " + base::depth_text(above) +
                                   " and goes on at " + base::depth_text(interval.from) + "; close it"
                             : "overlaps the interval above, which ends at " + base::depth_text(above) +
                                   "; intervals follow each other from the surface down");
    }
    const bool last = i + 1 == items.size();
    if (last || item.has("to")) {
      interval.to =
          item.number_or("to", base::dimension::depth, setting_range::depth, std::max(bottom, interval.from));
      if (!(interval.to > interval.from) && bottom > 0.0) {
        item.error("to", "is no deeper than the interval starts, at " + base::depth_text(interval.from) +
                             "; intervals follow each other from the surface down");
      }
    } else {
      item.find("to");
      item.error("to",
                 "is missing; only the last interval may leave it out, and then reaches the column's bottom");
    }
    read_weight(item, scenario.has("string"), interval);
    interval.rotary_speed =
        item.required("rotary_speed", base::dimension::rotary_speed, setting_range::turning);
    interval.flow = item.required("flow", base::dimension::flow, setting_range::flow);
    interval.mist_water = item.number_or("mist_water", base::dimension::flow, setting_range::flow, 0.0);
    if (interval.mist_water > 0.0 && fluid.kind == scenario::FluidKind::liquid && !fluid.name.empty()) {
      item.error("mist_water", "is water carried by air, but the fluid is " + fluid.name +
                                   "; leave it out, or write fluid: air");
    }
    if (interval.mist_water > 0.0 && fluid.kind == scenario::FluidKind::gas && interval.flow == 0.0) {
      item.error("mist_water", "is water carried by air, but no air flows; give a flow, or leave it out");
    }
    interval.feed_limit = item.number("feed_limit", base::dimension::speed, feed_range);
    item.finish();
    if (scenario.reading().problems.error_count() == errors_before) {
      warn_unwise(item, interval, string, fluid, inlet_temperature, weight_limit, usual_weight);
    }
    if (interval.to > above) above = interval.to;
    plan.push_back(interval);
  }
  if (!items.empty() && bottom > 0.0 && above < bottom - same_depth) {
    scenario.error("plan", "ends at " + base::depth_text(above) + ", but the column goes down to " +
                               base::depth_text(bottom) +
                               "; extend the last interval's to:, or leave it out");
  } else if (!plan.empty() && bottom > 0.0 && above < bottom) {
    plan.back().to = bottom;
  }
  return plan;
}

}  // namespace dullcast::input
