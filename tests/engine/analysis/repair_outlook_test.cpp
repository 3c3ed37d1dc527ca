#include "engine/analysis/repair_outlook.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "support/short_scenario.hpp"

namespace dullcast::analysis {
namespace {

scenario::Scenario priced() {
  scenario::Scenario s = testing::short_scenario();
  s.bit.layout.exposure.setConstant(6e-3);
  s.rules = {};
  s.rules.worn_height = 2e-3;
  s.costs.rework = 100.0;
  s.costs.cutter = 38.0;
  s.costs.pocket = 22.0;
  s.costs.replacement = 1900.0;
  return s;
}

simulation::RunOutcome sound(const scenario::Scenario& s) {
  simulation::RunOutcome outcome;
  const Eigen::Index n = s.bit.layout.count();
  outcome.end.worn_height = outcome.end.heat_damage = outcome.end.chip_hazard = Eigen::ArrayXd::Zero(n);
  outcome.end.lost = outcome.end.chips = outcome.end.table_gone = Eigen::ArrayXi::Zero(n);
  return outcome;
}

TEST(RepairOutlook, ASoundBitNeedsNothing) {
  const RepairOutlook outlook = repair_outlook(priced(), sound(priced()));
  EXPECT_EQ(outlook.plan.kind, condition::RepairClass::none);
  EXPECT_EQ(outlook.plan.cost, 0.0);
}

TEST(RepairOutlook, CuttersPastHalfTheRuleAreReplaced) {
  simulation::RunOutcome outcome = sound(priced());
  outcome.end.worn_height(0) = 1.01e-3;
  outcome.end.worn_height(1) = 0.99e-3;
  RepairOutlook outlook = repair_outlook(priced(), outcome);
  EXPECT_EQ(outlook.plan.kind, condition::RepairClass::replace_cutters);
  EXPECT_EQ(outlook.plan.cutters, 1);
  EXPECT_TRUE(outlook.priced);
  EXPECT_NEAR(outlook.plan.cost, 138.0, 1e-12);
  // Dull grade 1 of 8 is an eighth of 6 mm, less than the rule: half of it is 0.375 mm.
  scenario::Scenario strict = priced();
  strict.rules.outer_dull_grade = 1.0;
  outcome.end.worn_height(2) = 0.38e-3;
  EXPECT_EQ(repair_outlook(strict, outcome).plan.cutters, 3);
}

TEST(RepairOutlook, ALostCutterNeedsItsPocketRebuilt) {
  simulation::RunOutcome outcome = sound(priced());
  outcome.end.lost(3) = 1;
  outcome.end.table_gone(4) = 1;
  const RepairOutlook outlook = repair_outlook(priced(), outcome);
  EXPECT_EQ(outlook.plan.kind, condition::RepairClass::rebuild_pockets);
  EXPECT_EQ(outlook.plan.pockets, 1);
  EXPECT_EQ(outlook.plan.cutters, 2);
  EXPECT_NEAR(outlook.plan.cost, 100.0 + 2 * 38.0 + 22.0, 1e-12);
}

TEST(RepairOutlook, AShearedBladeIsScrapUnlessReworkWasDueBefore) {
  simulation::RunOutcome outcome = sound(priced());
  outcome.ended_by = simulation::EndedBy::blade_sheared;
  EXPECT_EQ(repair_outlook(priced(), outcome).plan.kind, condition::RepairClass::scrap);
  EXPECT_NEAR(repair_outlook(priced(), outcome).plan.cost, 1900.0, 1e-12);
  outcome.rework_due = simulation::Milestone{};
  outcome.rework_due->condition = outcome.end;
  EXPECT_EQ(repair_outlook(priced(), outcome).plan.kind, condition::RepairClass::none);
}

TEST(RepairOutlook, ABitThatIsDueGoesNotOutAsItCameIn) {
  const scenario::Scenario s = priced();
  simulation::BitCondition bit = sound(s).end;
  // Nothing is past the bench's limit of 1 mm; two cutters are worn by more than half of the worst one.
  bit.worn_height.setConstant(0.2e-3);
  bit.worn_height(2) = 0.8e-3;
  bit.worn_height(5) = 0.5e-3;
  ASSERT_EQ(condition::plan_repair(bench_findings(s, bit, false), shop_prices(s.costs)).kind,
            condition::RepairClass::none);
  const condition::RepairPlan plan = repair_when_due(s, bit, false);
  EXPECT_EQ(plan.kind, condition::RepairClass::replace_cutters);
  EXPECT_EQ(plan.cutters, 2);
  EXPECT_TRUE(plan.replaced(2) && plan.replaced(5));
  // Past the limit the limit decides.
  bit.worn_height(2) = 1.9e-3;
  EXPECT_EQ(repair_when_due(s, bit, false).cutters, 1);
  bit.worn_height.setZero();
  EXPECT_EQ(repair_when_due(s, bit, false).kind, condition::RepairClass::none);
}

TEST(RepairOutlook, WithoutPricesNothingIsTooDearAndNothingIsPriced) {
  scenario::Scenario s = priced();
  s.costs = scenario::Costs{};
  simulation::RunOutcome outcome = sound(s);
  outcome.end.worn_height.setConstant(1.9e-3);
  const RepairOutlook outlook = repair_outlook(s, outcome);
  EXPECT_EQ(outlook.plan.kind, condition::RepairClass::replace_cutters);
  EXPECT_FALSE(outlook.priced);
}

TEST(RepairOutlook, ExpectedChipsComeFromTheHazard) {
  simulation::RunOutcome outcome = sound(priced());
  outcome.end.chip_hazard(0) = std::log(2.0);
  outcome.end.chip_hazard(1) = std::log(4.0);
  EXPECT_NEAR(repair_outlook(priced(), outcome).expected_chipped, 0.5 + 0.75, 1e-12);
  scenario::Scenario drawn = priced();
  drawn.random_events.drawn = true;
  EXPECT_EQ(repair_outlook(drawn, outcome).expected_chipped, 0.0);
}

}  // namespace
}  // namespace dullcast::analysis
