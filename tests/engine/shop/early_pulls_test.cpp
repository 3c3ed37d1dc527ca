#include "engine/shop/early_pulls.hpp"

#include <gtest/gtest.h>

#include "engine/shop/future.hpp"
#include "engine/shop/run_shop.hpp"
#include "engine/shop/small_plan.hpp"

namespace dullcast::shop {
namespace {

/// Two bits that start together fall due together, and the bench takes one at a time for nearly the two
/// days between holes: of three bits, one rig's has to wait. Called in a hole early, one of them is ready
/// when the other falls due.
ShopPlan two_fall_due_together() {
  ShopPlan plan = small_plan(3, 6);
  for (BookedHole& hole : plan.holes) hole.scenario.numbers.abrasion_coefficient = samples::exactly(4e-15);
  plan.stations[1].task = exactly(44.0 * an_hour);
  plan.stations[1].a_piece = exactly(0.0);
  plan.early_pulls = 1;
  return plan;
}

storage::ShopOutlook pulls_of(const ShopPlan& plan) {
  ShopOptions options;
  options.changes = false;
  return run_shop(plan, options);
}

TEST(EarlyPulls, ABitCalledInWhileTheBenchIsFreeSavesTheWaitBehindAnother) {
  const ShopPlan plan = two_fall_due_together();
  const storage::ShopOutlook shop = pulls_of(plan);
  ASSERT_GT(shop.late_time.mean, 0.0);
  ASSERT_EQ(shop.early_pulls.size(), 1U);
  const storage::EarlyPull& pull = shop.early_pulls.front();
  EXPECT_EQ(pull.in_use, 1.0);
  EXPECT_LT(pull.late_time_more, 0.0);
  EXPECT_LT(pull.total_more, 0.0);
  // What is told is the same future with the pull less the one without it.
  FutureDrill drill(plan, 0);
  const FutureLog without = simulate_future(plan, drill, {});
  Trial trial;
  trial.pulls = {{static_cast<std::size_t>(pull.bit), static_cast<std::size_t>(pull.after_hole)}};
  const FutureLog with = simulate_future(plan, drill, trial);
  EXPECT_NEAR(pull.total_more, with.total() - without.total(), 1e-9 * without.total());
}

TEST(EarlyPulls, NoneWhereABenchIsFreeForEveryBit) {
  ShopPlan plan = two_fall_due_together();
  plan.stations[1].benches = 3;
  plan.stations[1].task = exactly(1.0 * an_hour);
  const storage::ShopOutlook shop = pulls_of(plan);
  EXPECT_GT(shop.pulls_tried, 0);
  EXPECT_TRUE(shop.early_pulls.empty());
}

}  // namespace
}  // namespace dullcast::shop
