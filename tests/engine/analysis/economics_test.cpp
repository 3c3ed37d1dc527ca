#include "engine/analysis/economics.hpp"

#include <gtest/gtest.h>

#include "support/short_scenario.hpp"

namespace dullcast::analysis {
namespace {

constexpr double hour = 3600.0;

scenario::Scenario priced() {
  scenario::Scenario s = testing::short_scenario();
  s.repeat.trip_time = 0.5 * hour;
  s.costs.bit = 1900.0;
  s.costs.rig_per_second = 85.0 / hour;
  s.costs.rework = 420.0;
  s.costs.replacement = 1900.0;
  s.costs.fuel_energy = 36e9;
  s.costs.engine_efficiency = 0.25;
  return s;
}

/// 500 m in 20 h of rotating and 40 h in all; rework fell due at 300 m after 10 h of rotating, 24 h in all.
simulation::RunOutcome drilled(bool due) {
  simulation::RunOutcome outcome;
  outcome.footage = 500.0;
  outcome.rotating_time = 20.0 * hour;
  outcome.elapsed_time = 40.0 * hour;
  outcome.energy = 1.8e9;
  if (due) {
    outcome.rework_due = simulation::Milestone{};
    outcome.rework_due->footage = 300.0;
    outcome.rework_due->rotating_time = 10.0 * hour;
    outcome.rework_due->elapsed_time = 24.0 * hour;
    outcome.rework_due->energy = 0.9e9;
  }
  return outcome;
}

TEST(RunCost, IsToReworkWhereItFellDue) {
  const auto cost = run_cost(priced(), drilled(true));
  ASSERT_TRUE(cost);
  EXPECT_EQ(cost->footage, 300.0);
  // 1900 $ + 24 h and the half-hour trip still to come at 85 $/h = 3982.50 $ over 300 m.
  EXPECT_NEAR(cost->per_metre, 3982.5 / 300.0, 1e-12);
  EXPECT_NEAR(cost->rig, 2082.5, 1e-10);
  EXPECT_EQ(cost->energy, 0.9e9);
  // 900 MJ from fuel of 36 MJ/L of which a quarter reaches the bit: 9 MJ/L, 100 L.
  EXPECT_NEAR(cost->fuel, 0.1, 1e-15);
  ASSERT_TRUE(cost->waiting);
  EXPECT_NEAR(*cost->waiting, 1480.0, 1e-10);
}

TEST(RunCost, IsToTheEndWhereItDidNot) {
  const auto cost = run_cost(priced(), drilled(false));
  ASSERT_TRUE(cost);
  EXPECT_EQ(cost->footage, 500.0);
  // 1900 $ + 40 h at 85 $/h = 5300 $ over 500 m.
  EXPECT_NEAR(cost->per_metre, 10.6, 1e-13);
  EXPECT_NEAR(cost->rig, 3400.0, 1e-10);
  EXPECT_NEAR(cost->fuel, 0.2, 1e-15);
}

TEST(RunCost, NothingDrilledHasNoCostPerMetre) {
  simulation::RunOutcome outcome = drilled(false);
  outcome.footage = 0.0;
  EXPECT_FALSE(run_cost(priced(), outcome));
}

TEST(RunCost, WhatIsNotPricedIsNotInvented) {
  scenario::Scenario s = priced();
  s.costs.fuel_energy = 0.0;
  s.costs.rework = s.costs.replacement = 0.0;
  auto cost = run_cost(s, drilled(true));
  ASSERT_TRUE(cost);
  EXPECT_EQ(cost->fuel, 0.0);
  EXPECT_FALSE(cost->waiting);
  s.costs = scenario::Costs{};
  cost = run_cost(s, drilled(true));
  ASSERT_TRUE(cost);
  EXPECT_EQ(cost->per_metre, 0.0);
  EXPECT_EQ(cost->rig, 0.0);
  EXPECT_EQ(cost->energy, 0.9e9);
}

TEST(CompareMethods, IsMetreAgainstMetre) {
  scenario::Scenario s = priced();
  scenario::OtherMethod hammer;
  hammer.name = "air hammer";
  hammer.rate_of_penetration = 20.0 / hour;
  hammer.power = 150e3;
  hammer.consumables = 1.2;
  hammer.rig_per_second = 95.0 / hour;
  s.other_method = hammer;
  const auto compared = compare_methods(s, drilled(false));
  ASSERT_TRUE(compared);
  // 20 h of drilling and 20 h of rods and trips over 500 m; the hammer drills 20 m/h with the same idle time.
  EXPECT_NEAR(compared->bit.rotating, 144.0, 1e-9);
  EXPECT_NEAR(compared->bit.elapsed, 288.0, 1e-9);
  EXPECT_NEAR(compared->other.rotating, 180.0, 1e-9);
  EXPECT_NEAR(compared->other.elapsed, 324.0, 1e-9);
  // 1.8 GJ at the bit over 500 m at an efficiency of a quarter; 150 kW for 3 min a metre.
  EXPECT_TRUE(compared->fuel_known);
  EXPECT_NEAR(compared->bit.fuel_heat, 14.4e6, 1e-3);
  EXPECT_NEAR(compared->other.fuel_heat, 27e6, 1e-3);
  EXPECT_NEAR(compared->bit.money, 10.6, 1e-12);
  EXPECT_NEAR(compared->other.money, 1.2 + 95.0 * 324.0 / 3600.0, 1e-12);
}

TEST(CompareMethods, NothingToCompareWith) {
  scenario::Scenario s = priced();
  EXPECT_FALSE(compare_methods(s, drilled(true)));
  s.other_method = scenario::OtherMethod{};
  EXPECT_FALSE(compare_methods(s, drilled(true)));  // it has no rate
  s.other_method->rate_of_penetration = 1e-3;
  s.costs.engine_efficiency = 0.0;
  ASSERT_TRUE(compare_methods(s, drilled(true)));
  EXPECT_FALSE(compare_methods(s, drilled(true))->fuel_known);
  simulation::RunOutcome none = drilled(false);
  none.footage = 0.0;
  EXPECT_FALSE(compare_methods(s, none));
}

}  // namespace
}  // namespace dullcast::analysis
