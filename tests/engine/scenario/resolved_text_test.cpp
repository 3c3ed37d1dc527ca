#include <gtest/gtest.h>

#include <cmath>

#include "reading.hpp"

namespace dullcast {
namespace {

using testing::plain_text;
using testing::with;

/// Reads a scenario's resolved text as if it stood in the same place.
Scenario read_again(const Scenario& scenario) {
  std::vector<Warning> warnings;
  return testing::reader().read_text(scenario.text, scenario.file, {}, warnings);
}

void expect_same(const Scenario& one, const Scenario& other) {
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
  std::vector<std::pair<std::string, Quantity>> numbers;
  Scenario copy = one, again = other;
  for_each_number(copy,
                  [&](const std::string& name, Quantity& quantity) { numbers.emplace_back(name, quantity); });
  std::size_t k = 0;
  for_each_number(again, [&](const std::string& name, Quantity& quantity) {
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
  const Scenario scenario =
      testing::reader().read(testing::scenario_folder() + "/" + GetParam(), {}, warnings);
  expect_same(scenario, read_again(scenario));
  // No folder of this machine in it.
  EXPECT_EQ(scenario.text.find(DULLCAST_SOURCE_DIR), std::string::npos);
}
INSTANTIATE_TEST_SUITE_P(Files, ResolvedFile,
                         ::testing::Values("one_shallow_well.yaml", "field_of_forty_wells.yaml",
                                           "next_field.yaml", "after_an_inspection.yaml"));

TEST(ResolvedText, KeepsEveryOverrideAndOption) {
  const Scenario scenario = testing::scenario_of(
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
  EXPECT_EQ(scenario.bit.layout.shape.edge_radius, scenario.numbers.edge_radius.central);
  EXPECT_NE(scenario.text.find("\"333 crowns\""), std::string::npos);
}

TEST(ForEachNumber, VisitsEachOnceByNameInAFixedOrder) {
  Scenario scenario = testing::scenario_of(
      std::string(plain_text()),
      {"column.layers=[{rock: shale, thickness: 9 m}, {rock: sandstone, thickness: 9 m}, "
       "{rock: shale, thickness: 9 m}, {rock: shale, thickness: 9 m, conductivity: 2 W/mK}]"});
  std::vector<std::string> names, again;
  for_each_number(scenario, [&](const std::string& name, Quantity&) { names.push_back(name); });
  for_each_number(scenario, [&](const std::string& name, Quantity&) { again.push_back(name); });
  EXPECT_EQ(names, again);
  auto sorted = names;
  std::sort(sorted.begin(), sorted.end());
  EXPECT_EQ(std::adjacent_find(sorted.begin(), sorted.end()), sorted.end());
  EXPECT_EQ(names.front(), "drilling_efficiency");
  // 23 of the models, 6 of the grade, 4 of the body, 4 of the fluid, 9 of each of two rocks and one override.
  EXPECT_EQ(names.size(), 23u + 6u + 4u + 4u + 18u + 1u);
  for (const char* name : {"abrasion_coefficient", "grade standard: wear_resistance", "body steel: density",
                           "fluid water: viscosity", "rock sandstone: cerchar_abrasivity",
                           "rock shale: conductivity", "rock shale (layer 4): conductivity"}) {
    EXPECT_TRUE(std::binary_search(sorted.begin(), sorted.end(), name)) << name;
  }
}

TEST(ForEachNumber, CarriesAChangeToAllLayersOfTheRock) {
  Scenario scenario = testing::scenario_of(
      std::string(plain_text()),
      {"column.layers=[{rock: shale, thickness: 9 m}, {rock: sandstone, thickness: 9 m}, "
       "{rock: shale, thickness: 9 m}, {rock: shale, thickness: 9 m, density: 2 g/cm3}]"});
  for_each_number(scenario, [](const std::string& name, Quantity& quantity) {
    if (name == "rock shale: density") quantity.central = 1234.0;
    if (name == "rock shale: heat_capacity") quantity.central = 777.0;
    if (name == "edge_radius") quantity.central = 44e-6;
  });
  EXPECT_EQ(scenario.column.layers[0].rock.density.central, 1234.0);
  EXPECT_EQ(scenario.column.layers[2].rock.density.central, 1234.0);
  EXPECT_NEAR(scenario.column.layers[3].rock.density.central, 2000.0, 1e-9);
  EXPECT_EQ(scenario.column.layers[3].rock.heat_capacity.central, 777.0);
  EXPECT_NE(scenario.column.layers[1].rock.density.central, 1234.0);
  EXPECT_EQ(scenario.bit.layout.shape.edge_radius, 44e-6);
}

}  // namespace
}  // namespace dullcast
