#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "engine/analysis/forecast.hpp"
#include "engine/analysis/uncertain_scenario.hpp"
#include "engine/simulation/run.hpp"

namespace dullcast::analysis {
namespace {

using testing::between;
using testing::slow_cold_scenario;
using testing::worn_evenly;

TEST(NumberAt, MeetsLowCentralAndHigh) {
  for (const scenario::Quantity& q :
       {between(2.0, 3.0, 7.0), between(0.0, 3.0, 7.0), between(-4.0, -1.0, 5.0)}) {
    EXPECT_DOUBLE_EQ(number_at(q, -1.0), q.low);
    EXPECT_EQ(number_at(q, 0.0), q.central);
    EXPECT_DOUBLE_EQ(number_at(q, 1.0), q.high);
  }
}

TEST(NumberAt, GoesByPowersWhereAllIsPositive) {
  const scenario::Quantity q = between(2.0, 8.0, 18.0);
  EXPECT_DOUBLE_EQ(number_at(q, -0.5), 4.0);
  EXPECT_DOUBLE_EQ(number_at(q, 0.5), 12.0);
  EXPECT_DOUBLE_EQ(number_at(q, -2.0), 0.5);
  EXPECT_DOUBLE_EQ(number_at(q, 2.0), 40.5);
}

TEST(NumberAt, GoesByStraightLinesFromZeroOrBelow) {
  const scenario::Quantity q = between(-3.0, 1.0, 2.0);
  EXPECT_DOUBLE_EQ(number_at(q, -0.5), -1.0);
  EXPECT_DOUBLE_EQ(number_at(q, 0.5), 1.5);
  EXPECT_DOUBLE_EQ(number_at(q, 3.0), 4.0);
  EXPECT_DOUBLE_EQ(number_at(between(0.0, 1.0, 4.0), -0.25), 0.75);
}

TEST(NumberAt, ACertainNumberStaysPut) {
  for (const double at : {-1.3, 0.0, 0.7}) EXPECT_EQ(number_at(samples::exactly(5.5), at), 5.5);
}

const NumberEffect* effect_of(const std::vector<NumberEffect>& effects, const std::string& name) {
  const auto found = std::find_if(effects.begin(), effects.end(),
                                  [&](const NumberEffect& effect) { return effect.name == name; });
  return found == effects.end() ? nullptr : &*found;
}

/// Cold wear of a height is w_0 CAI^n P v / wear resistance: the logarithm is linear in each logarithm, so
/// the slopes are known. 1 %: the slopes' runs are stepped to 1e-2 each, and wear in a hole feeds back on
/// forces.
TEST(NumberEffects, ColdWearIsAProductOfPowers) {
  scenario::Scenario s = slow_cold_scenario(2.5);
  s.numbers.abrasion_coefficient = between(2e-19, 1e-18, 8e-18);
  s.numbers.abrasivity_exponent = between(1.0, 1.5, 2.2);
  s.bit.kinds.front().grade.wear_resistance = between(0.8, 1.0, 1.3);
  s.column.layers[0].rock.cerchar_abrasivity = between(2.0, 2.5, 3.4);
  const std::vector<NumberEffect> effects = number_effects(s, worn_evenly(s, 0.5e-3), "worn_height", {});
  ASSERT_EQ(effects.size(), 4U);  // the numbers with low = high are not among them
  const auto expect_slope = [&](const std::string& name, double slope) {
    const NumberEffect* effect = effect_of(effects, name);
    ASSERT_NE(effect, nullptr) << name;
    EXPECT_NEAR(effect->slope, slope, 0.01 * std::abs(slope)) << name;
  };
  expect_slope("abrasion_coefficient", 0.5 * std::log(8e-18 / 2e-19));
  expect_slope("abrasivity_exponent", 0.5 * (2.2 - 1.0) * std::log(2.5));
  expect_slope("grade test grade: wear_resistance", -0.5 * std::log(1.3 / 0.8));
  expect_slope("rock sandstone: cerchar_abrasivity", 1.5 * 0.5 * std::log(3.4 / 2.0));
}

TEST(NumberEffects, TheRuleSaysWhichWear) {
  scenario::Scenario s = testing::burning_scenario();
  s.stepping.relative_tolerance = 1e-2;
  testing::give_one_layer(s, 0.2, s.column.layers[0].rock);
  // Hot enough to hurt the diamond (740 C) and not so hot that a table is ruined on the way.
  s.plan[0].weight_on_bit = 37e3;
  s.plan[0].rotary_speed = 5.2;
  s.plan[0].flow = 4e-3;
  // Moving both points of the damage law by one factor moves damage by that factor, and nothing else.
  s.numbers.damage_seconds_at_750 = between(30.0, 60.0, 120.0);
  const simulation::BitCondition sharp = worn_evenly(s, 0.1e-3);
  const auto slope = [&](const std::string& rule) {
    return number_effects(s, sharp, rule, {}).front().slope;
  };
  EXPECT_LT(slope("heat_damage"), -0.05);
  // Damage has a say in the steps, and so moves wear by a little of their error (tolerance 1e-2).
  EXPECT_NEAR(slope("worn_height"), 0.0, 1e-4);
  EXPECT_NEAR(slope("outer_dull_grade"), 0.0, 1e-4);
}

TEST(NumberEffects, MeasuredFromTheOtherEndWhereOneEndStopsTheBit) {
  scenario::Scenario s = slow_cold_scenario(2.5);
  scenario::Quantity& strength = s.column.layers[0].rock.unconfined_strength;
  strength = between(40e6, 50e6, 5e9);
  s.rules.least_progress = 1.0 / 3600.0;
  const simulation::BitCondition start = worn_evenly(s, 0.5e-3);
  const double slope = number_effects(s, start, "outer_dull_grade", {}).front().slope;

  s.bit.starting_wear = start.worn_height;
  s.repeat.connection_time = 0.0;  // slopes are measured without the time that rods take
  s.stepping.relative_tolerance = ForecastOptions{}.slope_tolerance;
  const auto log_wear = [&](double at) {
    strength.central = at;
    const simulation::RunOutcome outcome = simulation::run(s);
    EXPECT_EQ(outcome.ended_by,
              at < 1e9 ? simulation::EndedBy::last_hole : simulation::EndedBy::stopped_drilling);
    double sum = 0.0;
    for (Eigen::Index i = 0; i < start.worn_height.size(); ++i) {
      if (s.bit.layout.radius(i) > 2.0 / 3.0 * s.bit.layout.bit_radius)
        sum += outcome.end.worn_height(i) - start.worn_height(i);
    }
    return std::log(sum);
  };
  EXPECT_NEAR(slope, log_wear(50e6) - log_wear(40e6), 1e-12);
  log_wear(5e9);
}

TEST(NumberEffects, ABitThatNeverDrillsTellsNothing) {
  scenario::Scenario s = slow_cold_scenario(2.5);
  s.rules.least_progress = 1e3;
  s.numbers.abrasion_coefficient = between(1e-19, 1e-18, 1e-17);
  EXPECT_EQ(number_effects(s, worn_evenly(s, 0.5e-3), "worn_height", {}).front().slope, 0.0);
}

TEST(NumberEffects, NothingUncertainHasNoEffects) {
  const scenario::Scenario s = slow_cold_scenario(2.5);
  EXPECT_TRUE(number_effects(s, worn_evenly(s, 0.0), "worn_height", {}).empty());
}

/// Strengths say nothing about the wear of a bit on which nothing breaks.
TEST(NumberEffects, StrengthsOfWhatHoldsDoNotMatter) {
  scenario::Scenario s = slow_cold_scenario(2.5);
  s.numbers.weibull_modulus = between(8.0, 10.0, 12.0);
  s.numbers.braze_strength = between(200e6, 230e6, 260e6);
  s.bit.kinds.front().grade.bond_strength = between(350e6, 400e6, 450e6);
  s.bit.kinds.front().grade.wear_resistance = between(0.8, 1.0, 1.3);
  const std::vector<NumberEffect> effects = number_effects(s, worn_evenly(s, 0.5e-3), "worn_height", {});
  ASSERT_EQ(effects.size(), 4U);
  for (const NumberEffect& effect : effects) {
    if (effect.name == "grade test grade: wear_resistance")
      EXPECT_LT(effect.slope, -0.1);
    else
      EXPECT_EQ(effect.slope, 0.0) << effect.name;
  }
}

/// Where the rule looks at the probability of a chip they do: a hazard of impacts goes with their number.
TEST(NumberEffects, ChipRiskFollowsTheNumberOfImpacts) {
  scenario::Scenario s = slow_cold_scenario(2.5);
  s.repeat.connection_time = 0.0;  // setting down on bottom again strikes edges too
  s.numbers.roughness_impacts = between(0.5, 1.0, 2.0);
  s.numbers.braze_strength = between(200e6, 230e6, 260e6);
  s.bit.kinds.front().grade.bond_strength = between(350e6, 400e6, 450e6);
  simulation::BitCondition start = worn_evenly(s, 0.5e-3);
  start.chip_hazard = Eigen::ArrayXd::Constant(s.bit.layout.count(), 0.1);
  const std::vector<NumberEffect> effects = number_effects(s, start, "chip_probability", {});
  const NumberEffect* impacts = effect_of(effects, "roughness_impacts");
  ASSERT_NE(impacts, nullptr);
  // The gain is in proportion; it is a difference from 0.1, which costs its last figures.
  EXPECT_NEAR(impacts->slope, std::log(2.0), 0.02);
  EXPECT_EQ(effect_of(effects, "braze_strength")->slope, 0.0);
}

/// A group that matters costs runs of its own numbers only: strengths of seats are not tried one by one where
/// it is the impacts on edges that matter.
TEST(NumberEffects, OnlyTheGroupThatMattersIsTriedOneByOne) {
  scenario::Scenario s = slow_cold_scenario(2.5);
  s.repeat.connection_time = 0.0;
  s.numbers.roughness_impacts = between(0.5, 1.0, 2.0);
  s.numbers.braze_strength = between(200e6, 230e6, 260e6);
  s.numbers.braze_softening = between(0.4, 0.5, 0.6);
  s.bit.kinds.front().grade.bond_strength = between(350e6, 400e6, 450e6);
  simulation::BitCondition start = worn_evenly(s, 0.5e-3);
  start.chip_hazard = Eigen::ArrayXd::Constant(s.bit.layout.count(), 0.1);
  EffectOptions options;
  RunsAhead announced;
  options.announce = [&](const RunsAhead& ahead) { announced = ahead; };
  const std::vector<NumberEffect> effects = number_effects(s, start, "chip_probability", options);
  EXPECT_EQ(announced.runs, 2) << "the impacts at both ends; three numbers of seats were moved together";
  EXPECT_GT(effect_of(effects, "roughness_impacts")->slope, 0.1);
  for (const char* name : {"braze_strength", "braze_softening"})
    EXPECT_EQ(effect_of(effects, name)->slope, 0.0) << name;
}

/// What a run's own mishaps and draws did to it is no part of what every hole does.
TEST(NumberEffects, OneHolesMishapsAndDrawsAreLeftOut) {
  scenario::Scenario s = slow_cold_scenario(2.5);
  s.numbers.flat_friction = between(0.3, 0.4, 0.5);
  s.bit.kinds.front().grade.wear_resistance = between(0.8, 1.0, 1.3);
  const auto plain = number_effects(s, worn_evenly(s, 0.5e-3), "worn_height", {});
  scenario::Upset upset;
  upset.from = 1.0;
  upset.lasts = 300.0;
  upset.hole = 0;
  upset.weight_on_bit = 1e3;
  s.upsets = {upset};
  s.random_events = {true, 3};
  const auto same = number_effects(s, worn_evenly(s, 0.5e-3), "worn_height", {});
  ASSERT_EQ(plain.size(), same.size());
  for (std::size_t k = 0; k < plain.size(); ++k) EXPECT_EQ(plain[k].slope, same[k].slope);
}

}  // namespace
}  // namespace dullcast::analysis
