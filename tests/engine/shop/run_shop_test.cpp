#include "engine/shop/run_shop.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

#include "engine/shop/future_figures.hpp"
#include "engine/shop/small_plan.hpp"

namespace dullcast::shop {
namespace {

/// Wear that differs from future to future, and tasks too.
ShopPlan uncertain_plan() {
  ShopPlan plan = small_plan(2, 5);
  for (BookedHole& hole : plan.holes) {
    hole.scenario.numbers.abrasion_coefficient = {1e-14, 2e-14, 4e-14, "given", "invented for tests"};
    hole.scenario.numbers.bit_to_bit_wear = {0.8, 1.0, 1.25, "given", "invented for tests"};
  }
  plan.stations[1].task = {Duration::Kind::percentiles, 2.0 * an_hour, 4.0 * an_hour, 12.0 * an_hour};
  plan.futures = 6;
  plan.early_pulls = 1;
  return plan;
}

TEST(RunShop, SpreadsAreOrderStatistics) {
  std::vector<double> values;
  for (int k = 10; k >= 1; --k) values.push_back(k);
  values.push_back(std::numeric_limits<double>::quiet_NaN());
  const storage::Spread spread = spread_of(values);
  EXPECT_EQ(spread.low, 1.0);
  EXPECT_EQ(spread.middle, 5.0);
  EXPECT_EQ(spread.high, 9.0);
  EXPECT_NEAR(spread.mean, 5.5, 1e-12);
  EXPECT_TRUE(std::isnan(spread_of({}).mean));
}

TEST(RunShop, AnotherNumberOfThreadsTellsTheSame) {
  const ShopPlan plan = uncertain_plan();
  ShopOptions one, two;
  two.threads = 2;
  const storage::ShopOutlook a = run_shop(plan, one), b = run_shop(plan, two);
  EXPECT_EQ(a.money.total.mean, b.money.total.mean);
  EXPECT_EQ(a.late_time.high, b.late_time.high);
  EXPECT_EQ(a.turnaround.middle, b.turnaround.middle);
  ASSERT_EQ(a.changes.size(), b.changes.size());
  for (std::size_t c = 0; c < a.changes.size(); ++c) {
    EXPECT_EQ(a.changes[c].total_more, b.changes[c].total_more);
    EXPECT_EQ(a.changes[c].late_time_error, b.changes[c].late_time_error);
  }
  ASSERT_EQ(a.early_pulls.size(), b.early_pulls.size());
}

TEST(RunShop, CountsAddUp) {
  const ShopPlan plan = uncertain_plan();
  const storage::ShopOutlook shop = run_shop(plan, {});
  ASSERT_EQ(shop.futures, 6);
  // Arrivals by week, and by class, sum to all of them.
  double by_week = 0.0, by_class = 0.0, late = 0.0, late_by_hole = 0.0;
  for (const storage::WeekOutlook& week : shop.weeks) {
    by_week += week.arrivals.mean;
    late += week.holes_late.mean;
    for (const double kind : week.by_class) by_class += kind;
  }
  EXPECT_NEAR(by_week, shop.arrivals.mean, 1e-9);
  EXPECT_NEAR(by_class, shop.arrivals.mean, 1e-9);
  for (const storage::HoleOutlook& hole : shop.holes) late_by_hole += hole.late_probability;
  EXPECT_NEAR(late, shop.late_holes.mean, 1e-9);
  EXPECT_NEAR(late_by_hole, shop.late_holes.mean, 1e-9);
  EXPECT_GT(late, 0.0);
  // A bit is somewhere on every day.
  for (const storage::BitOutlook& bit : shop.bits) {
    ASSERT_EQ(bit.days.size(), 60U);
    for (const auto& shares : bit.days) {
      double sum = 0.0;
      for (const double share : shares) sum += share;
      EXPECT_NEAR(sum, 1.0, 1e-9);
    }
  }
  // Work by week sums to the share of the time that benches are used.
  for (const storage::StationOutlook& station : shop.stations) {
    double work = 0.0, open = 0.0;
    for (const storage::StationWeek& week : station.weeks) {
      work += week.work.mean;
      open += week.open;
    }
    EXPECT_NEAR(open, station.benches * plan.end, 1e-6);
    EXPECT_NEAR(work / open, station.utilisation.mean, 1e-9);
  }
  EXPECT_NEAR(shop.money.total.mean,
              shop.money.repairs.mean + shop.money.new_bits.mean + shop.money.rigs_waiting.mean +
                  shop.money.worn.mean,
              1e-6);
}

TEST(RunShop, AChangeIsTheSameFuturesWithItLessThoseWithoutIt) {
  const ShopPlan plan = uncertain_plan();
  const storage::ShopOutlook shop = run_shop(plan, {});
  ASSERT_EQ(shop.changes.size(), 4U);  // three benches and a bit
  for (const storage::ChangeOutlook& change : shop.changes) {
    EXPECT_NEAR(change.late_time_more, change.late_time.mean - shop.late_time.mean, 1e-6) << change.name;
    EXPECT_NEAR(change.total_more, change.total.mean - shop.money.total.mean, 1e-6) << change.name;
  }
  // One bit more is what this shop lacks.
  EXPECT_EQ(shop.changes.back().kind, "bit");
  EXPECT_LT(shop.changes.back().late_time_more, 0.0);
  // The plan with that bit in it is the change.
  ShopPlan with = plan;
  FleetBit more = plan.bits.front();
  more.name = "B3";
  with.bits.push_back(more);
  ShopOptions as_planned;
  as_planned.changes = as_planned.pulls = false;
  EXPECT_EQ(run_shop(with, as_planned).late_time.mean, shop.changes.back().late_time.mean);
}

TEST(RunShop, WithoutPricesNoMoneyIsTold) {
  ShopPlan plan = small_plan(2, 2);
  plan.holes.front().scenario.costs.cutter = 0.0;
  ShopOptions as_planned;
  as_planned.changes = as_planned.pulls = false;
  const storage::ShopOutlook shop = run_shop(plan, as_planned);
  EXPECT_TRUE(std::isnan(shop.money.total.mean));
  EXPECT_TRUE(std::isnan(shop.money.repair_mean));
  EXPECT_TRUE(std::isnan(shop.money.new_bit));
}

TEST(RunShop, WithoutPricesNeitherChangesNorEarlyPullsTellMoney) {
  ShopPlan plan = uncertain_plan();
  plan.holes.front().scenario.costs.cutter = 0.0;
  const storage::ShopOutlook shop = run_shop(plan, {});
  ASSERT_FALSE(shop.changes.empty());
  for (const storage::ChangeOutlook& change : shop.changes) EXPECT_TRUE(std::isnan(change.total_more));
  for (const storage::EarlyPull& pull : shop.early_pulls) EXPECT_TRUE(std::isnan(pull.total_more));
}

TEST(RunShop, WhereNoFutureCanBeRunTheReasonIsThrown) {
  ShopPlan plan = small_plan(2, 2);
  for (BookedHole& hole : plan.holes)
    hole.scenario.column.layers.front().rock.unconfined_strength =
        samples::exactly(std::numeric_limits<double>::quiet_NaN());
  EXPECT_THROW(run_shop(plan, {}), std::exception);
}

}  // namespace
}  // namespace dullcast::shop
