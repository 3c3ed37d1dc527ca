#include <gtest/gtest.h>

#include <cmath>

#include "engine/input/reading.hpp"

namespace dullcast::input {
namespace {

using testing::plain_text;
using testing::with;

/// Reads a scenario's resolved text as if it stood in the same place.
scenario::Scenario read_again(const scenario::Scenario& scenario) {
  std::vector<Warning> warnings;
  return testing::reader().read_text(scenario.text, scenario.file, {}, warnings);
}

void expect_same_bit(const scenario::BitRecord& one, const scenario::BitRecord& other) {
  EXPECT_EQ(one.lot.name, other.lot.name);
  EXPECT_EQ(one.build.port_area, other.build.port_area);
  EXPECT_EQ(one.build.port_diameter, other.build.port_diameter);
  EXPECT_EQ(one.build.junk_slot_share, other.build.junk_slot_share);
  EXPECT_EQ(one.build.blade_height, other.build.blade_height);
  EXPECT_EQ(one.build.blade_thickness, other.build.blade_thickness);
  EXPECT_EQ(one.build.gauge_pad_length, other.build.gauge_pad_length);
  EXPECT_EQ(one.build.gauge_pad_width, other.build.gauge_pad_width);
  ASSERT_EQ(one.layout.count(), other.layout.count());
  EXPECT_TRUE((one.layout.kind == other.layout.kind).all());
  EXPECT_TRUE((one.layout.side_rake == other.layout.side_rake).all());
  ASSERT_EQ(one.kinds.size(), other.kinds.size());
  for (std::size_t k = 0; k < one.kinds.size(); ++k) {
    EXPECT_EQ(one.kinds[k].name, other.kinds[k].name);
    EXPECT_EQ(one.kinds[k].grade.name, other.kinds[k].grade.name);
    EXPECT_EQ(one.kinds[k].grade.wear_resistance.high, other.kinds[k].grade.wear_resistance.high);
    EXPECT_EQ(one.layout.shapes[k].radius, other.layout.shapes[k].radius);
    EXPECT_EQ(one.layout.shapes[k].leach_side_depth, other.layout.shapes[k].leach_side_depth);
    EXPECT_EQ(one.layout.shapes[k].bevel_width, other.layout.shapes[k].bevel_width);
    EXPECT_EQ(one.layout.shapes[k].bevel_angle, other.layout.shapes[k].bevel_angle);
  }
  EXPECT_TRUE((one.starting_wear == other.starting_wear).all());
  EXPECT_TRUE((one.starting_damage == other.starting_damage).all());
  EXPECT_TRUE((one.starting_chip_hazard == other.starting_chip_hazard).all());
  EXPECT_TRUE((one.starting_lost == other.starting_lost).all());
  EXPECT_TRUE((one.starting_table_gone == other.starting_table_gone).all());
  EXPECT_EQ(one.starting_erosion, other.starting_erosion);
  EXPECT_EQ(one.starting_blade_wear, other.starting_blade_wear);
  EXPECT_EQ(one.starting_pad_wear, other.starting_pad_wear);
}

void expect_same_happenings(const scenario::Scenario& one, const scenario::Scenario& other) {
  ASSERT_EQ(one.upsets.size(), other.upsets.size());
  for (std::size_t i = 0; i < one.upsets.size(); ++i) {
    EXPECT_EQ(one.upsets[i].from, other.upsets[i].from);
    EXPECT_EQ(one.upsets[i].hole, other.upsets[i].hole);
    EXPECT_EQ(one.upsets[i].lasts, other.upsets[i].lasts);
    EXPECT_EQ(one.upsets[i].flow, other.upsets[i].flow);
    EXPECT_EQ(one.upsets[i].mist_water, other.upsets[i].mist_water);
    EXPECT_EQ(one.upsets[i].weight_on_bit, other.upsets[i].weight_on_bit);
    EXPECT_EQ(one.upsets[i].rotary_speed, other.upsets[i].rotary_speed);
  }
  EXPECT_EQ(one.random_events.drawn, other.random_events.drawn);
  EXPECT_EQ(one.random_events.seed, other.random_events.seed);
  EXPECT_EQ(one.pump_pressure_limit, other.pump_pressure_limit);
  EXPECT_EQ(one.string.pipe_diameter, other.string.pipe_diameter);
  EXPECT_EQ(one.repeat.pump_at_connections, other.repeat.pump_at_connections);
  EXPECT_EQ(one.rules.chip_probability, other.rules.chip_probability);
  EXPECT_EQ(one.rules.gauge_loss, other.rules.gauge_loss);
  EXPECT_EQ(one.rules.lost_cutters, other.rules.lost_cutters);
  EXPECT_EQ(one.costs.cutter, other.costs.cutter);
  EXPECT_EQ(one.costs.pocket, other.costs.pocket);
  ASSERT_EQ(one.other_method.has_value(), other.other_method.has_value());
  if (!one.other_method) return;
  EXPECT_EQ(one.other_method->name, other.other_method->name);
  EXPECT_EQ(one.other_method->rate_of_penetration, other.other_method->rate_of_penetration);
  EXPECT_EQ(one.other_method->power, other.other_method->power);
  EXPECT_EQ(one.other_method->consumables, other.other_method->consumables);
  EXPECT_EQ(one.other_method->rig_per_second, other.other_method->rig_per_second);
}

void expect_same(const scenario::Scenario& one, const scenario::Scenario& other) {
  expect_same_bit(one.bit, other.bit);
  expect_same_happenings(one, other);
  EXPECT_EQ(one.text, other.text);
  // The text holds everything to the last bit; the layout is looked at itself, since it is made anew.
  EXPECT_TRUE((one.bit.layout.radius == other.bit.layout.radius).all());
  EXPECT_TRUE((one.bit.layout.azimuth == other.bit.layout.azimuth).all());
  EXPECT_TRUE((one.bit.layout.depth == other.bit.layout.depth).all());
  EXPECT_TRUE((one.bit.layout.profile_angle == other.bit.layout.profile_angle).all());
  EXPECT_TRUE((one.bit.layout.blade == other.bit.layout.blade).all());
  EXPECT_EQ(one.bit.layout.bit_radius, other.bit.layout.bit_radius);
  EXPECT_EQ(one.weight_limit, other.weight_limit);
  EXPECT_EQ(one.bit.continues, other.bit.continues);
  std::vector<std::pair<std::string, scenario::Quantity>> numbers;
  scenario::Scenario copy = one, again = other;
  scenario::for_each_number(copy, [&](const std::string& name, scenario::Quantity& quantity) {
    numbers.emplace_back(name, quantity);
  });
  std::size_t k = 0;
  scenario::for_each_number(again, [&](const std::string& name, scenario::Quantity& quantity) {
    ASSERT_LT(k, numbers.size());
    EXPECT_EQ(name, numbers[k].first);
    EXPECT_EQ(quantity.low, numbers[k].second.low) << name;
    EXPECT_EQ(quantity.central, numbers[k].second.central) << name;
    EXPECT_EQ(quantity.high, numbers[k].second.high) << name;
    EXPECT_EQ(quantity.source, numbers[k].second.source) << name;
    ++k;
  });
  EXPECT_EQ(k, numbers.size());
  ASSERT_EQ(one.plan.size(), other.plan.size());
  for (std::size_t i = 0; i < one.plan.size(); ++i) {
    EXPECT_EQ(one.plan[i].rotary_speed, other.plan[i].rotary_speed);
    EXPECT_EQ(one.plan[i].flow, other.plan[i].flow);
    EXPECT_EQ(one.plan[i].to, other.plan[i].to);
  }
}

class ResolvedFile : public ::testing::TestWithParam<const char*> {};
TEST_P(ResolvedFile, ReadsBackAsTheSameScenario) {
  std::vector<Warning> warnings;
  const scenario::Scenario scenario =
      testing::reader().read(testing::scenario_folder() + "/" + GetParam(), {}, warnings);
  expect_same(scenario, read_again(scenario));
  // No folder of this machine in it.
  EXPECT_EQ(scenario.text.find(DULLCAST_SOURCE_DIR), std::string::npos);
}
INSTANTIATE_TEST_SUITE_P(Files, ResolvedFile,
                         ::testing::Values("one_shallow_well.yaml", "field_of_forty_wells.yaml",
                                           "next_field.yaml", "after_an_inspection.yaml", "pump_lost.yaml",
                                           "gravel_lens.yaml", "poor_lot.yaml", "cutter_burnt.yaml",
                                           "cutter_kept_cool.yaml", "rebuilt_bit.yaml",
                                           "rebuilt_after_forty_wells.yaml"));

TEST(ResolvedText, KeepsEveryOverrideAndOption) {
  const scenario::Scenario scenario = testing::scenario_of(
      with(with(plain_text(), "rock: shale, thickness: 50 ft",
                "rock: sandstone, thickness: 50 ft, conductivity: 3 W/(m K)"),
           "fluid: water", "fluid: {name: air, density: 1.3 kg/m3, inlet_temperature: 300 K}") +
          "string: {pipe_weight: 13.1 lb/ft}\n"
          "costs: {currency: crowns, bit: 333 crowns, rig: 7 crowns/h}\n"
          "stepping: {relative_tolerance: 3e-5, output_every: 7 ft}\n"
          "repeat: {holes: 7, stop_at: rework_due, trip_time: 1 h}\n"
          "models: {edge_radius: 41 micrometre}\n",
      {"plan.0.mist_water=1.7 gal/min", "plan.0.feed_limit=33 ft/h", "rework.heat_damage=0.3",
       "weight_limit=7000 lbf", "bit.starting_wear=0.3 mm", "bit.starting_damage=0.1",
       "column.water_level=33 ft", "bit.grade=premium"});
  expect_same(scenario, read_again(scenario));
  EXPECT_EQ(scenario.bit.layout.shapes.front().edge_radius, scenario.numbers.edge_radius.central);
  EXPECT_NE(scenario.text.find("\"333 crowns\""), std::string::npos);
}

TEST(ResolvedText, KeepsBuildStartAndWhatHappens) {
  // Numbers that are no round ones in SI, so that a lost bit would show.
  const scenario::Scenario scenario = testing::scenario_of(
      with(with(plain_text(), "like: four_blade_7_7_8",
                "like: four_blade_7_7_8, lot: mixed, ports: {count: 7, diameter: 0.37 in}, junk_slot_share: "
                "0.31, blade: {height: 1.1 in, thickness: 0.9 in}, gauge_pads: {length: 2.3 in, width: 0.7 "
                "in}, "
                "starting_chip_hazard: 0.123, starting_lost: [3, 7], starting_table_gone: [5], "
                "starting_erosion: 0.03 in, starting_blade_wear: 0.05 in, starting_pad_wear: 0.01 in"),
           "rock: shale, thickness: 50 ft",
           "rock: gravel, thickness: 50 ft, inclusion_size: {low: 0.3 in, central: 1.1 in, high: 3.3 in}") +
          "fluids: {air: {density: 1.21 kg/m3}}\n"
          "string: {pipe_diameter: 3.7 in}\n"
          "pump: {pressure_limit: 133 psi}\n"
          "upsets:\n"
          "  - {from: 41 ft, hole: 3, lasts: 1.7 min, flow: 2.3 gpm, weight_on_bit: 1234 lbf, rotary_speed: "
          "7 "
          "rpm}\n"
          "  - {from: 0 ft, hole: every, lasts: 7 s, pump: off}\n"
          "chance: {draw: yes, seed: 123456789012345}\n"
          "repeat: {holes: 3, pump_at_connections: on}\n"
          "costs: {cutter: 37.7 $, pocket: 21.3 $, rig: 85 $/h}\n"
          "other_method: {name: \"a, b\", rate_of_penetration: 39 ft/h, power: 201 hp, consumables: 0.37 "
          "$/ft, "
          "rig: 97 $/h}\n"
          "models: {roughness_impacts: 0.7 1/ft, braze_softening: 471 degF}\n",
      {"rework={chip_probability: 0.37, gauge_loss: 0.13 in, lost_cutters: 2}"});
  EXPECT_EQ(scenario.upsets.size(), 2u);
  EXPECT_EQ(scenario.bit.starting_lost.sum(), 2);
  expect_same(scenario, read_again(scenario));
}

TEST(ResolvedText, KeepsKindsOfCutterTwistAndSideRake) {
  const scenario::Scenario scenario = testing::scenario_of(
      with(plain_text(), "like: four_blade_7_7_8",
           "like: four_blade_7_7_8, cutter: {chamfer: 0.017 in x 43 deg}, cutter_kinds: {shoulder: {size: "
           "1308, "
           "leach_side_depth: 0.13 mm, grade: ours}, 16b: {chamfer: none}}, fitted: [{cutters: [7], kind: "
           "16b}], "
           "blades: {side_rake: 7 deg, wing_twist: [11 deg, 1.7 in, 0 deg, -3 deg], kinds: [{from: 0.71, "
           "kind: "
           "shoulder}]}") +
      "grades: {ours: {wear_resistance: {low: 0.71, central: 0.83, high: 1.07}, table_conductivity: 500 W/(m "
      "K), "
      "table_density: 3500 kg/m3, carbide_conductivity: 90 W/(m K), carbide_density: 14500 kg/m3, "
      "carbide_heat_capacity: 230 J/(kg K)}}\n");
  ASSERT_EQ(scenario.bit.kinds.size(), 3u);
  EXPECT_EQ(scenario.bit.layout.kind(6), 2);
  expect_same(scenario, read_again(scenario));
}

TEST(ResolvedText, KeepsAnUpsetsMistWater) {
  const scenario::Scenario scenario = testing::scenario_of(
      with(plain_text(), "fluid: water", "fluid: air") +
      "upsets: [{from: 41 ft, lasts: 1.7 min, mist_water: 2.3 gpm}, {from: 50 ft, lasts: 1 s, pump: off}]\n");
  EXPECT_EQ(scenario.upsets.size(), 2u);
  expect_same(scenario, read_again(scenario));
}

TEST(ForEachNumber, VisitsEachOnceByNameInAFixedOrder) {
  scenario::Scenario scenario = testing::scenario_of(
      std::string(plain_text()),
      {"column.layers=[{rock: shale, thickness: 9 m}, {rock: sandstone, thickness: 9 m}, "
       "{rock: shale, thickness: 9 m}, {rock: shale, thickness: 9 m, conductivity: 2 W/mK}]"});
  std::vector<std::string> names, again;
  scenario::for_each_number(scenario,
                            [&](const std::string& name, scenario::Quantity&) { names.push_back(name); });
  scenario::for_each_number(scenario,
                            [&](const std::string& name, scenario::Quantity&) { again.push_back(name); });
  EXPECT_EQ(names, again);
  auto sorted = names;
  std::sort(sorted.begin(), sorted.end());
  EXPECT_EQ(std::adjacent_find(sorted.begin(), sorted.end()), sorted.end());
  EXPECT_EQ(names.front(), "drilling_efficiency");
  // 86 of the models, 8 of the grade, 4 of the lot, 8 of the body, 4 of the fluid, 14 of each of two rocks
  // and one override.
  EXPECT_EQ(names.size(), 86u + 8u + 4u + 8u + 4u + 28u + 1u);
  for (const char* name : {"abrasion_coefficient", "grade standard: wear_resistance", "body steel: density",
                           "lot sound: braze_share", "rock shale: stickiness", "erosion_coefficient",
                           "fluid water: viscosity", "rock sandstone: cerchar_abrasivity",
                           "rock shale: conductivity", "rock shale (layer 4): conductivity"}) {
    EXPECT_TRUE(std::binary_search(sorted.begin(), sorted.end(), name)) << name;
  }
}

TEST(ForEachNumber, CarriesAChangeToAllLayersOfTheRock) {
  scenario::Scenario scenario = testing::scenario_of(
      std::string(plain_text()),
      {"column.layers=[{rock: shale, thickness: 9 m}, {rock: sandstone, thickness: 9 m}, "
       "{rock: shale, thickness: 9 m}, {rock: shale, thickness: 9 m, density: 2 g/cm3}]"});
  scenario::for_each_number(scenario, [](const std::string& name, scenario::Quantity& quantity) {
    if (name == "rock shale: density") quantity.central = 1234.0;
    if (name == "rock shale: heat_capacity") quantity.central = 777.0;
    if (name == "edge_radius") quantity.central = 44e-6;
  });
  EXPECT_EQ(scenario.column.layers[0].rock.density.central, 1234.0);
  EXPECT_EQ(scenario.column.layers[2].rock.density.central, 1234.0);
  EXPECT_NEAR(scenario.column.layers[3].rock.density.central, 2000.0, 1e-9);
  EXPECT_EQ(scenario.column.layers[3].rock.heat_capacity.central, 777.0);
  EXPECT_NE(scenario.column.layers[1].rock.density.central, 1234.0);
  EXPECT_EQ(scenario.bit.layout.shapes.front().edge_radius, 44e-6);
}

}  // namespace
}  // namespace dullcast::input
