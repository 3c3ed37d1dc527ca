#include "engine/input/scenario_reader.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <filesystem>

#include "engine/input/reading.hpp"
#include "models/common/constants.hpp"

namespace dullcast::input {
namespace {

using testing::plain_text;
using testing::scenario_of;
using testing::with;

constexpr double foot = 0.3048, lbf = 4.4482216152605, degree = pi / 180.0;

TEST(ScenarioReader, ReadsAPlainScenarioIntoSi) {
  const scenario::Scenario scenario = scenario_of(plain_text());
  EXPECT_EQ(scenario.title, "plain");
  EXPECT_NEAR(scenario.bit.layout.bit_radius, 0.5 * 7.875 * 0.0254, 1e-12);
  EXPECT_EQ(scenario.bit.layout.count(), 18);
  EXPECT_EQ(scenario.bit.layout.blades, 4);
  EXPECT_NEAR(scenario.bit.layout.shapes.front().radius, 8e-3, 1e-15);
  EXPECT_NEAR(scenario.bit.layout.shapes.front().length, 13e-3, 1e-15);
  EXPECT_NEAR(scenario.bit.layout.back_rake(0), 15 * degree, 1e-12);
  EXPECT_NEAR(scenario.bit.layout.back_rake(17), 20 * degree, 1e-12);
  EXPECT_EQ(scenario.bit.kinds.front().grade.name, "standard");
  EXPECT_EQ(scenario.bit.body.name, "steel");
  EXPECT_EQ(scenario.fluid.name, "water");
  ASSERT_EQ(scenario.plan.size(), 1u);
  EXPECT_NEAR(*scenario.plan[0].weight_on_bit, 6000 * lbf, 1e-6);
  EXPECT_NEAR(scenario.plan[0].rotary_speed, 85.0 / 60.0, 1e-12);
  EXPECT_NEAR(scenario.plan[0].to, 90 * foot, 1e-9);
  ASSERT_EQ(scenario.column.layers.size(), 2u);
  EXPECT_EQ(scenario.column.layers[0].top, 0.0);
  EXPECT_EQ(scenario.column.layers[0].bottom, scenario.column.layers[1].top);
  EXPECT_EQ(scenario.column.layers[1].location.line, 9);
  EXPECT_NEAR(scenario.weight_limit, 7875 * lbf, 1e-6);  // 1,000 lbf per inch (common practice)
  EXPECT_NEAR(*scenario.rules.worn_height, 2e-3, 1e-15);
  EXPECT_FALSE(scenario.calibrate_from.has_value());
}

TEST(ScenarioReader, LayersInFeetAndMetresTouch) {
  const scenario::Scenario scenario =
      scenario_of(with(with(plain_text(), "thickness: 50 ft", "bottom: 50 ft"),
                       "rock: sandstone, thickness: 40 ft", "rock: sandstone, top: 15.24 m, bottom: 27 m"));
  EXPECT_EQ(scenario.column.layers[0].bottom, scenario.column.layers[1].top);
  EXPECT_NEAR(scenario.column.layers[1].bottom, 27.0, 1e-12);
}

TEST(ScenarioReader, ALayerMayOverrideItsRock) {
  const scenario::Scenario scenario =
      scenario_of(with(plain_text(), "thickness: 40 ft", "thickness: 40 ft, unconfined_strength: 66 MPa"));
  const scenario::Quantity& strength = scenario.column.layers[1].rock.unconfined_strength;
  EXPECT_NEAR(strength.low, 66e6, 1e-3);
  EXPECT_NEAR(strength.high, 66e6, 1e-3);
  EXPECT_EQ(strength.mark, "given");
  EXPECT_EQ(scenario.column.layers[1].rock.cerchar_abrasivity.mark, "hb");
}

TEST(ScenarioReader, AScenarioAddsAndChangesLibraryEntries) {
  const scenario::Scenario scenario = scenario_of(
      with(plain_text(), "rock: sandstone", "rock: red_sandstone") +
      "rocks:\n"
      "  red_sandstone: {like: sandstone, cerchar_abrasivity: {low: 2, central: 3, high: 4, mark: mem}}\n"
      "  shale: {unconfined_strength: 22 MPa}\n"
      "grades: {standard: {wear_resistance: 1.5}}\n"
      "models: {flat_friction: 0.45}\n");
  EXPECT_EQ(scenario.column.layers[1].rock.name, "red_sandstone");
  EXPECT_EQ(scenario.column.layers[1].rock.cerchar_abrasivity.central, 3.0);
  EXPECT_EQ(scenario.column.layers[1].rock.cerchar_abrasivity.mark, "mem");
  EXPECT_NEAR(scenario.column.layers[1].rock.unconfined_strength.central, 50e6, 1e-3);
  EXPECT_NEAR(scenario.column.layers[0].rock.unconfined_strength.central, 22e6, 1e-3);
  EXPECT_EQ(scenario.bit.kinds.front().grade.wear_resistance.central, 1.5);
  EXPECT_EQ(scenario.numbers.flat_friction.central, 0.45);
  // The library itself is untouched.
  EXPECT_EQ(testing::reader().library().models.flat_friction.central, 0.4);
}

TEST(ScenarioReader, AnExplicitListOfCuttersStandsForTheLibrarysBlades) {
  const scenario::Scenario scenario = scenario_of(
      with(plain_text(), "bit: {like: four_blade_7_7_8}",
           "bit: {like: four_blade_7_7_8, diameter: 70 mm, starting_wear: [0.1 mm, 0.2 mm, 0 mm, 0.4 mm], "
           "cutters: ["
           "{radius: 6 mm, azimuth: 0 deg, height: 1 mm, back_rake: 15 deg},"
           "{radius: 14 mm, azimuth: 180 deg, back_rake: 15 deg, side_rake: 3 deg},"
           "{radius: 22 mm, azimuth: 5 deg, height: 2 mm, back_rake: 20 deg},"
           "{radius: 29 mm, azimuth: -175 deg, height: 9 mm, back_rake: 20 deg, profile_angle: 70 deg}]}"));
  const geometry::BitLayout& layout = scenario.bit.layout;
  ASSERT_EQ(layout.count(), 4);
  EXPECT_NEAR(layout.azimuth(3), 185 * degree, 1e-12);
  EXPECT_NEAR(layout.depth(3), -9e-3, 1e-15);
  EXPECT_EQ(layout.blades, 2);
  EXPECT_EQ(layout.blade(0), layout.blade(2));
  EXPECT_EQ(layout.blade(1), layout.blade(3));
  EXPECT_NE(layout.blade(0), layout.blade(1));
  // Between neighbours 6 mm and 22 mm out, 1 mm and 2 mm up: atan(1/16); at the inner end atan(-1/8).
  EXPECT_NEAR(layout.profile_angle(1), std::atan(1.0 / 16.0), 1e-9);
  EXPECT_NEAR(layout.profile_angle(0), std::atan(-1.0 / 8.0), 1e-9);
  EXPECT_NEAR(layout.profile_angle(3), 70 * degree, 1e-12);
  EXPECT_NEAR(layout.exposure(0), 8e-3, 1e-15);
  EXPECT_NEAR(scenario.bit.starting_wear(3), 4e-4, 1e-15);
}

TEST(ScenarioReader, CutterSizeCodesAreMillimetres) {
  const scenario::Scenario scenario = scenario_of(plain_text(), {"bit.cutter.size=1308"});
  EXPECT_NEAR(scenario.bit.layout.shapes.front().radius, 6.5e-3, 1e-15);
  EXPECT_NEAR(scenario.bit.layout.shapes.front().length, 8e-3, 1e-15);
  const scenario::Scenario measured =
      scenario_of(plain_text(), {"bit.cutter.diameter=0.625 in", "bit.cutter.length=13.2 mm"});
  EXPECT_NEAR(measured.bit.layout.shapes.front().radius, 0.5 * 0.625 * 0.0254, 1e-15);
}

TEST(ScenarioReader, AContinuedBitKeepsOnlyThePath) {
  const scenario::Scenario scenario = scenario_of(plain_text(), {"bit.continues=../results/first.h5"});
  EXPECT_EQ(scenario.bit.continues, "../results/first.h5") << "as it was given, seen from the scenario";
}

TEST(ScenarioReader, TwoScenariosLiveSideBySide) {
  const scenario::Scenario one = scenario_of(plain_text(), {"fluid=air", "plan.0.mist_water=2 gal/min"});
  const scenario::Scenario other = scenario_of(plain_text());
  EXPECT_EQ(one.fluid.kind, scenario::FluidKind::gas);
  EXPECT_EQ(other.fluid.kind, scenario::FluidKind::liquid);
}

class ShippedScenario : public ::testing::TestWithParam<const char*> {};
TEST_P(ShippedScenario, ReadsWithoutAWarning) {
  std::vector<Warning> warnings;
  const scenario::Scenario scenario =
      testing::reader().read(testing::scenario_folder() + "/" + GetParam(), {}, warnings);
  for (const auto& warning : warnings) ADD_FAILURE() << warning.message();
  EXPECT_GT(scenario.plan.size(), 0u);
}
INSTANTIATE_TEST_SUITE_P(Files, ShippedScenario,
                         ::testing::Values("one_shallow_well.yaml", "field_of_forty_wells.yaml",
                                           "next_field.yaml", "after_an_inspection.yaml",
                                           "cutter_kept_cool.yaml"));

// The hurried twin is warned of what hurries it; the easy one (above) of nothing.
TEST(ShippedScenarios, TheBurntCuttersBitIsPushedInWeightAndSpeed) {
  std::vector<Warning> warnings;
  testing::reader().read(testing::scenario_folder() + "/cutter_burnt.yaml", {}, warnings);
  ASSERT_EQ(warnings.size(), 2u);
  EXPECT_EQ(warnings[0].key, "plan.1.pull_down");
  EXPECT_EQ(warnings[1].key, "plan.1.rotary_speed");
}

// A trainer's and a shop's stories warn of what they are about: pushing hard, and flint.
TEST(ShippedScenarios, TheLostPumpsBitIsPushedAndThePoorLotMeetsFlint) {
  std::vector<Warning> pushed, flint;
  testing::reader().read(testing::scenario_folder() + "/pump_lost.yaml", {}, pushed);
  testing::reader().read(testing::scenario_folder() + "/poor_lot.yaml", {}, flint);
  ASSERT_EQ(pushed.size(), 2u);
  EXPECT_EQ(pushed[0].key, "plan.2.pull_down");
  EXPECT_EQ(pushed[1].key, "plan.2.rotary_speed");
  ASSERT_EQ(flint.size(), 1u);
  EXPECT_EQ(flint[0].key, "column.layers.3.rock");
}

TEST(ShippedScenarios, TheGravelLensWarnsOfItsGravelAlone) {
  std::vector<Warning> warnings;
  const scenario::Scenario scenario =
      testing::reader().read(testing::scenario_folder() + "/gravel_lens.yaml", {}, warnings);
  ASSERT_EQ(warnings.size(), 1u);
  EXPECT_EQ(warnings[0].key, "column.layers.2.rock");
  EXPECT_TRUE(scenario.random_events.drawn);
  EXPECT_EQ(scenario.column.layers[2].rock.name, "gravel");
  EXPECT_NEAR(scenario.column.layers[2].bottom - scenario.column.layers[2].top, 2.0, 1e-9);
}

TEST(ShippedScenarios, ThePumpIsLostForTwoMinutes) {
  std::vector<Warning> warnings;
  const scenario::Scenario scenario =
      testing::reader().read(testing::scenario_folder() + "/pump_lost.yaml", {}, warnings);
  ASSERT_EQ(scenario.upsets.size(), 1u);
  EXPECT_EQ(scenario.upsets[0].flow, 0.0);
  EXPECT_EQ(scenario.upsets[0].lasts, 120.0);
  EXPECT_FALSE(scenario.upsets[0].weight_on_bit);  // the bit stays on bottom
  EXPECT_FALSE(scenario.upsets[0].rotary_speed);
  EXPECT_FALSE(scenario.random_events.drawn);
}

TEST(ShippedScenarios, TheInspectionIsRead) {
  std::vector<Warning> warnings;
  const scenario::Scenario scenario =
      testing::reader().read(testing::scenario_folder() + "/after_an_inspection.yaml", {}, warnings);
  ASSERT_TRUE(scenario.calibrate_from);
  EXPECT_EQ(scenario.calibrate_from->scenario_file,
            testing::scenario_folder() + "/field_of_forty_wells.yaml");
  EXPECT_EQ(scenario.calibrate_from->holes, 12.0);
  EXPECT_EQ(scenario.calibrate_from->worn_height.size(), 18);
  EXPECT_TRUE(std::isnan(scenario.calibrate_from->worn_height(0)));
  EXPECT_NEAR(scenario.calibrate_from->worn_height(17), 7e-4, 1e-15);
}

}  // namespace
}  // namespace dullcast::input
