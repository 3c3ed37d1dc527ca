#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <string>

#include "engine/input/reading.hpp"

// Every refusal and warning by its exact text, with line and column.
namespace dullcast::input {
namespace {

using testing::errors_of;
using testing::Messages;
using testing::plain_text;
using testing::warnings_of;
using testing::with;

TEST(ScenarioErrors, APlainScenarioHasNone) {
  EXPECT_EQ(errors_of(plain_text()), Messages{});
  EXPECT_EQ(warnings_of(plain_text()), Messages{});
}

struct Wrong {
  const char* from;
  const char* to;
  Messages messages;
};
void PrintTo(const Wrong& wrong, std::ostream* out) {
  *out << testing::plain_name(wrong.to);
}
class OneMistake : public ::testing::TestWithParam<Wrong> {};
TEST_P(OneMistake, IsNamedWithItsPlaceAndWhatWouldBeRight) {
  const std::string text = with(plain_text(), GetParam().from, GetParam().to);
  ASSERT_FALSE(text.empty()) << "the plain text does not hold " << GetParam().from;
  EXPECT_EQ(errors_of(text), GetParam().messages);
}

INSTANTIATE_TEST_SUITE_P(
    Plan, OneMistake,
    ::testing::Values(
        Wrong{"6000 lbf",
              "6000",
              {"well.yaml:5:21: plan.0.weight_on_bit: \"6000\" has no unit, and a weight is wanted; write "
               "6750 lbf or "
               "30 kN"}},
        Wrong{"6000 lbf",
              "-1 lbf",
              {"well.yaml:5:21: plan.0.weight_on_bit: \"-1 lbf\" is out of range; it must be 0 or more, up "
               "to 10 MN"}},
        Wrong{"6000 lbf",
              "[6000 lbf]",
              {"well.yaml:5:21: plan.0.weight_on_bit: is a list where a weight is wanted; write 6750 lbf or "
               "30 kN"}},
        Wrong{"60 gal/min",
              "-60 gal/min",
              {"well.yaml:5:59: plan.0.flow: \"-60 gal/min\" is out of range; it must be 0 or more, up to 10 "
               "m3/s"}},
        Wrong{"85 rpm",
              "0 rpm",
              {"well.yaml:5:45: plan.0.rotary_speed: \"0 rpm\" is out of range; it must be from 0.01 "
               "to 6000 "
               "rpm: a bit that does not turn does not drill"}},
        Wrong{"rotary_speed",
              "rotary_sped",
              {"well.yaml:5:5: plan.0.rotary_speed: is missing; write rotary_speed: 90 rpm",
               "well.yaml:5:31: plan.0.rotary_sped: is not a key here; did you mean rotary_speed?"}},
        Wrong{"weight_on_bit: 6000 lbf, ",
              "",
              {"well.yaml:5:5: plan.0.weight_on_bit: is missing; write weight_on_bit: 6750 lbf, or "
               "pull_down: with "
               "string:"}},
        Wrong{"weight_on_bit: 6000 lbf, ",
              "weight_on_bit: 6000 lbf, pull_down: 1 kN, ",
              {"well.yaml:5:21: plan.0.weight_on_bit: is given beside pull_down or holdback; write the whole "
               "weight, "
               "or its parts"}},
        Wrong{"weight_on_bit: 6000 lbf, ",
              "mist_water: 1 gpm, weight_on_bit: 6000 lbf, ",
              {"well.yaml:5:18: plan.0.mist_water: is water carried by air, but the fluid is water; leave it "
               "out, or "
               "write fluid: air"}},
        Wrong{"  - {weight_on_bit: ",
              "  - {to: 20 m, weight_on_bit: ",
              {"well.yaml:5:3: plan: ends at 20 m (65.617 ft), but the column goes down to 27.432 m (90 ft); "
               "extend "
               "the last interval's to:, or leave it out"}},
        Wrong{"  - {weight_on_bit: ",
              "  - {from: 1 m, weight_on_bit: ",
              {"well.yaml:5:12: plan.0.from: leaves a gap: the plan above ends at 0 m (0 ft) and goes on at "
               "1 m "
               "(3.2808 ft); close it"}},
        Wrong{"plan:\n",
              "plans:\n",
              {"well.yaml:1:1: plan: is missing; write one \"- \" to a depth interval with weight_on_bit, "
               "rotary_speed "
               "and flow",
               "well.yaml:4:1: plans: is not a key here; did you mean plan?"}}));

INSTANTIATE_TEST_SUITE_P(
    Column, OneMistake,
    ::testing::Values(
        Wrong{"{rock: sandstone, thickness: 40 ft}",
              "{rock: sandstone, top: 40 ft, bottom: 90 ft}",
              {"well.yaml:9:30: column.layers.1.top: overlaps the layer above, which ends at 15.24 m (50 "
               "ft), by 3.048 "
               "m (10 ft); layers follow each other from the surface down"}},
        Wrong{"{rock: sandstone, thickness: 40 ft}",
              "{rock: sandstone, top: 60 ft, bottom: 90 ft}",
              {"well.yaml:9:30: column.layers.1.top: leaves a gap: the layer above ends at 15.24 m (50 ft) "
               "and this "
               "one starts at 18.288 m (60 ft); close it or log what lies between"}},
        Wrong{
            "{rock: sandstone, thickness: 40 ft}",
            "{rock: sandstone, thickness: 1 mm}",
            {"well.yaml:9:36: column.layers.1.thickness: makes a layer thinner than the 5 mm that depths are "
             "told apart by; leave it out or make it thicker"}},
        Wrong{"{rock: sandstone, thickness: 40 ft}",
              "{rock: sandstone, bottom: 40 ft}",
              {"well.yaml:9:33: column.layers.1.bottom: ends at 12.192 m (40 ft), no deeper than it starts, "
               "at 15.24 m "
               "(50 ft); layers follow each other from the surface down"}},
        Wrong{"{rock: sandstone, thickness: 40 ft}",
              "{rock: sandstone, bottom: 90 ft, thickness: 50 ft}",
              {"well.yaml:9:51: column.layers.1.thickness: does not fit the layer's ends at 15.24 m (50 ft) "
               "and 27.432 "
               "m (90 ft); give thickness or bottom, not both"}},
        Wrong{"{rock: sandstone, thickness: 40 ft}",
              "{rock: sandstone}",
              {"well.yaml:9:7: column.layers.1.thickness: is missing; write thickness: 60 ft, or bottom: 120 "
               "ft"}},
        Wrong{"{rock: sandstone, thickness: 40 ft}",
              "{rock: sandstnoe, thickness: 40 ft}",
              {"well.yaml:9:14: column.layers.1.rock: there is no rock \"sandstnoe\"; did you mean "
               "sandstone?"}},
        Wrong{"{rock: sandstone, thickness: 40 ft}",
              "{rock: sandstone, thickness: 40 ft, poissons_ratio: 0.6}",
              {"well.yaml:9:59: column.layers.1.poissons_ratio: \"0.6\" is out of range; it must be from 0 "
               "to 0.5; rocks of the library have 0.1 to 0.45"}},
        Wrong{"{rock: shale, thickness: 50 ft}",
              "{rock: shale, top: 3 ft, bottom: 50 ft}",
              {"well.yaml:8:26: column.layers.0.top: the first layer starts at 0.9144 m (3 ft); the column "
               "starts at "
               "the surface, so write top: 0 m or add what lies above"}},
        Wrong{"{rock: shale, thickness: 50 ft}",
              "{rock: shale, thickness: 50 ft, rock: clay}",
              {"well.yaml:8:39: column.layers.0.rock: is given twice, first on line 8; keep one of them"}},
        Wrong{
            "{rock: shale, thickness: 50 ft}",
            "shale",
            {"well.yaml:8:7: column.layers.0: is \"shale\"; write a map of keys (key: value, one to a line)",
             "well.yaml:8:7: column.layers.0.rock: is missing; write rock: and one of basalt, "
             "cherty_limestone, clay, dolomite, granite, gravel, gravelly_sand, "
             "hard_sandstone, limestone, marl, quartzite, sandstone, shale or siltstone",
             "well.yaml:8:7: column.layers.0.thickness: is missing; write thickness: 60 ft, or bottom: 120 "
             "ft"}}));

INSTANTIATE_TEST_SUITE_P(
    Bit, OneMistake,
    ::testing::Values(
        Wrong{"four_blade_7_7_8",
              "four_blade_7_7_9",
              {"well.yaml:2:13: bit.like: there is no bit \"four_blade_7_7_9\"; did you mean "
               "four_blade_7_7_8?"}},
        Wrong{"four_blade_7_7_8",
              "four_blade_7_7_8, grade: premum",
              {"well.yaml:2:38: bit.grade: there is no cutter grade \"premum\"; did you mean premium?"}},
        Wrong{"four_blade_7_7_8",
              "four_blade_7_7_8, starting_wear: 9 mm",
              {"well.yaml:2:46: bit.starting_wear: cutter 1 is worn 9 mm, beyond its exposure of 8 mm: past "
               "repair"}},
        Wrong{"four_blade_7_7_8",
              "four_blade_7_7_8, starting_wear: [1 mm]",
              {"well.yaml:2:46: bit.starting_wear: has 1 values for 18 cutters; write one value for all, or "
               "one a cutter "
               "from the axis outward"}},
        Wrong{"four_blade_7_7_8",
              "four_blade_7_7_8, starting_wear: 1 mm, continues: a.h5",
              {"well.yaml:2:46: bit.starting_wear: is one value beside continues:, which brings the wear "
               "along; keep one of them, or list what was measured, with not measured where the result is to "
               "stand"}},
        Wrong{"four_blade_7_7_8",
              "four_blade_7_7_8, cutter: {size: 16x13}",
              {"well.yaml:2:46: bit.cutter.size: \"16x13\" is no size code; write diameter and length in "
               "millimetres as "
               "four digits, such as 1613 for 16 mm by 13 mm, or diameter: and length:"}},
        Wrong{"four_blade_7_7_8",
              "four_blade_7_7_8, cutter: {leach_depth: 3 mm}",
              {"well.yaml:2:53: bit.cutter.leach_depth: is more than the table's thickness of 2 mm; it is "
               "measured from "
               "the face into the table"}},
        Wrong{"four_blade_7_7_8",
              "four_blade_7_7_8, blades: {cutters_per_blade: [5, none]}",
              {"well.yaml:2:63: bit.blades.cutters_per_blade.1: \"none\" is no count of cutters; write a "
               "whole number "
               "from 1 to 99"}},
        Wrong{"like: four_blade_7_7_8",
              "diameter: 70 mm, cutter: {size: 1613}, cutters: [{radius: 6 mm, azimuth: 0 deg, back_rake: 15 "
              "deg}, "
              "{radius: 29 mm, azimuth: 90 deg, back_rake: 15 deg}]",
              {"well.yaml:2:55: bit.cutters: cutter 2 reaches to radius 37 mm, outside the bit's radius of "
               "35 mm; bring "
               "it in, or correct the diameter",
               "well.yaml:2:55: bit.cutters: no cutter reaches the rock from radius 14 mm to 21 mm; move "
               "cutters or add "
               "one there"}},
        Wrong{"bit: {like: four_blade_7_7_8}",
              "bat: {}",
              {"well.yaml:1:1: bit: is missing; write bit: with like: and a bit of the library "
               "(five_blade_8_1_2, "
               "four_blade_7_7_8 or three_blade_3_3_4), or describe your own",
               "well.yaml:2:1: bat: is not a key here; did you mean bit?"}},
        Wrong{"bit: {like: four_blade_7_7_8}",
              "bit: {diameter: 8 in, cutter: {size: 1613}}",
              {"well.yaml:2:6: bit.blades: is missing; write blades: with cutters_per_blade: [5, 4, 5, 4], "
               "or a list of "
               "cutters:"}}));

INSTANTIATE_TEST_SUITE_P(
    Rest, OneMistake,
    ::testing::Values(
        Wrong{"fluid: water",
              "fluid: watr",
              {"well.yaml:3:8: fluid: there is no fluid \"watr\"; did you mean water?"}},
        Wrong{"fluid: water",
              "fluid: {name: water, inlet_temperature: 15}",
              {"well.yaml:3:41: fluid.inlet_temperature: \"15\" has no unit, and a temperature is wanted; "
               "write 10 degC "
               "or 50 degF"}},
        Wrong{"rework: {worn_height: 2 mm}",
              "rework: {outer_dull_grade: 9}",
              {"well.yaml:10:28: rework.outer_dull_grade: \"9\" is out of range; it must be above 0 and up "
               "to 8"}},
        Wrong{
            "rework: {worn_height: 2 mm}",
            "rework: {worn_height: 2 mm}\nrepeat: {holes: 2.5, stop_at: never}",
            {"well.yaml:11:17: repeat.holes: \"2.5\" is no whole number from 1 to 1000000; write holes: 1",
             "well.yaml:11:31: repeat.stop_at: is \"never\"; write rework_due, beyond_repair or last_hole"}},
        Wrong{"rework: {worn_height: 2 mm}",
              "rework: {worn_height: 2 mm}\ncosts: {bit: 1200, rig: 85 $/ft}",
              {"well.yaml:11:14: costs.bit: \"1200\" has no unit, and an amount of money is wanted; write "
               "1200 $",
               "well.yaml:11:25: costs.rig: \"ft\" is not a unit of money per time; write 85 $/h"}},
        Wrong{"rework: {worn_height: 2 mm}",
              "rework: {worn_height: 2 mm}\nmodels: {flat_friction: {low: 0.5, central: 0.4, high: 0.6}, "
              "flat_frction: 1}",
              {"well.yaml:11:45: models.flat_friction.central: does not lie between low and high; write low "
               "<= central "
               "<= high",
               "well.yaml:11:62: models.flat_frction: is not a key here; did you mean flat_friction?"}},
        Wrong{
            "rework: {worn_height: 2 mm}",
            "rework: {worn_height: 2 mm}\nrocks: {tuff: {density: 2 g/cm3}}",
            {"well.yaml:11:15: rocks.tuff: there is no rock \"tuff\"; write basalt, cherty_limestone, clay, "
             "dolomite, granite, gravel, gravelly_sand, hard_sandstone, limestone, marl, quartzite, "
             "sandstone, shale or siltstone, or start a new one "
             "with like: "
             "NAME"}},
        Wrong{"rework: {worn_height: 2 mm}",
              "rework: {worn_height: 2 mm}\nbits: {mine: {like: four_blade_7_7_8}}",
              {"well.yaml:11:21: bits.mine.like: has no place in a list of bits: describe the bit in full "
               "here, and "
               "write like: under bit: to change one"}},
        Wrong{
            "rework: {worn_height: 2 mm}",
            "rework: {worn_height: 2 mm}\ncalibrate_from: {scenario: none.yaml, worn_height: [not measured]}",
            {"well.yaml:11:28: calibrate_from.scenario: cannot be used: none.yaml: cannot be read; check its "
             "name and that it is a readable file",
             "well.yaml:11:52: calibrate_from.worn_height: holds no measurement; give the height of one "
             "cutter at "
             "least"}}));

TEST(ScenarioErrors, AllErrorsOfAFileComeAtOnceInItsOrder) {
  std::string text = with(plain_text(), "6000 lbf", "6000");
  text = with(text, "85 rpm", "0 rpm");
  text = with(text, "rock: shale", "rock: chalk");
  text = with(text, "fluid: water", "fluid: mud");
  text = with(text, "title: plain", "title: [a]");
  text += "title: twice\nnonsense: 3\n";
  const auto errors = errors_of(text);
  ASSERT_EQ(errors.size(), 7u);
  const char* places[] = {
      "well.yaml:1:8: title",    "well.yaml:3:8: fluid",   "well.yaml:5:21: plan.0.weight_on_bit",
      "well.yaml:5:41: plan",    "well.yaml:8:14: column", "well.yaml:11:1: title",
      "well.yaml:12:1: nonsense"};
  for (std::size_t i = 0; i < 7; ++i) EXPECT_TRUE(errors[i].starts_with(places[i])) << errors[i];
}

TEST(ScenarioErrors, ASyntaxErrorStandsAlone) {
  // What follows it cannot be told, so nothing is said about missing parts.
  const auto errors = errors_of(with(plain_text(), "lbf, rotary", "lbf, [rotary"));
  ASSERT_EQ(errors.size(), 1u);
  EXPECT_TRUE(errors[0].starts_with("well.yaml:5:")) << errors[0];
}

TEST(ScenarioErrors, AnEmptyOrForeignFileIsRefused) {
  EXPECT_EQ(errors_of(""),
            Messages{"well.yaml:1:1: holds nothing; a scenario is a map of keys such as bit: and column:"});
  EXPECT_EQ(
      errors_of("just words\n"),
      Messages{"well.yaml:1:1: holds \"just words\"; a scenario is a map of keys such as bit: and column:"});
}

TEST(ScenarioWarnings, UnwiseInputWarnsAndRuns) {
  EXPECT_EQ(
      warnings_of(with(plain_text(), "6000 lbf", "8000 lbf")),
      Messages{
          "well.yaml:5:21: plan.0.weight_on_bit: puts up to 8000 lbf on the bit at 27.432 m (90 ft), above "
          "7875 lbf (common practice: 1000 lbf per inch of diameter): cutters run hot and chip"});
  EXPECT_EQ(warnings_of(with(plain_text(), "60 gal/min", "9 gal/min")),
            Messages{"well.yaml:5:59: plan.0.flow: is under 10 gal/min (common practice): cutters lose their "
                     "cooling and "
                     "cuttings stay below"});
  EXPECT_EQ(warnings_of(with(plain_text(), "85 rpm", "120 rpm")),
            Messages{"well.yaml:5:45: plan.0.rotary_speed: is above the usual 80 to 100 rpm (common "
                     "practice): heat grows "
                     "with speed, and hard rock wants less"});
  EXPECT_EQ(warnings_of(with(plain_text(), "rock: sandstone", "rock: quartzite")),
            Messages{"well.yaml:9:14: column.layers.1.rock: quartzite chips and burns diamond cutters (the "
                     "most abrasive "
                     "of these rocks): drill it slowly and look at the bit after it"});
  EXPECT_EQ(
      warnings_of(
          with(plain_text(), "four_blade_7_7_8", "four_blade_7_7_8, blades: {outer_back_rake: 35 deg}")),
      Messages{"well.yaml:2:39: bit.blades: a back rake of 35 deg is far from the usual 10 to 20 deg (common "
               "practice)"});
  EXPECT_EQ(
      warnings_of(with(plain_text(), "rework: {worn_height: 2 mm}", "rework: {}")),
      Messages{"well.yaml:10:9: rework: has no rule, so rework never falls due; write worn_height: 2 mm, "
               "outer_dull_grade: 4, heat_damage: 0.5 or speed_share_of_new: 0.5"});
}

TEST(ScenarioWarnings, TheLimitItselfDoesNotWarn) {
  EXPECT_EQ(warnings_of(with(with(plain_text(), "85 rpm", "100 rpm"), "60 gal/min", "10 gal/min")),
            Messages{});
}

TEST(ScenarioWarnings, TheStringsWeightCountsAtTheBottom) {
  const std::string text = with(plain_text(), "weight_on_bit: 6000 lbf", "pull_down: 6000 lbf") +
                           "string: {collar_weight: 60 lb/ft, collar_length: 60 ft}\n";
  // 60 ft of collars of 60 lb/ft in water: 3600 (1 - 998/7850) = 3142 lbf over the pull-down.
  EXPECT_EQ(warnings_of(text),
            Messages{"well.yaml:5:17: plan.0.pull_down: puts up to 9142 lbf on the bit at 27.432 m (90 ft), "
                     "above 7875 lbf "
                     "(common practice: 1000 lbf per inch of diameter): cutters run hot and chip"});
}

TEST(SetValues, ChangeAScenarioBeforeItIsChecked) {
  const scenario::Scenario scenario = testing::scenario_of(
      plain_text(),
      {"bit.grade=premium", "plan.0.rotary_speed=80 rpm", "layers.1.rock=limestone", "repeat.holes=3",
       "fluid.inlet_temperature=20 degC", "bit.blades.cutters_per_blade=[5, 5, 4, 4]", "title="});
  EXPECT_EQ(scenario.bit.kinds.front().grade.name, "premium");
  EXPECT_NEAR(scenario.plan[0].rotary_speed, 80.0 / 60.0, 1e-12);
  EXPECT_EQ(scenario.column.layers[1].rock.name, "limestone");
  EXPECT_EQ(scenario.repeat.holes, 3);
  EXPECT_NEAR(scenario.inlet_temperature, 293.15, 1e-9);
  EXPECT_EQ(scenario.fluid.name, "water");
  EXPECT_EQ(scenario.title, "well");
}

TEST(SetValues, MistakesAreNamedByTheirKey) {
  EXPECT_EQ(
      errors_of(plain_text(),
                {"plan.0.rotary_speed=80", "bit.grad=premium", "plan.7.flow=60 gpm", "foo", "repeat.holes=3",
                 "repeat.holes=4", "title.x=3", "plan..flow=1", "rework=[", "fluid=watr"}),
      (Messages{"--set bit.grad: bit.grad: is not a key here; did you mean grade?",
                "--set fluid: fluid: there is no fluid \"watr\"; did you mean water?",
                "--set foo: has no key and value; write it like --set bit.grade=premium",
                "--set plan..flow: has an empty step in its path; write it like plan.0.rotary_speed=80 rpm",
                ("--set plan.0.rotary_speed: plan.0.rotary_speed: \"80\" has no unit, and a rotary speed is "
                 "wanted; "
                 "write 90 rpm"),
                "--set plan.7.flow: \"7\" is no place in plan, a list of 1; count from 0",
                "--set repeat.holes: is given twice; keep one of them",
                "--set rework: \"[\" is no value; quote it or write it as in a file",
                "--set title.x: there is nothing below title, which is \"plain\"; shorten the path"}));
}

// What a run would refuse or make absurd is refused when it is read.
TEST(ScenarioErrors, AFeedLimitBelowTheLeastProgressIsRefused) {
  const std::string held = with(plain_text(), "flow: 60 gal/min}", "flow: 60 gal/min, feed_limit: 0.05 m/h}");
  ASSERT_EQ(errors_of(held).size(), 1U);
  EXPECT_NE(errors_of(held)[0].find("feed_limit of entry 0 is below rework.least_progress of 0.1 m/h"),
            std::string::npos)
      << errors_of(held)[0];
  EXPECT_EQ(errors_of(with(held, "{worn_height: 2 mm}", "{worn_height: 2 mm, least_progress: 0.01 m/h}")),
            Messages{});
}

std::string listed(int cutters, double spacing, double profile_angle) {
  std::string list;
  for (int k = 0; k < cutters; ++k) {
    list += std::string(k > 0 ? ", " : "") + "{radius: " + std::to_string(5.0 + spacing * k) +
            " mm, azimuth: " + std::to_string(360 * k / cutters) +
            " deg, back_rake: 15 deg, profile_angle: " + std::to_string(profile_angle) +
            " deg, blade: " + std::to_string(k % 4 + 1) + "}";
  }
  return with(
      plain_text(), "{like: four_blade_7_7_8}",
      "{diameter: 130 mm, body: steel, grade: standard, cutter: {size: 1613}, cutters: [" + list + "]}");
}

bool told(const Messages& messages, const std::string& words) {
  return std::any_of(messages.begin(), messages.end(),
                     [&](const std::string& m) { return m.find(words) != std::string::npos; });
}

TEST(ScenarioErrors, ABitWhoseCuttersAllFaceTheWallIsRefused) {
  EXPECT_TRUE(told(errors_of(listed(20, 2.7, 90.0)), "no cutter faces the hole's bottom"));
  EXPECT_FALSE(told(errors_of(listed(20, 2.7, 0.0)), "no cutter faces the hole's bottom"));
}

TEST(ScenarioErrors, MoreCuttersOverOneRadiusThanARunCanFollowAreNamed) {
  const Messages crowd = errors_of(listed(40, 0.1, 0.0));
  EXPECT_TRUE(told(crowd, "cutters 1, 2, 3, 4, "));
  EXPECT_TRUE(told(crowd, ", 33 all stand over radius")) << "the first radius that is too many for a run";
  EXPECT_FALSE(told(errors_of(listed(20, 2.7, 0.0)), "all stand over radius"));
}

}  // namespace
}  // namespace dullcast::input
