#include <gtest/gtest.h>

#include "engine/input/reading.hpp"

// Upsets, chance, the pump, the other method, and the rules and costs that go with them.
namespace dullcast::input {
namespace {

using testing::errors_of;
using testing::Messages;
using testing::plain_text;
using testing::scenario_of;
using testing::warnings_of;

constexpr double gallon_a_minute = 3.785411784e-3 / 60.0, lbf = 4.4482216152605;

std::string plain_and(const std::string& more) {
  return std::string(plain_text()) + more;
}

TEST(Upsets, AreReadInTheOrderWritten) {
  const scenario::Scenario scenario = scenario_of(
      plain_and("upsets:\n"
                "  - {from: 41 ft, hole: 3, lasts: 90 s, flow: 2 gal/min}\n"
                "  - {from: 3 m, lasts: 2 min, pump: off}\n"
                "  - {from: 0 m, hole: every, lasts: 1 h, weight_on_bit: 0 lbf, rotary_speed: 0 rpm}\n"
                "  - {from: 3 m, lasts: 5 s, weight_on_bit: 9000 lbf}\n"
                "repeat: {holes: 3}\n"));
  ASSERT_EQ(scenario.upsets.size(), 4u);
  const auto& upsets = scenario.upsets;
  EXPECT_NEAR(upsets[0].from, 41 * 0.3048, 1e-12);
  EXPECT_EQ(upsets[0].hole, 2);
  EXPECT_NEAR(upsets[0].lasts, 90.0, 1e-12);
  EXPECT_NEAR(*upsets[0].flow, 2 * gallon_a_minute, 1e-12);
  EXPECT_FALSE(upsets[0].mist_water || upsets[0].weight_on_bit || upsets[0].rotary_speed);
  EXPECT_EQ(upsets[0].location.line, 12);
  EXPECT_EQ(upsets[1].hole, 0);
  EXPECT_EQ(upsets[1].flow, 0.0);
  EXPECT_EQ(upsets[1].mist_water, 0.0);
  EXPECT_EQ(upsets[2].hole, -1);
  EXPECT_EQ(upsets[2].weight_on_bit, 0.0);
  EXPECT_EQ(upsets[2].rotary_speed, 0.0);
  EXPECT_FALSE(upsets[2].flow);
  EXPECT_NEAR(*upsets[3].weight_on_bit, 9000 * lbf, 1e-6);
  EXPECT_EQ(scenario_of(plain_text()).upsets.size(), 0u);
}

TEST(Upsets, MistakesAreNamedWithTheirPlace) {
  const auto wrong = [](const std::string& item) {
    return errors_of(plain_and("upsets: [{" + item + "}]\n"));
  };
  EXPECT_EQ(wrong("from: 3 m, lasts: 90 s"),
            Messages{"well.yaml:11:10: upsets.0: changes nothing; write pump: off, flow:, mist_water:, "
                     "weight_on_bit: or rotary_speed: as it is meanwhile"});
  EXPECT_EQ(wrong("pump: off"),
            (Messages{"well.yaml:11:10: upsets.0.from: is missing; write from: 41 m or 135 ft",
                      "well.yaml:11:10: upsets.0.lasts: is missing; write lasts: 90 s or 2 min"}));
  EXPECT_EQ(
      wrong("from: 90 ft, lasts: 90 s, pump: off"),
      Messages{"well.yaml:11:17: upsets.0.from: is not above the column's bottom at 27.432 m (90 ft); an "
               "upset begins while the bit drills"});
  EXPECT_EQ(
      wrong("from: 3 m, lasts: 0 s, pump: off"),
      Messages{"well.yaml:11:29: upsets.0.lasts: \"0 s\" is out of range; it must be above 0 and up to 2 "
               "days"});
  EXPECT_EQ(
      wrong("from: 3 m, lasts: 49 h, pump: off"),
      Messages{"well.yaml:11:29: upsets.0.lasts: \"49 h\" is out of range; it must be above 0 and up to 2 "
               "days"});
  EXPECT_EQ(wrong("from: 3 m, lasts: 9 s, pump: on"),
            Messages{"well.yaml:11:40: upsets.0.pump: is \"on\"; write off"});
  EXPECT_EQ(wrong("from: 3 m, lasts: 9 s, pump: off, flow: 1 gpm"),
            Messages{"well.yaml:11:51: upsets.0.flow: is given beside pump: off; keep one of them"});
  EXPECT_EQ(wrong("from: 3 m, lasts: 9 s, mist_water: 1 gpm"),
            Messages{"well.yaml:11:46: upsets.0.mist_water: is water carried by air, but the fluid is water; "
                     "leave it out, or write fluid: air"});
  EXPECT_EQ(wrong("from: 3 m, lasts: 9 s, weight_on_bit: -1 N"),
            Messages{"well.yaml:11:49: upsets.0.weight_on_bit: \"-1 N\" is out of range; it must be 0 (off "
                     "bottom) or more, up to 10 MN"});
  EXPECT_EQ(
      wrong("from: 3 m, lasts: 9 s, pump: off, hole: 0"),
      Messages{"well.yaml:11:51: upsets.0.hole: \"0\" is no whole number from 1 to 1000000; write hole: "
               "1"});
  EXPECT_EQ(wrong("from: 3 m, lasts: 9 s, pump: off, hold: 3"),
            Messages{"well.yaml:11:45: upsets.0.hold: is not a key here; did you mean hole?"});
  EXPECT_EQ(errors_of(plain_and("upsets: {from: 3 m}\n")),
            Messages{"well.yaml:11:9: upsets: is a map of keys; write a list, one \"- \" to an item"});
}

TEST(Upsets, AnUpsetInAHoleNeverDrilledWarns) {
  EXPECT_EQ(
      warnings_of(plain_and("upsets: [{from: 3 m, hole: 2, lasts: 9 s, pump: off}]\n")),
      Messages{"well.yaml:11:28: upsets.0.hole: is hole 2, but repeat: drills 1 at most: this upset never "
               "comes"});
}

TEST(ChanceReading, ExpectedDrawnOrASeed) {
  EXPECT_FALSE(scenario_of(plain_text()).random_events.drawn);
  EXPECT_FALSE(scenario_of(plain_and("chance: expected\n")).random_events.drawn);
  const scenario::RandomEvents drawn = scenario_of(plain_and("chance: drawn\n")).random_events;
  EXPECT_TRUE(drawn.drawn);
  EXPECT_EQ(drawn.seed, 1);
  const scenario::RandomEvents seeded =
      scenario_of(plain_and("chance: {draw: yes, seed: 9007199254740991}\n")).random_events;
  EXPECT_TRUE(seeded.drawn);
  EXPECT_EQ(seeded.seed, 9007199254740991L);
  EXPECT_TRUE(scenario_of(plain_text(), {"chance.seed=8"}).random_events.drawn);
  const scenario::RandomEvents kept = scenario_of(plain_and("chance: {draw: no, seed: 5}\n")).random_events;
  EXPECT_FALSE(kept.drawn);
  EXPECT_EQ(kept.seed, 5);
}

TEST(ChanceReading, MistakesAreNamedWithTheirPlace) {
  EXPECT_EQ(errors_of(plain_and("chance: maybe\n")),
            Messages{"well.yaml:11:9: chance: is \"maybe\"; write expected or drawn"});
  EXPECT_EQ(
      errors_of(plain_and("chance: {draw: 3, seed: -1, sed: 2}\n")),
      (Messages{"well.yaml:11:16: chance.draw: is \"3\"; write yes, no, true or false",
                "well.yaml:11:25: chance.seed: \"-1\" is no whole number from 0 to 9007199254740991; write "
                "seed: 1",
                "well.yaml:11:29: chance.sed: is not a key here; did you mean seed?"}));
}

TEST(OtherMethodReading, IsReadInSi) {
  const scenario::Scenario scenario = scenario_of(
      plain_and("costs: {rig: 36 $/h}\n"
                "other_method: {name: air hammer, rate_of_penetration: 12 m/h, power: 200 hp, consumables: "
                "0.3048 $/ft, rig: 95 $/h}\n"));
  ASSERT_TRUE(scenario.other_method);
  EXPECT_EQ(scenario.other_method->name, "air hammer");
  EXPECT_NEAR(scenario.other_method->rate_of_penetration, 12.0 / 3600.0, 1e-15);
  // A horsepower is 745.69987 W (NIST SP 811, appendix B).
  EXPECT_NEAR(scenario.other_method->power, 200 * 745.69987, 1e-3);
  EXPECT_NEAR(scenario.other_method->consumables, 1.0, 1e-12);
  EXPECT_NEAR(scenario.other_method->rig_per_second, 95.0 / 3600.0, 1e-15);
  EXPECT_FALSE(scenario_of(plain_text()).other_method);
  const auto short_one =
      scenario_of(plain_and("costs: {rig: 36 $/h}\n"
                            "other_method: {rate_of_penetration: 12 m/h}\n"));
  EXPECT_NEAR(short_one.other_method->rig_per_second, 0.01, 1e-15);
}

TEST(OtherMethodReading, MistakesAreNamedWithTheirPlace) {
  EXPECT_EQ(
      errors_of(plain_and("other_method: {name: hammer, power: 150, consumables: 1 $/h, speed: 1 m/h}\n")),
      (Messages{"well.yaml:11:15: other_method.rate_of_penetration: is missing; write "
                "rate_of_penetration: 12 m/h or 40 ft/h",
                "well.yaml:11:37: other_method.power: \"150\" has no unit, and a power is wanted; write 150 "
                "kW or 200 hp",
                "well.yaml:11:55: other_method.consumables: \"h\" is not a unit of money per length; write "
                "400 $/ft",
                "well.yaml:11:62: other_method.speed: is not a key here; the keys are consumables, name, "
                "power, rate_of_penetration or rig"}));
  EXPECT_EQ(
      errors_of(plain_and("other_method: {rate_of_penetration: 0 m/h}\n")),
      Messages{"well.yaml:11:37: other_method.rate_of_penetration: \"0 m/h\" is out of range; it must be "
               "from 0.1 mm/h to 1 m/s"});
}

TEST(PumpAndPipe, AreRead) {
  const scenario::Scenario scenario =
      scenario_of(plain_and("pump: {pressure_limit: 10 bar}\nstring: {pipe_diameter: 3.5 in}\n"));
  EXPECT_NEAR(scenario.pump_pressure_limit, 1e6, 1e-6);
  EXPECT_NEAR(scenario.string.pipe_diameter, 3.5 * 0.0254, 1e-15);
  const scenario::Scenario plain = scenario_of(plain_text());
  EXPECT_EQ(plain.pump_pressure_limit, 0.0);
  EXPECT_NEAR(plain.string.pipe_diameter, 0.45 * 7.875 * 0.0254, 1e-12);
  EXPECT_EQ(
      errors_of(plain_and("pump: {pressure: 10 bar}\nstring: {pipe_diameter: 8 in}\n")),
      (Messages{"well.yaml:11:8: pump.pressure: is not a key here; did you mean pressure_limit?",
                "well.yaml:12:25: string.pipe_diameter: is no less than the bit's diameter of 200.025 mm; "
                "cuttings come up between pipe and hole"}));
}

TEST(RulesAndCosts, OfChipsGaugeAndLostCutters) {
  const scenario::Scenario scenario =
      scenario_of(plain_and("costs: {cutter: 38 $, pocket: 22 $}\nrepeat: {pump_at_connections: on}\n"),
                  {"rework={chip_probability: 0.5, gauge_loss: 3 mm, lost_cutters: 2}"});
  EXPECT_EQ(scenario.rules.chip_probability, 0.5);
  EXPECT_NEAR(*scenario.rules.gauge_loss, 3e-3, 1e-15);
  EXPECT_EQ(scenario.rules.lost_cutters, 2.0);
  EXPECT_EQ(scenario.costs.cutter, 38.0);
  EXPECT_EQ(scenario.costs.pocket, 22.0);
  EXPECT_TRUE(scenario.repeat.pump_at_connections);
  EXPECT_FALSE(scenario_of(plain_text()).repeat.pump_at_connections);
  // One of the new rules alone is a rule.
  for (const char* rule : {"{chip_probability: 0.5}", "{gauge_loss: 3 mm}", "{lost_cutters: 1}"}) {
    EXPECT_EQ(warnings_of(plain_text(), {std::string("rework=") + rule}), Messages{}) << rule;
  }
  EXPECT_EQ(
      errors_of(testing::with(plain_text(), "worn_height: 2 mm",
                              "chip_probability: 1.5, gauge_loss: 3, lost_cutters: 0.5")),
      (Messages{"well.yaml:10:28: rework.chip_probability: \"1.5\" is out of range; it must be above 0 and "
                "up to 1",
                "well.yaml:10:45: rework.gauge_loss: \"3\" has no unit, and a length is wanted; write 13 "
                "mm or 0.5 in",
                "well.yaml:10:62: rework.lost_cutters: \"0.5\" is no whole number from 1 to 400; write "
                "lost_cutters: 1"}));
  EXPECT_EQ(errors_of(plain_and("repeat: {pump_at_connections: yes}\n")),
            Messages{"well.yaml:11:31: repeat.pump_at_connections: is \"yes\"; write off or on"});
}

TEST(ModelNumbers, OfTheNewModelsAreReadWithTheirUnits) {
  const scenario::ModelNumbers numbers =
      scenario_of(
          plain_and("models: {roughness_impacts: 2 1/m, impact_impedance: 12 MPa s/m, bond_mismatch: 0.4 "
                    "MPa/K, braze_solidus: 650 degC, erosion_coefficient: 1e-8 m/s, rubbing_coefficient: "
                    "1e-6 mm3/(N m)}\n"))
          .numbers;
  EXPECT_EQ(numbers.roughness_impacts.central, 2.0);
  EXPECT_NEAR(numbers.impact_impedance.central, 12e6, 1e-6);
  EXPECT_NEAR(numbers.bond_mismatch.central, 0.4e6, 1e-9);
  EXPECT_NEAR(numbers.braze_solidus.central, 923.15, 1e-9);
  EXPECT_NEAR(numbers.erosion_coefficient.central, 1e-8, 1e-20);
  EXPECT_NEAR(numbers.rubbing_coefficient.central, 1e-15, 1e-27);
  EXPECT_EQ(
      errors_of(plain_and("models: {roughness_impacts: 2 m, packed_share: 0, braze_softening: 620 degC}\n")),
      (Messages{"well.yaml:11:29: models.roughness_impacts: \"m\" is not a unit of a number per length; "
                "write 1 1/m or 0.3 1/ft",
                "well.yaml:11:48: models.packed_share: \"0\" is out of range; it must be from 0.001 to "
                "1",
                "well.yaml:11:68: models.braze_softening: braze must soften before it melts: the highest "
                "braze_softening lies above the lowest braze_solidus"}));
}

}  // namespace
}  // namespace dullcast::input
