#include "engine/input/number_place.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <set>

#include "engine/input/any_quantity.hpp"
#include "engine/input/reading.hpp"
#include "engine/input/same_scenario.hpp"
#include "engine/scenario/number_fields.hpp"
#include "engine/scenario/number_places.hpp"

namespace dullcast::input {
namespace {

using testing::expect_same_scenario;
using testing::reader;

/// A scenario that states, or may state, every number there is.
const char* full_text() {
  return "title: full\n"
         "bit: {like: four_blade_7_7_8, grade: standard, lot: poor, starting_wear: 0.1 mm, "
         "starting_damage: 0.01, starting_chip_hazard: 0.02, starting_erosion: 1 mm, starting_blade_wear: "
         "0.2 mm, starting_pad_wear: 0.3 mm, junk_slot_share: 0.2}\n"
         "weight_limit: 8000 lbf\n"
         "fluid: {name: air, inlet_temperature: 18 degC}\n"
         "string: {pipe_diameter: 3.5 in, pipe_weight: 13.5 lb/ft, collar_weight: 75 lb/ft, collar_length: "
         "30 ft, steel_density: 7800 kg/m3}\n"
         "pump: {pressure_limit: 10 bar}\n"
         "plan:\n"
         "  - {to: 5 m, pull_down: 4600 lbf, holdback: 10 lbf, rotary_speed: 90 rpm, flow: 650 ft3/min, "
         "mist_water: 2 gal/min, feed_limit: 120 ft/h}\n"
         "  - {weight_on_bit: 4000 lbf, rotary_speed: 85 rpm, flow: 700 ft3/min}\n"
         "upsets:\n"
         "  - {from: 6 m, lasts: 2 min, flow: 300 ft3/min, mist_water: 1 gal/min, weight_on_bit: 10 kN, "
         "rotary_speed: 50 rpm}\n"
         "column:\n"
         "  water_level: 3 m\n"
         "  surface_temperature: 21 degC\n"
         "  temperature_gradient: 25 K/km\n"
         "  layers:\n"
         "    - {rock: shale, bottom: 4 m, excess_pressure: 1 MPa}\n"
         "    - {rock: sandstone, bottom: 8 m, cerchar_abrasivity: {low: 2.5, central: 3.5, high: 4.5}}\n"
         "    - {rock: shale, bottom: 12 m, unconfined_strength: 50 MPa}\n"
         "    - {rock: gravel, bottom: 13 m}\n"
         "repeat: {holes: 3, trip_time: 1 h, connection_every: 20 ft, connection_time: 5 min}\n"
         "rework: {worn_height: 2 mm, outer_dull_grade: 3, heat_damage: 0.5, speed_share_of_new: 0.6, "
         "chip_probability: 0.9, gauge_loss: 3 mm, lost_cutters: 2, beyond_repair_share: 0.9, "
         "least_progress: 0.1 m/h}\n"
         "costs: {bit: 1900 $, rig: 85 $/h, rework: 420 $, cutter: 38 $, pocket: 22 $, fuel_energy: 36 MJ/L, "
         "engine_efficiency: 25 %}\n"
         "other_method: {name: hammer, rate_of_penetration: 12 m/h, power: 200 kW, consumables: 3 $/m}\n"
         "stepping: {relative_tolerance: 1e-3, output_every: 1 m}\n";
}

scenario::Scenario read(const std::string& text, const std::vector<std::string>& sets, NumbersRead* numbers) {
  std::vector<Warning> warnings;
  return reader().read_tree(ScenarioReader::parse(text, "well.yaml"), "well.yaml", sets, warnings, numbers);
}

std::string set_of(const std::string& path, double value, const base::Dimension& dimension) {
  return path + "=" + text_of_value(value, dimension, "$");
}

/// Values about `usual` and at the ends of the range, within and without, with awkward last digits.
std::set<double> values_to_try(double usual, const base::Range& range) {
  std::set<double> values{usual,       usual * 1.0123456789012345,  usual * (1.0 - 1.0 / 3.0),
                          usual / 7.0, usual * 3.3333333333333335,  0.0,
                          -usual,      std::nextafter(usual, 1e300)};
  for (const double end : {range.least, range.most}) {
    if (std::abs(end) > 1e299) continue;
    values.insert({end, std::nextafter(end, -1e300), std::nextafter(end, 1e300)});
  }
  return values;
}

/// Sets numbers at a path's place and reads them at the path, and compares; returns how many were set, none
/// where the path has no place.
int compare(const std::string& text, const std::string& path, const std::string& stated) {
  SCOPED_TRACE(path);
  NumbersRead numbers;
  const std::vector<std::string> sets =
      stated.empty() ? std::vector<std::string>{} : std::vector<std::string>{path + "=" + stated};
  const scenario::Scenario base = read(text, sets, &numbers);
  const auto place = place_of(path, base, numbers);
  if (!place) return 0;
  const NumberRead* number = numbers.find(path.starts_with("layers.") ? "column." + path : path);
  int made = 0;
  for (const double value : values_to_try(number->value, number->range)) {
    SCOPED_TRACE(value);
    scenario::Scenario patched = base;
    bool sets_it = within(place->range, value);
    if (sets_it) {
      place->set(patched, value);
      scenario::carry_edge_radius(patched);
      sets_it = holds_together(patched);
    }
    try {
      const scenario::Scenario as_read = read(text, {set_of(path, value, *place->wanted)}, nullptr);
      EXPECT_TRUE(sets_it) << "is refused, but can be read";
      if (sets_it) expect_same_scenario(patched, as_read);
      made += sets_it ? 1 : 0;
    } catch (const std::exception& error) {
      EXPECT_FALSE(sets_it) << error.what();
    }
  }
  return made;
}

TEST(NumberPlace, EveryPlainNumberOfAScenarioIsSetAsItIsRead) {
  NumbersRead numbers;
  read(full_text(), {}, &numbers);
  std::set<std::string> without;
  for (const auto& [path, number] : numbers.all()) {
    if (path.ends_with(".low") || path.ends_with(".central") || path.ends_with(".high")) continue;
    if (compare(full_text(), path, "") < 4) without.insert(path);
  }
  // The layout of the bit and the ends of layers and intervals must be read; where the text states less than
  // four numbers can be set, it would be listed here too.
  for (const std::string& path : without) {
    EXPECT_TRUE(path.starts_with("bit.") || path.ends_with(".to") || path.ends_with(".bottom")) << path;
    EXPECT_FALSE(path.starts_with("bit.starting") || path == "bit.junk_slot_share") << path;
  }
  EXPECT_TRUE(without.contains("bit.diameter"));
  EXPECT_TRUE(without.contains("plan.0.to"));
}

TEST(NumberPlace, WhatAPriceStandsForFollowsUnlessItIsStated) {
  std::string stated = testing::with(full_text(), "rework: 420 $", "rework: 420 $, replacement: 2000 $");
  stated = testing::with(stated, "power: 200 kW", "rig: 70 $/h");
  for (const char* path : {"costs.bit", "costs.rig"}) {
    EXPECT_GE(compare(full_text(), path, ""), 4);
    EXPECT_GE(compare(stated, path, ""), 4);
  }
  EXPECT_GE(compare(stated, "costs.replacement", ""), 4);
  EXPECT_GE(compare(stated, "other_method.rig", ""), 4);
}

template <class Record>
void compare_record(const std::string& prefix, const Record& record, const std::set<std::string>& read_only) {
  for (const auto& field : scenario::number_fields(record)) {
    const double usual = (record.*field.member).central;
    const std::string path = prefix + "." + field.key;
    const int made = compare(full_text(), path, text_of_value(usual, *field.wanted, "$"));
    if (read_only.contains(field.key)) {
      EXPECT_EQ(made, 0) << path << " hangs together with others and must be read";
    } else {
      EXPECT_GE(made, usual == 0.0 ? 1 : 2) << path;
    }
  }
}

TEST(NumberPlace, EveryUncertainNumberIsSetAsItIsRead) {
  const scenario::Scenario base = read(full_text(), {}, nullptr);
  const std::set<std::string> stones{"inclusion_share", "inclusion_size", "inclusion_strength",
                                     "inclusion_abrasivity"};
  compare_record("models", base.numbers, {"braze_softening", "braze_solidus", "edge_radius"});
  compare_record("fluid", base.fluid, {});
  compare_record("fluids.air", base.fluid, {});
  compare_record("layers.1", base.column.layers[1].rock, stones);
  compare_record("column.layers.3", base.column.layers[3].rock, stones);
  compare_record("rocks.shale", base.column.layers[0].rock, stones);
  compare_record("rocks.sandstone", base.column.layers[1].rock, stones);
  compare_record("grades.standard", base.bit.kinds.front().grade, {});
  compare_record("lots.poor", base.bit.lot, {});
  compare_record("bodies.steel", base.bit.body, {});
}

TEST(NumberPlace, WhatIsNoPlainNumberThereHasNoPlace) {
  for (const auto& [path, stated] : std::vector<std::pair<std::string, std::string>>{
           {"plan.0.from", "0 m"},
           {"plan.00.flow", "300 ft3/min"},
           {"repeat.holes", "4"},
           {"rework.lost_cutters", "3"},
           {"chance.seed", "4"},
           {"layers.1.bottom", "9 m"},
           {"fluid.density", "{low: 1 kg/m3, central: 1.2 kg/m3, high: 1.3 kg/m3}"},
           {"fluid.density", "{central: 1.2 kg/m3}"},
           {"layers.1.cerchar_abrasivity.central", "3.4"},
           {"bit.starting_wear",
            "[0.1 mm, 0.1 mm, 0.1 mm, 0.1 mm, 0.1 mm, 0.1 mm, 0.1 mm, 0.1 mm, 0.1 mm, "
            "0.1 mm, 0.1 mm, 0.1 mm, 0.1 mm, 0.1 mm, 0.1 mm, 0.1 mm, 0.1 mm, 0.1 mm]"},
           {"bit.cutter.bevel_width", "0.3 mm"},
           {"bit.ports.diameter", "9 mm"}}) {
    SCOPED_TRACE(path);
    NumbersRead numbers;
    const scenario::Scenario base = read(full_text(), {path + "=" + stated}, &numbers);
    EXPECT_FALSE(place_of(path, base, numbers).has_value());
  }
}

TEST(NumberPlace, NumbersThatDisagreeDoNotHoldTogether) {
  // One number of the pair may lie within its range and yet not go with the other's value.
  const auto holds = [](const std::vector<std::string>& sets,
                        const std::function<void(scenario::Scenario&)>& change) {
    scenario::Scenario scenario = read(full_text(), sets, nullptr);
    EXPECT_TRUE(holds_together(scenario));
    change(scenario);
    return holds_together(scenario);
  };
  EXPECT_FALSE(holds({}, [](scenario::Scenario& s) { s.rules.least_progress = 0.02; }));
  EXPECT_FALSE(holds({}, [](scenario::Scenario& s) { s.plan[0].feed_limit = 1e-6; }));
  EXPECT_FALSE(holds({}, [](scenario::Scenario& s) { s.string.pipe_diameter = 0.3; }));
  EXPECT_FALSE(holds({}, [](scenario::Scenario& s) { s.upsets[0].from = 13.0; }));
  EXPECT_FALSE(holds({}, [](scenario::Scenario& s) { s.bit.starting_wear.setConstant(0.05); }));
  EXPECT_FALSE(holds({"fluid.name=water", "plan.0.mist_water=0 gal/min", "upsets.0.mist_water=0 gal/min"},
                     [](scenario::Scenario& s) { s.plan[1].mist_water = 1e-4; }));
}

}  // namespace
}  // namespace dullcast::input
