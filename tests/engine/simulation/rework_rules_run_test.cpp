// The rules that look at chips, lost cutters and hole size fall due at their own value.

#include <gtest/gtest.h>

#include <cmath>

#include "engine/simulation/outcome_views.hpp"
#include "engine/simulation/run.hpp"
#include "support/short_scenario.hpp"

namespace dullcast::simulation {
namespace {

using samples::exactly;
using testing::events_of;
using testing::first_event;
using testing::used;

scenario::Scenario with_no_rule(scenario::Scenario s) {
  s.rules.worn_height.reset();
  s.repeat.stop_at = scenario::StopAt::rework_due;
  return s;
}

TEST(ReworkRules, ChipProbabilityFallsDueAtItsValue) {
  for (const double limit : {0.05, 0.2, 0.6}) {
    scenario::Scenario s = with_no_rule(testing::short_scenario());
    s.bit.kinds.front().grade.edge_strength = samples::exactly(1.3e9);
    s.rules.chip_probability = limit;
    s.repeat.holes = 20;
    const RunOutcome outcome = run(s);
    ASSERT_TRUE(outcome.rework_due.has_value()) << limit;
    EXPECT_EQ(outcome.rework_due->rule, "chip_probability");
    EXPECT_NEAR(1.0 - std::exp(-outcome.end.chip_hazard.maxCoeff()), limit, 1e-8);
    EXPECT_NEAR(used(outcome, "chip_probability"), 1.0, 1e-7);
    Eigen::Index worst = 0;
    outcome.end.chip_hazard.maxCoeff(&worst);
    EXPECT_EQ(outcome.rework_due->cutters.front(), static_cast<int>(worst));
  }
}

TEST(ReworkRules, GaugeLossFallsDueAtItsValue) {
  for (const double limit : {0.1e-3, 0.4e-3}) {
    scenario::Scenario s = with_no_rule(testing::fast_wearing_scenario());
    s.rules.gauge_loss = limit;
    s.repeat.holes = 9;
    const RunOutcome outcome = run(s);
    ASSERT_TRUE(outcome.rework_due.has_value()) << limit;
    EXPECT_EQ(outcome.rework_due->rule, "gauge_loss");
    EXPECT_NEAR(outcome.end.gauge_loss, limit, 1e-9);
    EXPECT_NEAR(outcome.rework_due->condition.gauge_loss, limit, 1e-9);
    EXPECT_NEAR(used(outcome, "gauge_loss"), 1.0, 1e-5);
    EXPECT_TRUE(outcome.rework_due->cutters.empty()) << "it is about the whole bit";
  }
}

TEST(ReworkRules, LostCuttersFallDueWithTheLoss) {
  scenario::Scenario s = with_no_rule(testing::short_scenario());
  s.repeat.connection_time = 0.0;
  s.numbers.braze_strength = samples::exactly(230e6 * run(s).end.pocket_load.maxCoeff() * 1.05);
  s.rules.lost_cutters = 1.0;
  EXPECT_FALSE(run(s).rework_due.has_value());
  scenario::Upset spike;
  spike.from = 2.0;
  spike.lasts = 2.0;
  spike.weight_on_bit = 26e3;
  s.upsets = {spike};
  const RunOutcome outcome = run(s);
  ASSERT_TRUE(outcome.rework_due.has_value());
  EXPECT_EQ(outcome.ended_by, EndedBy::rework_due);
  EXPECT_EQ(outcome.rework_due->rule, "lost_cutters");
  const Event lost = first_event(outcome, EventKind::cutter_lost);
  EXPECT_EQ(first_event(outcome, EventKind::rework_due).time, lost.time);
  EXPECT_EQ(outcome.rework_due->condition.lost(lost.cutter), 1);
  EXPECT_EQ(outcome.rework_due->cutters, std::vector<int>{lost.cutter});
  // Two lost cutters are asked for: one is half of the allowance.
  s.rules.lost_cutters = 7.0;
  s.repeat.stop_at = scenario::StopAt::last_hole;
  const RunOutcome goes_on = run(s);
  EXPECT_NEAR(used(goes_on, "lost_cutters"), goes_on.end.lost.sum() / 7.0, 1e-12);
}

// A cutter that is gone no longer wears, so that it cannot call for rework by its height; in the dull grade
// it counts as worn away (SPE 23939, 1992 [pub]).
TEST(ReworkRules, ALostCutterCountsInTheDullGradeAndNotInTheHeights) {
  scenario::Scenario s = testing::short_scenario();
  s.rules.outer_dull_grade = 4.0;
  s.bit.starting_wear(6) = 3.9e-3;
  s.bit.starting_lost = Eigen::ArrayXi::Zero(7);
  s.bit.starting_lost(6) = 1;
  s.repeat.stop_at = scenario::StopAt::last_hole;
  const RunOutcome outcome = run(s);
  EXPECT_LT(used(outcome, "worn_height") * 4e-3, 1e-3);
  int outer = 0;
  for (Eigen::Index i = 0; i < 7; ++i) outer += s.bit.layout.radius(i) > 2.0 / 3.0 * 0.06 ? 1 : 0;
  EXPECT_NEAR(outcome.end.outer_dull_grade.value(), 8.0 / outer, 0.05);
}

TEST(ReworkRules, ErodedPocketsPassRepair) {
  scenario::Scenario s = testing::short_scenario();
  s.rules.worn_height.reset();
  s.rules.beyond_repair_share = 0.5;
  s.repeat.stop_at = scenario::StopAt::beyond_repair;
  const double pocket_depth = 2.0 * 6.5e-3 - 8e-3;  // diameter less exposure
  s.bit.starting_erosion = 0.5 * pocket_depth - 1e-9;
  s.repeat.holes = 50;
  const RunOutcome outcome = run(s);
  ASSERT_TRUE(outcome.beyond_repair.has_value());
  EXPECT_EQ(outcome.ended_by, EndedBy::beyond_repair);
  EXPECT_NEAR(outcome.end.eroded, 0.5 * pocket_depth, 1e-10);
}

}  // namespace
}  // namespace dullcast::simulation
