#include "models/condition/repair.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <string>

#include "support/numbers.hpp"
#include "support/refusal.hpp"

namespace dullcast::condition {
namespace {

using testing::nan;
// Plain invented prices: a new bit 6,000, a cutter brazed in 80, a pocket 60, 250 to set up.
const RepairCosts costs{250.0, 80.0, 60.0, 6000.0};

BitFindings sound(Eigen::Index cutters = 18) {
  BitFindings found;
  found.worn_share.setConstant(cutters, 0.1);
  found.heat_damage.setZero(cutters);
  found.lost.setZero(cutters);
  found.chipped.setZero(cutters);
  found.at_gauge.setZero(cutters);
  found.at_gauge.tail(4) = 1;
  return found;
}

// Where a shop draws its lines unless it says otherwise [asm]: one that is changed is changed on purpose,
// here too.
TEST(PlanRepair, LimitsAreAsTheyWereChosen) {
  const RepairLimits limits;
  EXPECT_EQ(limits.worn_share, 0.5);
  EXPECT_EQ(limits.pocket_share, 0.25);
  EXPECT_EQ(limits.pocket_share_scrap, 0.75);
  EXPECT_EQ(limits.gauge_loss, 0.8e-3);
  EXPECT_EQ(limits.cost_share, 0.7);
}

TEST(PlanRepair, LeavesASoundBitAlone) {
  const RepairPlan plan = plan_repair(sound(), costs);
  EXPECT_EQ(plan.kind, RepairClass::none);
  EXPECT_EQ(plan.cutters, 0);
  EXPECT_EQ(plan.cost, 0.0);
}

TEST(PlanRepair, FourChippedOfEighteenCostFarLessThanANewBit) {
  // Common practice: repair of a chipped bit costs far less than a new one.
  BitFindings found = sound();
  found.chipped.head(4) = 1;
  const RepairPlan plan = plan_repair(found, costs);
  EXPECT_EQ(plan.kind, RepairClass::replace_cutters);
  EXPECT_EQ(plan.cutters, 4);
  EXPECT_EQ(plan.pockets, 0);
  EXPECT_EQ(plan.cost, 250.0 + 4.0 * 80.0);
  EXPECT_LT(plan.cost, 0.1 * costs.replacement);
}

TEST(PlanRepair, ReplacesWhatIsWornChippedRuinedOrLostOnce) {
  BitFindings found = sound();
  found.worn_share(0) = 0.51;
  found.worn_share(1) = 0.5;  // at the limit, not past it
  found.chipped(2) = 1;
  found.heat_damage(3) = 1.0;
  found.heat_damage(4) = 0.99;
  found.lost(5) = 1;
  found.chipped(5) = 1;
  found.worn_share(5) = std::numeric_limits<double>::infinity();
  const RepairPlan plan = plan_repair(found, costs);
  EXPECT_EQ(plan.cutters, 4);  // 0, 2, 3 and 5
  Eigen::ArrayXi which = Eigen::ArrayXi::Zero(18);
  which(0) = which(2) = which(3) = which(5) = 1;
  EXPECT_TRUE((plan.replaced == which).all()) << plan.replaced.transpose();
  EXPECT_FALSE(plan.all_pockets);
  EXPECT_EQ(plan.pockets, 1);  // of the one lost
  EXPECT_EQ(plan.kind, RepairClass::rebuild_pockets);
  EXPECT_EQ(plan.cost, 250.0 + 4.0 * 80.0 + 60.0);
}

TEST(PlanRepair, RebuildsEveryPocketWhenTheyAreEroded) {
  BitFindings found = sound();
  found.pocket_share_eroded = 0.3;
  const RepairPlan plan = plan_repair(found, costs);
  EXPECT_EQ(plan.kind, RepairClass::rebuild_pockets);
  EXPECT_EQ(plan.cutters, 0);  // sound ones go back in
  EXPECT_EQ(plan.pockets, 18);
  EXPECT_TRUE(plan.all_pockets);
  EXPECT_EQ(plan.replaced.sum(), 0);
  EXPECT_EQ(plan.cost, 250.0 + 18.0 * 60.0);
}

TEST(PlanRepair, ReplacesGaugeCuttersUnderGauge) {
  BitFindings found = sound();
  found.gauge_loss = 0.9e-3;
  found.chipped(17) = 1;  // a gauge cutter is counted once
  const RepairPlan plan = plan_repair(found, costs);
  EXPECT_EQ(plan.kind, RepairClass::replace_cutters);
  EXPECT_EQ(plan.cutters, 4);
  found.gauge_loss = 0.7e-3;
  EXPECT_EQ(plan_repair(found, costs).cutters, 1);
}

TEST(PlanRepair, ScrapsWhatCannotBeOrIsNotWorthMending) {
  BitFindings found = sound();
  found.blade_sheared = true;
  EXPECT_EQ(plan_repair(found, costs).kind, RepairClass::scrap);
  EXPECT_EQ(plan_repair(found, costs).cost, 6000.0);
  found = sound();
  found.pocket_share_eroded = 0.8;
  EXPECT_EQ(plan_repair(found, costs).kind, RepairClass::scrap);
  // Every cutter at a price that makes 18 of them 0.7 of a new bit, to either side of the line.
  found = sound();
  found.chipped.setOnes();
  RepairCosts dear = costs;
  dear.cutter = (0.7 * 6000.0 - 250.0) / 18.0 - 0.01;
  EXPECT_EQ(plan_repair(found, dear).kind, RepairClass::replace_cutters);
  dear.cutter += 0.02;
  EXPECT_EQ(plan_repair(found, dear).kind, RepairClass::scrap);
}

TEST(PlanRepair, CostNeverFallsAsMoreIsFound) {
  BitFindings found = sound();
  double last = 0.0;
  for (Eigen::Index i = 0; i < 18; ++i) {
    found.chipped(i) = 1;
    const RepairPlan plan = plan_repair(found, costs);
    EXPECT_GT(plan.cost, last);
    last = plan.cost;
  }
}

TEST(PlanRepair, SaysWhyInOneClause) {
  BitFindings found = sound();
  found.worn_share(0) = 0.9;
  EXPECT_EQ(std::string(plan_repair(found, costs).reason), "cutters are worn");
  found.chipped(1) = 1;
  EXPECT_EQ(std::string(plan_repair(found, costs).reason), "cutters are chipped or ruined by heat");
  found.lost(2) = 1;
  EXPECT_EQ(std::string(plan_repair(found, costs).reason), "cutters are lost from their pockets");
  found.pocket_share_eroded = 0.3;
  EXPECT_EQ(std::string(plan_repair(found, costs).reason), "pockets are eroded");
  EXPECT_EQ(std::string(repair_class_name(RepairClass::rebuild_pockets)), "rebuild_pockets");
}

TEST(PlanRepair, RefusesWhatHasNoMeaning) {
  BitFindings found = sound();
  found.lost.setZero(3);
  EXPECT_EQ(testing::refusal([&] { return plan_repair(found, costs).cost; }),
            "plan_repair: every array needs one entry per cutter (got 3)");
  for (const double bad : {-1.0, nan}) {
    found = sound();
    found.worn_share(3) = bad;
    EXPECT_NE(testing::refusal([&] { return plan_repair(found, costs).cost; }), "");
    found = sound();
    found.heat_damage(3) = bad;
    EXPECT_NE(testing::refusal([&] { return plan_repair(found, costs).cost; }), "");
    found = sound();
    found.pocket_share_eroded = bad;
    EXPECT_NE(testing::refusal([&] { return plan_repair(found, costs).cost; }), "");
    found = sound();
    found.gauge_loss = bad;
    EXPECT_NE(testing::refusal([&] { return plan_repair(found, costs).cost; }), "");
    found = sound();
    RepairCosts wrong = costs;
    wrong.pocket = bad;
    EXPECT_NE(testing::refusal([&] { return plan_repair(found, wrong).cost; }), "");
  }
}

}  // namespace
}  // namespace dullcast::condition
