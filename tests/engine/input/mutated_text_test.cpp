#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "engine/input/reading.hpp"
#include "engine/input/text_file.hpp"

// Broken files must end in located errors or in a scenario of finite numbers, never in a crash or a NaN.
namespace dullcast::input {
namespace {

/// The first number of a scenario that is not finite, or empty. Unmeasured wear readings may be NaN.
std::string not_finite(scenario::Scenario scenario) {
  std::string found;
  const auto look = [&](const std::string& name, double value) {
    if (!std::isfinite(value) && found.empty()) found = name;
  };
  scenario::for_each_number(scenario, [&](const std::string& name, scenario::Quantity& quantity) {
    look(name, quantity.low);
    look(name, quantity.central);
    look(name, quantity.high);
  });
  const scenario::BitRecord& bit = scenario.bit;
  const geometry::BitLayout& layout = bit.layout;
  for (const Eigen::ArrayXd* values : {&layout.radius, &layout.azimuth, &layout.depth, &layout.back_rake,
                                       &layout.side_rake, &layout.profile_angle, &layout.exposure,
                                       &bit.starting_wear, &bit.starting_damage, &bit.starting_chip_hazard}) {
    for (const double value : *values) look("layout", value);
  }
  for (const double value : {layout.bit_radius, layout.shapes.front().radius, layout.shapes.front().length,
                             layout.shapes.front().table_thickness, layout.shapes.front().leach_depth,
                             layout.shapes.front().bevel_width, layout.shapes.front().bevel_angle,
                             layout.shapes.front().edge_radius}) {
    look("shape", value);
  }
  for (const double value :
       {bit.build.port_area, bit.build.port_diameter, bit.build.junk_slot_share, bit.build.blade_height,
        bit.build.blade_thickness, bit.build.gauge_pad_length, bit.build.gauge_pad_width,
        bit.starting_erosion, bit.starting_blade_wear, bit.starting_pad_wear}) {
    look("build", value);
  }
  for (const auto& upset : scenario.upsets) {
    for (const double value : {upset.from, upset.lasts, upset.flow.value_or(0), upset.mist_water.value_or(0),
                               upset.weight_on_bit.value_or(0), upset.rotary_speed.value_or(0)}) {
      look("upset", value);
    }
  }
  const scenario::OtherMethod method = scenario.other_method.value_or(scenario::OtherMethod{});
  for (const double value :
       {method.rate_of_penetration, method.power, method.consumables, method.rig_per_second,
        scenario.string.pipe_diameter, scenario.pump_pressure_limit, scenario.costs.cutter,
        scenario.costs.pocket, scenario.rules.chip_probability.value_or(0),
        scenario.rules.gauge_loss.value_or(0), scenario.rules.lost_cutters.value_or(0)}) {
    look("scenario", value);
  }
  for (const auto& interval : scenario.plan) {
    for (const double value : {interval.from, interval.to, interval.weight_on_bit.value_or(0),
                               interval.pull_down, interval.holdback, interval.rotary_speed, interval.flow,
                               interval.mist_water, interval.feed_limit.value_or(0)}) {
      look("plan", value);
    }
  }
  for (const auto& layer : scenario.column.layers) {
    for (const double value : {layer.top, layer.bottom, layer.excess_pressure}) look("layer", value);
  }
  for (const double value : {scenario.inlet_temperature,
                             scenario.string.pipe_weight,
                             scenario.string.collar_weight,
                             scenario.string.collar_length,
                             scenario.string.steel_density,
                             scenario.column.water_level,
                             scenario.column.surface_temperature,
                             scenario.column.temperature_gradient,
                             scenario.repeat.trip_time,
                             scenario.repeat.connection_every,
                             scenario.repeat.connection_time,
                             scenario.rules.worn_height.value_or(0),
                             scenario.rules.outer_dull_grade.value_or(0),
                             scenario.rules.heat_damage.value_or(0),
                             scenario.rules.speed_share_of_new.value_or(0),
                             scenario.rules.beyond_repair_share,
                             scenario.rules.least_progress,
                             scenario.costs.bit,
                             scenario.costs.rig_per_second,
                             scenario.costs.rework,
                             scenario.costs.replacement,
                             scenario.costs.fuel_energy,
                             scenario.costs.engine_efficiency,
                             scenario.stepping.relative_tolerance,
                             scenario.stepping.output_every.value_or(0.0),
                             scenario.weight_limit}) {
    look("scenario", value);
  }
  return found;
}

/// Reads a broken text; returns what went wrong with the reading itself, or empty.
std::string complaint(const std::string& text) {
  std::vector<Warning> warnings;
  const std::string file = testing::scenario_folder() + "/broken.yaml";
  try {
    const scenario::Scenario scenario = testing::reader().read_text(text, file, {}, warnings);
    const std::string bad = not_finite(scenario);
    return bad.empty() ? "" : bad + " is not finite";
  } catch (const ScenarioErrors& errors) {
    if (errors.messages().empty()) return "errors without a message";
    for (const auto& message : errors.messages()) {
      const bool placed = message.find(".yaml:") != std::string::npos;
      if (!placed) return "no place in: " + message;
    }
    return {};
  }
}

std::string demo_text() {
  return read_text_file(testing::scenario_folder() + "/after_an_inspection.yaml");
}

/// A text that uses most keys.
std::string scenario_of_everything() {
  return "title: all\n"
         "bit: {name: own, diameter: 70 mm, grade: standard, body: matrix, starting_wear: 0.2 mm, "
         "starting_damage: 0.1,\n"
         "  cutter: {diameter: 16 mm, length: 13 mm, table_thickness: 2 mm, leach_depth: 0.1 mm, "
         "bevel_width: 0.4 mm,\n"
         "    bevel_angle: 45 deg},\n"
         "  blades: {cutters_per_blade: [2, 2], wing_sweep: 10 deg, cone_angle: 10 deg, nose_share: 0.5,\n"
         "    gauge_angle: 70 deg, inner_back_rake: 15 deg, outer_back_rake: 20 deg, side_rake: 1 deg, "
         "exposure: 7 mm,\n"
         "    crowding: 0.8},\n"
         "  lot: mixed, starting_chip_hazard: 0.1, starting_lost: [2, 3], starting_table_gone: [1],\n"
         "  starting_erosion: 1 mm, starting_blade_wear: 1 mm, starting_pad_wear: 1 mm,\n"
         "  ports: {count: 2, diameter: 5 mm}, junk_slot_share: 0.3, blade: {height: 9 mm, thickness: 8 "
         "mm},\n"
         "  gauge_pads: {length: 9 mm, width: 8 mm}}\n"
         "weight_limit: 20 kN\n"
         "fluid: {name: air, inlet_temperature: 20 degC, density: 1.2 kg/m3, viscosity: 0.018 cP}\n"
         "pump: {pressure_limit: 10 bar}\n"
         "upsets:\n"
         "  - {from: 5 m, hole: 2, lasts: 90 s, flow: 2 gpm, mist_water: 0 gpm, weight_on_bit: 0 N,\n"
         "    rotary_speed: 0 rpm}\n"
         "  - {from: 5 m, hole: every, lasts: 90 s, pump: off}\n"
         "chance: {draw: yes, seed: 7}\n"
         "other_method: {name: air hammer, rate_of_penetration: 12 m/h, power: 150 kW, consumables: 1.2 $/m, "
         "rig: 95 $/h}\n"
         "string: {pipe_diameter: 30 mm, pipe_weight: 13 lb/ft, collar_weight: 60 lb/ft, collar_length: 20 "
         "ft, steel_density: 7.85 "
         "g/cm3}\n"
         "plan:\n"
         "  - {from: 0 m, to: 10 m, pull_down: 1 kN, holdback: 0 kN, rotary_speed: 80 rpm, flow: 300 cfm,\n"
         "    mist_water: 1 gpm, feed_limit: 30 m/h}\n"
         "  - {weight_on_bit: 2 klbf, rotary_speed: 80 rpm, flow: 300 cfm}\n"
         "column:\n"
         "  water_level: 3 m\n"
         "  surface_temperature: 15 degC\n"
         "  temperature_gradient: 30 K/km\n"
         "  layers:\n"
         "    - {rock: shale, top: 0 m, bottom: 9 m, excess_pressure: 1 bar}\n"
         "    - {rock: tuff, thickness: 9 m, unconfined_strength: {low: 30 MPa, central: 40 MPa, high: 50 "
         "MPa},\n"
         "       inclusion_share: 0.1, inclusion_size: 9 mm, inclusion_strength: 99 MPa, "
         "inclusion_abrasivity: 2, stickiness: 0.2}\n"
         "rocks: {tuff: {like: sandstone, density: 2 g/cm3, hard_on_cutters: no}}\n"
         "repeat: {holes: 2, stop_at: last_hole, trip_time: 1 h, connection_every: 3 m, connection_time: 2 "
         "min, pump_at_connections: on}\n"
         "rework: {worn_height: 1 mm, outer_dull_grade: 3, heat_damage: 0.5, speed_share_of_new: 0.5,\n"
         "  chip_probability: 0.5, gauge_loss: 3 mm, lost_cutters: 2,\n"
         "  beyond_repair_share: 0.9, least_progress: 0.1 m/h}\n"
         "costs: {currency: $, bit: 1 $, rig: 2 $/h, rework: 3 $, replacement: 4 $, cutter: 5 $, pocket: 6 "
         "$, fuel_energy: 36 MJ/L,\n"
         "  engine_efficiency: 0.3}\n"
         "stepping: {relative_tolerance: 1e-4, output_every: 1 m}\n"
         "models: {flat_friction: 0.4, edge_radius: 30 um}\n";
}

TEST(MutatedText, CutShortAnywhereItIsReadOrRefused) {
  const std::string text = demo_text();
  for (std::size_t length = 0; length < text.size(); length += 13) {
    const std::string cut = text.substr(0, length);
    EXPECT_EQ(complaint(cut), "") << "cut at " << length;
  }
}

TEST(MutatedText, WithBytesChangedItIsReadOrRefused) {
  const std::string text = demo_text();
  std::mt19937 random(20240611u);
  const std::string letters = " \n\t:{}[]-,#'\"&*!|>%@`~0123456789.eE+-/()abmnft$\\\x01\xc2\xff";
  int refused = 0;
  for (int round = 0; round < 400; ++round) {
    std::string broken = text;
    const int changes = 1 + static_cast<int>(random() % 6);
    for (int k = 0; k < changes; ++k) {
      const std::size_t at = random() % broken.size();
      const char letter = letters[random() % letters.size()];
      switch (random() % 3) {
        case 0:
          broken[at] = letter;
          break;
        case 1:
          broken.insert(at, 1, letter);
          break;
        default:
          broken.erase(at, 1 + random() % 8);
          break;
      }
    }
    EXPECT_EQ(complaint(broken), "") << "round " << round;
    refused += testing::errors_of(broken).empty() ? 0 : 1;
  }
  EXPECT_GT(refused, 40);  // the changes do reach what is checked
}

TEST(MutatedText, WithAnyValueMadeOddItIsReadOrRefused) {
  const std::string text = scenario_of_everything();
  ASSERT_EQ(testing::errors_of(text), testing::Messages{});
  const std::vector<std::string> odd{
      "",       "nan",      ".nan m",    "inf",   "-.inf", "1e308 m",        "-1 m",
      "0",      "0 m",      "-0 rpm",    "[]",    "{}",    "[[[]]]",         "1e-320 m",
      "90 deg", "1e5 degC", "-500 degC", "9e999", "true",  "1 m since 1900", "\"\""};
  // Every value after a colon on every line, one at a time.
  std::size_t tried = 0;
  for (std::size_t at = text.find(": "); at != std::string::npos; at = text.find(": ", at + 1)) {
    const std::size_t end = text.find_first_of(",}\n", at);
    for (const auto& value : odd) {
      const std::string broken = text.substr(0, at + 2) + value + text.substr(end);
      EXPECT_EQ(complaint(broken), "") << broken.substr(at > 30 ? at - 30 : 0, 60);
      ++tried;
    }
  }
  EXPECT_GT(tried, 500u);
}

}  // namespace
}  // namespace dullcast::input
