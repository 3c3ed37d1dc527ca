#include "engine/analysis/failure_outlook.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "support/short_scenario.hpp"

namespace dullcast::analysis {
namespace {

/// Seven cutters, three blades; strengths spread by 0.15, the body's by 0.1.
simulation::RunOutcome quiet_run() {
  simulation::RunOutcome outcome;
  const Eigen::Index n = testing::short_scenario().bit.layout.count();
  outcome.end.worn_height = outcome.end.heat_damage = outcome.end.chip_hazard = outcome.end.pocket_load =
      outcome.end.bond_load = Eigen::ArrayXd::Zero(n);
  return outcome;
}

const FailureOutlook& find(const std::vector<FailureOutlook>& all, FailureKind kind) {
  return *std::find_if(all.begin(), all.end(), [&](const FailureOutlook& one) { return one.kind == kind; });
}

TEST(FailureOutlook, NothingLoadedNothingFails) {
  const auto all = failure_outlook(testing::short_scenario(), quiet_run());
  ASSERT_EQ(all.size(), 5U);
  for (const FailureOutlook& one : all) {
    EXPECT_EQ(one.probability, 0.0);
    EXPECT_FALSE(one.happened);
    EXPECT_EQ(one.cutter, -1);
  }
}

/// Normal tables: Phi(-1) = 0.158655, Phi(-2) = 0.022750.
TEST(FailureOutlook, AnyOfSeveralPocketsAddsUpAsIndependentProbabilities) {
  simulation::RunOutcome outcome = quiet_run();
  outcome.end.pocket_load(2) = std::exp(-2.0 * 0.15);
  outcome.end.pocket_load(5) = std::exp(-1.0 * 0.15);
  const auto all = failure_outlook(testing::short_scenario(), outcome);
  EXPECT_EQ(all.front().kind, FailureKind::cutter_lost);
  EXPECT_EQ(all.front().cutter, 5);
  EXPECT_NEAR(all.front().probability, 1.0 - (1.0 - 0.158655) * (1.0 - 0.022750), 1e-5);
}

TEST(FailureOutlook, ChipsCountTheHazardGainedSinceTheStart) {
  scenario::Scenario s = testing::short_scenario();
  s.bit.starting_chip_hazard = Eigen::ArrayXd::Constant(s.bit.layout.count(), 0.5);
  simulation::RunOutcome outcome = quiet_run();
  outcome.end.chip_hazard.setConstant(0.5);
  outcome.end.chip_hazard(3) = 0.7;
  const auto all = failure_outlook(s, outcome);
  EXPECT_NEAR(find(all, FailureKind::chip).probability, 1.0 - std::exp(-0.2), 1e-12);
  EXPECT_EQ(find(all, FailureKind::chip).cutter, 3);
}

TEST(FailureOutlook, WhatHappenedComesFirstInItsOrder) {
  simulation::RunOutcome outcome = quiet_run();
  outcome.end.bond_load(0) = 0.9;
  simulation::Event lost, chip;
  lost.kind = simulation::EventKind::cutter_lost;
  lost.cutter = 4;
  lost.hole = 2;
  lost.footage = 12.0;
  chip.kind = simulation::EventKind::chip;
  chip.cutter = 1;
  chip.footage = 13.0;
  outcome.events = {lost, chip, chip};
  const auto all = failure_outlook(testing::short_scenario(), outcome);
  ASSERT_EQ(all.size(), 5U);
  EXPECT_EQ(all[0].kind, FailureKind::cutter_lost);
  EXPECT_TRUE(all[0].happened);
  EXPECT_EQ(all[0].cutter, 4);
  EXPECT_EQ(all[0].hole, 2);
  EXPECT_EQ(all[1].kind, FailureKind::chip);
  EXPECT_EQ(all[1].times, 2);
  EXPECT_EQ(all[2].kind, FailureKind::table_lost);
  // What came after rework fell due is no part of it.
  outcome.rework_due = simulation::Milestone{};
  outcome.rework_due->footage = 12.5;
  outcome.rework_due->condition = outcome.end;
  const auto due = failure_outlook(testing::short_scenario(), outcome);
  EXPECT_TRUE(due[0].happened);
  EXPECT_FALSE(find(due, FailureKind::chip).happened);
}

TEST(FailureOutlook, TheBladesShareTheirGreatestLoad) {
  simulation::RunOutcome outcome = quiet_run();
  outcome.end.blade_load = std::exp(-2.0 * 0.1);
  const auto all = failure_outlook(testing::short_scenario(), outcome);
  EXPECT_NEAR(find(all, FailureKind::blade_sheared).probability, 1.0 - std::pow(1.0 - 0.022750, 3.0), 1e-5);
}

}  // namespace
}  // namespace dullcast::analysis
