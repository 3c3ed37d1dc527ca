#include "engine/analysis/survival_without_flow.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "engine/analysis/layer_hole.hpp"
#include "models/common/constants.hpp"
#include "support/short_scenario.hpp"

namespace dullcast::analysis {
namespace {

/// Hard sandstone under a heavy hand, from 30 m down; water stands in the hole up to `level` (m deep).
scenario::Scenario hot_work(double level) {
  scenario::Scenario s = testing::short_scenario();
  s.stepping.relative_tolerance = 1e-2;
  testing::give_one_layer(s, 40.0, samples::invented_rock("hard sandstone", 110e6, 3.0));
  s.column.layers[0].top = 30.0;
  s.plan[0].from = 30.0;
  s.plan[0].weight_on_bit = 30e3;
  s.plan[0].rotary_speed = 2.0;
  s.column.water_level = level;
  return s;
}

Survival survive(const scenario::Scenario& s) {
  return survive_without_flow(s, 0, starting_condition(s));
}

void expect_same(const Survival& a, const Survival& b) {
  EXPECT_EQ(a.end, b.end);
  EXPECT_EQ(a.time, b.time);
  EXPECT_EQ(a.cutter, b.cutter);
  EXPECT_EQ(a.hottest, b.hottest);
  EXPECT_EQ(a.steady_temperature, b.steady_temperature);
  EXPECT_EQ(a.standstill, b.standstill);
  for (std::size_t k = 0; k < a.after.size(); ++k) {
    EXPECT_TRUE(a.after[k] == b.after[k] || (std::isnan(a.after[k]) && std::isnan(b.after[k])));
  }
}

TEST(Survival, FlatsGrowHotterWithoutFlow) {
  const Survival survival = survive(hot_work(1000.0));
  ASSERT_NE(survival.end, SurvivalEnd::does_not_drill);
  ASSERT_NE(survival.end, SurvivalEnd::fails_with_flow);
  EXPECT_GT(survival.steady_temperature, 15.0 + celsius_zero);
  EXPECT_GT(survival.hottest, survival.steady_temperature + 10.0);
  EXPECT_GT(survival.after[0], survival.steady_temperature);
  EXPECT_GT(survival.time, 0.0);
  EXPECT_LE(survival.time, survival_limit * (1.0 + 1e-9));
  EXPECT_GE(survival.depth, 30.0);
  EXPECT_NEAR(survival.weight, 30e3, 1.0);
}

/// The row of a layer that is drilled through in less than the lead lies in that layer all the same.
TEST(Survival, ThePumpStopsInsideTheLayerHoweverThinItIs) {
  scenario::Scenario s = hot_work(1000.0);
  for (const double thickness : {10.0, 0.5, 0.05}) {
    s.column.layers[0].bottom = s.plan[0].to = 30.0 + thickness;
    const Survival survival = survive(s);
    ASSERT_NE(survival.end, SurvivalEnd::does_not_drill);
    EXPECT_GT(survival.depth, 30.0);
    EXPECT_LT(survival.depth, 30.0 + thickness) << thickness;
    EXPECT_GT(survival.hottest, survival.steady_temperature + 10.0);
  }
}

/// Water that stands over the bit boils at a higher temperature and falls back as it boils away: a dry hole
/// is at least as hot after any time, and hotter once its water is gone.
TEST(Survival, StandingWaterKeepsABitCoolerThanADryHole) {
  const Survival dry = survive(hot_work(1000.0)), wet = survive(hot_work(0.0));
  ASSERT_TRUE(dry.dry || dry.end != SurvivalEnd::outlives);
  EXPECT_FALSE(wet.dry && *wet.dry < dry.dry.value_or(dry.time));
  EXPECT_TRUE(wet.time > dry.time || wet.hottest < dry.hottest)
      << wet.time << " s, " << wet.hottest << " K against " << dry.time << " s, " << dry.hottest << " K";
}

TEST(Survival, MoreWeightAndSpeedIsHotterSooner) {
  scenario::Scenario hard = hot_work(0.0);
  hard.plan[0].weight_on_bit = 40e3;
  hard.plan[0].rotary_speed = 3.0;
  const Survival easy = survive(hot_work(0.0)), heavy = survive(hard);
  EXPECT_GT(heavy.steady_temperature, easy.steady_temperature);
  EXPECT_TRUE(std::isnan(heavy.after[0]) || heavy.after[0] > easy.after[0]);
}

TEST(Survival, SoftRockAtAGentleHandOutlivesTheTrial) {
  scenario::Scenario s = hot_work(0.0);
  s.column.layers[0].rock = samples::invented_rock("shale", 15e6, 0.3);
  s.plan[0].weight_on_bit = 3e3;
  s.plan[0].rotary_speed = 0.5;
  const Survival survival = survive(s);
  EXPECT_EQ(survival.end, SurvivalEnd::outlives);
  EXPECT_EQ(survival.cutter, -1);
  EXPECT_GT(survival.time, 0.8 * survival_limit);
  EXPECT_LE(survival.time, survival_limit * (1.0 + 1e-9));
}

TEST(Survival, NoWeightDoesNotDrill) {
  scenario::Scenario s = hot_work(0.0);
  s.plan[0].weight_on_bit = 0.0;
  EXPECT_EQ(survive(s).end, SurvivalEnd::does_not_drill);
}

TEST(Survival, ABitThatBurnsWithTheFlowOnIsSaidSo) {
  scenario::Scenario s = testing::burning_scenario();
  s.stepping.relative_tolerance = 1e-2;
  EXPECT_EQ(survive(s).end, SurvivalEnd::fails_with_flow);
}

TEST(Survival, WhatIsAlreadyBrokenIsNotTheFirstToGo) {
  // Eighteen cutters overlap, so that neighbours take over where one is lost.
  scenario::Scenario s = hot_work(0.0);
  testing::give_layout(s, samples::invented_blade_plan(), samples::invented_shape());
  simulation::BitCondition broken = starting_condition(s);
  broken.heat_damage(0) = 1.0;
  broken.lost = Eigen::ArrayXi::Zero(s.bit.layout.count());
  broken.lost(9) = 1;
  const Survival survival = survive_without_flow(s, 0, broken);
  EXPECT_NE(survival.end, SurvivalEnd::fails_with_flow);
  EXPECT_NE(survival.end, SurvivalEnd::does_not_drill);
  EXPECT_NE(survival.cutter, 0);
  EXPECT_NE(survival.cutter, 9);
}

TEST(Survival, TheScenariosMishapsAndChanceDoNotMatter) {
  scenario::Scenario s = hot_work(0.0);
  const Survival plain = survive(s);
  scenario::Upset upset;
  upset.from = 30.01;
  upset.lasts = 60.0;
  upset.weight_on_bit = 60e3;
  s.upsets = {upset};
  s.random_events = {true, 12};
  s.repeat.holes = 50;
  s.repeat.connection_every = 0.1;
  s.rules.worn_height = 1e-9;
  expect_same(survive(s), plain);
}

TEST(Survival, EveryLayerInOrderAndTheSameOnTwoThreads) {
  scenario::Scenario s = testing::short_scenario();
  s.stepping.relative_tolerance = 1e-2;
  const simulation::BitCondition start = starting_condition(s);
  double told = 0.0;
  const auto one = survive_without_flow(s, start, 1, [&](double done, double all) { told = done / all; });
  const auto two = survive_without_flow(s, start, 2);
  EXPECT_EQ(told, 1.0);
  ASSERT_EQ(one.size(), 2U);
  ASSERT_EQ(two.size(), 2U);
  for (int k = 0; k < 2; ++k) {
    EXPECT_EQ(one[static_cast<std::size_t>(k)].layer, k);
    EXPECT_EQ(one[static_cast<std::size_t>(k)].rock, s.column.layers[static_cast<std::size_t>(k)].rock.name);
    expect_same(one[static_cast<std::size_t>(k)], two[static_cast<std::size_t>(k)]);
  }
}

TEST(LayerHole, KeepsTheLayersTopAndTheMiddlesSettings) {
  scenario::Scenario s = testing::short_scenario();  // limestone to 3 m, sandstone to 5 m
  scenario::OperatingInterval below = s.plan[0];
  below.from = s.plan[0].to = 3.5;
  below.to = 5.0;
  below.rotary_speed = 1.0;
  s.plan.push_back(below);
  const LayerHole hole = layer_hole(s, 1, starting_condition(s), 100.0);
  ASSERT_EQ(hole.scenario.column.layers.size(), 1U);
  EXPECT_EQ(hole.scenario.column.layers[0].rock.name, "sandstone");
  EXPECT_EQ(hole.scenario.column.layers[0].top, 3.0);
  ASSERT_EQ(hole.scenario.plan.size(), 1U);
  EXPECT_EQ(hole.scenario.plan[0].rotary_speed, 1.0);
  EXPECT_GT(hole.rate_of_penetration, 0.0);
  EXPECT_NEAR(hole.scenario.column.layers[0].bottom - 3.0, 100.0 * hole.rate_of_penetration, 1e-12);
  EXPECT_THROW(layer_hole(s, 2, starting_condition(s), 100.0), std::out_of_range);
}

TEST(LayerHole, HalfWornHalvesWhatWearsAndKeepsWhatIsLost) {
  simulation::BitCondition bit;
  bit.worn_height = Eigen::ArrayXd::Constant(3, 2e-3);
  bit.heat_damage = Eigen::ArrayXd::Constant(3, 0.4);
  bit.chip_hazard = Eigen::ArrayXd::Constant(3, 0.2);
  bit.lost = Eigen::ArrayXi::Constant(3, 1);
  bit.eroded = 1e-3;
  const simulation::BitCondition half = half_worn(bit);
  EXPECT_EQ(half.worn_height(1), 1e-3);
  EXPECT_EQ(half.heat_damage(1), 0.2);
  EXPECT_EQ(half.chip_hazard(1), 0.1);
  EXPECT_EQ(half.lost(1), 1);
  EXPECT_EQ(half.eroded, 0.5e-3);
}

}  // namespace
}  // namespace dullcast::analysis
