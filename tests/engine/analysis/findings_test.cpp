#include "engine/analysis/findings.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "engine/analysis/made_sweep.hpp"
#include "engine/statistics/counter_random.hpp"

namespace dullcast::analysis {
namespace {

using testing::made_column;
using testing::made_sweep;
using testing::MadeCase;

double drawn(long stream, long counter) {
  return statistics::uniform_at(41, static_cast<std::uint64_t>(stream), static_cast<std::uint64_t>(counter));
}

/// 100 draws: rework due in hole 1..60 (one each), the rest good for 60 holes; hours are ten a hole.
storage::SweepTable sixty_of_a_hundred() {
  return made_sweep(1, 100, "table", [](long, long draw) {
    MadeCase c;
    c.due = draw < 60;
    c.holes = c.due ? static_cast<double>(draw + 1) : 60.0;
    c.rotating_time = 36e3 * c.holes;
    c.ended_by = c.due ? "rework_due" : "last_hole";
    return c;
  });
}

std::string trouble(const storage::SweepTable& table, const FindingsOptions& options = {}) {
  try {
    find_meaning(table, options);
  } catch (const std::invalid_argument& error) {
    return error.what();
  }
  return {};
}

TEST(Findings, QuantilesByHoleFootageAndHours) {
  const Findings found = find_meaning(sixty_of_a_hundred(), {});
  ASSERT_TRUE(found.life.has_value());
  EXPECT_EQ(found.scope, LifeScope::all_cases);
  EXPECT_EQ(found.life->due, 60);
  EXPECT_EQ(found.life->finished, 40);
  EXPECT_NEAR(found.life->finishing, 0.4, 1e-15);
  const auto& q = found.life->quantiles;
  EXPECT_EQ(q[0][0].length, 10.0);
  EXPECT_EQ(q[1][0].length, 200.0);
  EXPECT_EQ(q[2][0].length, 360e3);
  EXPECT_EQ(q[0][1].length, 50.0);
  EXPECT_FALSE(q[0][2].reached()) << "P90 lies past the 60 holes";
  EXPECT_EQ(found.life->holes_drilled, 60.0);
  // Ranks of the binomial: P10 of 100 between the 5th and the 17th at 95 % (P(B < 5) = 2.4 %, P(B >= 17)
  // = 2.1 %).
  EXPECT_EQ(q[0][0].low, 5.0);
  EXPECT_EQ(q[0][0].high, 17.0);
  EXPECT_EQ(found.curve.steps.size(), 60u);
  EXPECT_TRUE(found.weibull.has_value());
}

TEST(Findings, RunsThatEndOtherwiseDoNotFinish) {
  const storage::SweepTable table = made_sweep(1, 10, "table", [](long, long draw) {
    MadeCase c;
    if (draw < 3) c.ended_by = "beyond_repair";
    c.failed = draw == 9;
    return c;
  });
  const Findings found = find_meaning(table, {});
  EXPECT_EQ(found.life->ended_otherwise, 3);
  EXPECT_EQ(found.life->finished, 6);
  EXPECT_EQ(found.life->draws, 9);
  EXPECT_NEAR(found.life->finishing, 6.0 / 9.0, 1e-15);
  EXPECT_EQ(found.failed, 1);
  ASSERT_EQ(found.first_failures.size(), 1u);
  EXPECT_EQ(found.first_failures[0].case_number, 10);
}

/// Three settings of weight; the middle is cheapest, the lightest coolest; life falls with weight and with
/// what is drawn.
storage::SweepTable three_weights() {
  storage::SweepTable table = made_sweep(3, 50, "grid", [](long point, long draw) {
    MadeCase c;
    const double hard = drawn(0, draw);
    c.due = true;
    c.holes = 10.0 - static_cast<double>(point) + std::floor(5.0 * (1.0 - hard));
    c.rotating_time = 36e3 * c.holes;
    c.cost = (point == 1 ? 80.0 : 100.0) + (point == 0 ? -3.0 : 30.0) * hard;
    c.hottest = 500.0 + 50.0 * static_cast<double>(point) + 20.0 * hard;
    c.ended_by = "rework_due";
    return c;
  });
  std::vector<double> weight, hard, nothing;
  for (long k = 0; k < 150; ++k) {
    const long point = k / 50;
    weight.push_back(20e3 + 5e3 * static_cast<double>(point));
    hard.push_back(drawn(0, k % 50));
    nothing.push_back(drawn(1, k % 50));
  }
  table.columns.push_back(made_column("weight_on_bit", "N", storage::ColumnRole::setting, weight));
  table.columns.push_back(made_column("nothing", "1", storage::ColumnRole::uncertain, nothing));
  table.columns.push_back(made_column("hardness", "1", storage::ColumnRole::uncertain, hard));
  return table;
}

TEST(Findings, ASweepOfSettingsIsToldAtItsBest) {
  const Findings found = find_meaning(three_weights(), {});
  ASSERT_TRUE(found.trade_off.has_value());
  EXPECT_EQ(found.trade_off->best, 1);
  EXPECT_TRUE(found.trade_off->points[0].on_front && found.trade_off->points[1].on_front);
  EXPECT_FALSE(found.trade_off->points[2].on_front) << "dearer and hotter than the middle";
  EXPECT_EQ(found.scope, LifeScope::best_point);
  EXPECT_EQ(found.point, 1);
  EXPECT_EQ(found.life->draws, 50);
  ASSERT_EQ(found.life_by_point.size(), 3u);
  EXPECT_EQ(found.life_by_point[1].quantiles[2][1].length, found.life->quantiles[2][1].length);
  FindingsOptions limited;
  limited.limits.hottest_flat = 525.0;
  EXPECT_EQ(find_meaning(three_weights(), limited).trade_off->best, 0);
  limited.limits.hottest_flat = 400.0;
  const Findings none = find_meaning(three_weights(), limited);
  EXPECT_FALSE(none.trade_off->best);
  EXPECT_EQ(none.scope, LifeScope::none);
  EXPECT_FALSE(none.life);
}

TEST(Findings, AnotherPointCanBeAskedFor) {
  FindingsOptions options;
  options.point = 3;
  const Findings found = find_meaning(three_weights(), options);
  EXPECT_EQ(found.scope, LifeScope::asked_point);
  EXPECT_EQ(found.life->quantiles[0][1].length, found.life_by_point[2].quantiles[0][1].length);
  options.point = 4;
  EXPECT_NE(trouble(three_weights(), options).find("1 to 3"), std::string::npos);
  options.point = 0;
  EXPECT_NE(trouble(three_weights(), options), "");
}

TEST(Findings, WhatIsDrawnIsRankedByWhatItDoes) {
  const Findings found = find_meaning(three_weights(), {});
  ASSERT_EQ(found.sensitivities.size(), 4u);
  for (const Sensitivity& outcome : found.sensitivities) {
    EXPECT_EQ(outcome.kind, SensitivityKind::rank_correlation);
    ASSERT_EQ(outcome.factors.size(), 2u) << "a grid's settings are not correlated";
    EXPECT_EQ(outcome.used, 50) << "draws of the best point, not cases";
  }
  const Sensitivity& cost = found.sensitivities[1];
  EXPECT_EQ(cost.outcome, "cost_per_metre");
  EXPECT_EQ(cost.factors[0].name, "hardness");
  EXPECT_NEAR(cost.factors[0].rank->value, 1.0, 1e-15) << "cost rises with it always";
  FindingsOptions first;
  first.point = 1;
  EXPECT_NEAR(find_meaning(three_weights(), first).sensitivities[1].factors[0].rank->value, -1.0, 1e-15)
      << "and falls with it at point 1";
  EXPECT_LT(found.sensitivities[0].factors[0].rank->value, -0.9) << "life falls with it, in whole holes";
  EXPECT_TRUE(std::isnan(found.sensitivities[3].factors[0].rank->value)) << "chips are all the same";
}

TEST(Findings, TrajectoriesGiveElementaryEffectsAndNoProbabilities) {
  // Two trajectories of two factors: cost = 100 + 10 a - 4 b.
  const double a[] = {0, 1, 1, 1, 0, 0}, b[] = {0, 0, 1, 1, 1, 0};
  storage::SweepTable table = made_sweep(6, 1, "elementary_effects", [&](long point, long) {
    MadeCase c;
    c.cost = 100.0 + 10.0 * a[point] - 4.0 * b[point];
    return c;
  });
  table.columns.push_back(
      made_column("coordinate_b", "1", storage::ColumnRole::coordinate, std::vector<double>(b, b + 6)));
  table.columns.push_back(
      made_column("coordinate_a", "1", storage::ColumnRole::coordinate, std::vector<double>(a, a + 6)));
  table.columns.push_back(
      made_column("weight_on_bit", "N", storage::ColumnRole::setting, std::vector<double>(a, a + 6)));
  const Findings found = find_meaning(table, {});
  EXPECT_EQ(found.scope, LifeScope::none);
  EXPECT_FALSE(found.trade_off);
  ASSERT_EQ(found.sensitivities.size(), 4u);
  const Sensitivity& cost = found.sensitivities[1];
  EXPECT_EQ(cost.factors[0].name, "a") << "the stronger first";
  EXPECT_NEAR(cost.factors[0].effect->mean, 10.0, 1e-12);
  EXPECT_NEAR(cost.factors[1].effect->mean, -4.0, 1e-12);
  EXPECT_EQ(cost.used, 2);
  EXPECT_EQ(found.sensitivities[0].censored, 6) << "no life ended";
  EXPECT_TRUE(found.sensitivities[0].factors.empty()) << "and hours drilled are no life to rank";
}

/// Walks of two factors. Rework falls due after 10 + 3 a - b hours, but not in walk `without` (from 0), whose
/// runs end after 100 and more.
storage::SweepTable walks_with_lives(long walks, long without) {
  const double a[] = {0, 1, 1}, b[] = {0, 0, 1};
  std::vector<double> as, bs;
  storage::SweepTable table = made_sweep(3 * walks, 1, "elementary_effects", [&](long point, long) {
    MadeCase c;
    c.due = point / 3 != without;
    c.rotating_time = 3600.0 * ((c.due ? 10.0 : 100.0) + 3.0 * a[point % 3] - b[point % 3]);
    if (!c.due) c.rotating_time *= 1.0 + 5.0 * b[point % 3];
    c.ended_by = c.due ? "rework_due" : "last_hole";
    as.push_back(a[point % 3]);
    bs.push_back(b[point % 3]);
    return c;
  });
  table.columns.push_back(made_column("coordinate_a", "1", storage::ColumnRole::coordinate, as));
  table.columns.push_back(made_column("coordinate_b", "1", storage::ColumnRole::coordinate, bs));
  return table;
}

TEST(Findings, RunsWithoutReworkDueHaveNoLifeToRank) {
  const Findings found = find_meaning(walks_with_lives(4, 2), {});
  const Sensitivity& life = found.sensitivities[0];
  ASSERT_EQ(life.outcome, "life");
  EXPECT_EQ(life.lives_ended, 9);
  EXPECT_EQ(life.censored, 3);
  EXPECT_EQ(life.used, 3) << "the walk of runs without a life is left out";
  ASSERT_EQ(life.factors.size(), 2u);
  EXPECT_EQ(life.factors[0].name, "a") << "by hours drilled it would be b";
  EXPECT_NEAR(life.factors[0].effect->mean, 3.0 * 3600.0, 1e-9);
  EXPECT_NEAR(life.factors[1].effect->mean, -3600.0, 1e-9);
  // Other outcomes are of all runs.
  EXPECT_EQ(found.sensitivities[1].used, 4);
  const Sensitivity none = find_meaning(walks_with_lives(1, 0), {}).sensitivities[0];
  EXPECT_TRUE(none.factors.empty());
  EXPECT_EQ(none.lives_ended, 0);
}

TEST(Findings, RanksOfLifeAreOfLivesThatEnded) {
  storage::SweepTable table = sixty_of_a_hundred();
  std::vector<double> hardness;
  for (long k = 0; k < 100; ++k) hardness.push_back(-static_cast<double>(k));
  table.columns.push_back(made_column("hardness", "1", storage::ColumnRole::uncertain, hardness));
  const Sensitivity life = find_meaning(table, {}).sensitivities[0];
  EXPECT_EQ(life.used, 60);
  EXPECT_EQ(life.lives_ended, 60);
  EXPECT_EQ(life.censored, 40);
  ASSERT_EQ(life.factors.size(), 1u);
  EXPECT_NEAR(life.factors[0].rank->value, -1.0, 1e-15);
}

/// A, B, AB_a, AB_b a row, with what the cost makes of a and b.
storage::SweepTable rows_of_four(long rows) {
  std::vector<double> a, b;
  for (long row = 0; row < rows; ++row) {
    const double A[] = {drawn(2, row), drawn(3, row)}, B[] = {drawn(4, row), drawn(5, row)};
    for (const double x : {A[0], B[0], B[0], A[0]}) a.push_back(x);
    for (const double x : {A[1], B[1], A[1], B[1]}) b.push_back(x);
  }
  storage::SweepTable table = made_sweep(4 * rows, 1, "variance_shares", [&](long point, long) {
    MadeCase c;
    const auto k = static_cast<std::size_t>(point);
    c.cost = 3.0 * a[k] + 4.0 * b[k];
    c.due = true;
    c.holes = 1.0 + std::floor(9.0 * a[k]);
    return c;
  });
  table.columns.push_back(made_column("coordinate_a", "1", storage::ColumnRole::coordinate, a));
  table.columns.push_back(made_column("coordinate_b", "1", storage::ColumnRole::coordinate, b));
  return table;
}

TEST(Findings, RowsGiveVarianceSharesAndTheirPlainDrawsTheLife) {
  const Findings found = find_meaning(rows_of_four(400), {});
  EXPECT_EQ(found.scope, LifeScope::plain_draws);
  EXPECT_EQ(found.life->draws, 800) << "A and B of every row";
  const Sensitivity& cost = found.sensitivities[1];
  EXPECT_EQ(cost.kind, SensitivityKind::variance_shares);
  EXPECT_EQ(cost.factors[0].name, "b");
  // 16/25 of the variance: within the bootstrap's own interval, widened to four of its half widths so that a
  // seed cannot make it fail.
  const statistics::VarianceShare& share = *cost.factors[0].share;
  EXPECT_NEAR(share.total, 0.64, 2.0 * (share.total_range.high - share.total_range.low));
  EXPECT_LT(share.total_range.high - share.total_range.low, 0.2);
  EXPECT_EQ(cost.used, 400);
}

TEST(Findings, RefusesATableThatDoesNotFitItsDesign) {
  storage::SweepTable table = rows_of_four(2);
  table.columns.back().values(2) = 0.5;
  EXPECT_NE(trouble(table).find("one factor of B"), std::string::npos) << trouble(table);
  storage::SweepTable lacking = sixty_of_a_hundred();
  lacking.columns.pop_back();
  EXPECT_NE(trouble(lacking).find("expected_chips"), std::string::npos);
  storage::SweepTable short_column = sixty_of_a_hundred();
  short_column.columns.back().values.conservativeResize(99);
  EXPECT_NE(trouble(short_column).find("99 values for 100 cases"), std::string::npos);
  EXPECT_NE(trouble(storage::SweepTable{}), "");
}

TEST(Findings, ASweepOfFailuresSaysSoAndNothingElse) {
  const storage::SweepTable table = made_sweep(1, 8, "table", [](long, long) {
    MadeCase c;
    c.failed = true;
    return c;
  });
  const Findings found = find_meaning(table, {});
  EXPECT_EQ(found.failed, 8);
  EXPECT_EQ(found.first_failures.size(), 5u);
  EXPECT_EQ(found.life->draws, 0);
  EXPECT_TRUE(std::isnan(found.life->finishing));
  EXPECT_FALSE(found.life->quantiles[0][0].reached());
}

TEST(Findings, AreTheSameBitsTwice) {
  const storage::SweepTable table = rows_of_four(50);
  const Findings a = find_meaning(table, {}), b = find_meaning(table, {});
  for (std::size_t k = 0; k < a.sensitivities[1].factors.size(); ++k) {
    EXPECT_EQ(a.sensitivities[1].factors[k].share->alone_range.low,
              b.sensitivities[1].factors[k].share->alone_range.low);
    EXPECT_EQ(a.sensitivities[1].factors[k].share->total, b.sensitivities[1].factors[k].share->total);
  }
}

}  // namespace
}  // namespace dullcast::analysis
