#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "engine/analysis/trade_off.hpp"
#include "engine/statistics/confidence.hpp"
#include "engine/statistics/counter_random.hpp"
#include "engine/statistics/lifetime_curve.hpp"
#include "engine/statistics/quantile_bounds.hpp"
#include "engine/statistics/weibull_plot.hpp"

// What the runs of a sweep are summed up by, held against what others published.
namespace dullcast::published {
namespace {

/// Weeks in remission on 6-mercaptopurine and on placebo: Freireich et al., Blood 21, 1963 [pub], from
/// memory.
std::vector<statistics::Life> remissions_treated() {
  return {{6, true},   {6, true},   {6, true},   {6, false},  {7, true},   {9, false},  {10, true},
          {10, false}, {11, false}, {13, true},  {16, true},  {17, false}, {19, false}, {20, false},
          {22, true},  {23, true},  {25, false}, {32, false}, {32, false}, {34, false}, {35, false}};
}
std::vector<statistics::Life> remissions_untreated() {
  std::vector<statistics::Life> lives;
  for (const double weeks : {1, 1, 2, 2, 3, 4, 4, 5, 5, 8, 8, 8, 8, 11, 11, 12, 12, 15, 17, 22, 23})
    lives.push_back({weeks, true});
  return lives;
}

TEST(SweepStatistics, ProductLimitCurveOfTheRemissionData) {
  const statistics::LifetimeCurve curve = statistics::lifetime_curve(remissions_treated(), 0.95);
  // Survival and its standard error as textbooks print them [hb: Kleinbaum & Klein, Survival Analysis, from
  // memory], four figures: half of the last.
  const double weeks[] = {6, 7, 10, 13, 16, 22, 23};
  const double survival[] = {0.8571, 0.8067, 0.7529, 0.6902, 0.6275, 0.5378, 0.4482};
  const double error[] = {0.0764, 0.0869, 0.0963, 0.1068, 0.1141, 0.1282, 0.1346};
  ASSERT_EQ(curve.steps.size(), 7u);
  for (std::size_t k = 0; k < 7; ++k) {
    EXPECT_EQ(curve.steps[k].length, weeks[k]);
    EXPECT_NEAR(curve.steps[k].survival, survival[k], 6e-5);
    EXPECT_NEAR(std::sqrt(curve.steps[k].variance), error[k], 6e-5);
  }
  EXPECT_EQ(curve.censored, 12);
}

TEST(SweepStatistics, MedianRemissionsWithBrookmeyerAndCrowleysLimits) {
  // By log(-log) limits [pub, from memory]: 23 weeks (13 to not reached) treated, 8 (4 to 11) untreated.
  const statistics::LifeQuantile treated = statistics::curve_quantile(
                                     statistics::lifetime_curve(remissions_treated(), 0.95), 0.5),
                                 untreated = statistics::curve_quantile(
                                     statistics::lifetime_curve(remissions_untreated(), 0.95), 0.5);
  EXPECT_EQ(treated.length, 23.0);
  EXPECT_EQ(treated.low, 13.0);
  EXPECT_FALSE(treated.bounded_above());
  EXPECT_EQ(untreated.length, 8.0);
  EXPECT_EQ(untreated.low, 4.0);
  EXPECT_EQ(untreated.high, 11.0);
}

TEST(SweepStatistics, WeibullFitOfTheRemissionData) {
  // Treated alone, greatest likelihood: modulus 1.354, scale 33.77 weeks (Lawless 2003 and others [hb], from
  // memory): half of the last figure.
  const auto fit = statistics::fit_weibull(remissions_treated(), 0.95);
  ASSERT_TRUE(fit.has_value());
  EXPECT_NEAR(fit->modulus, 1.354, 5e-4);
  EXPECT_NEAR(fit->scale, 33.77, 5e-3);
}

TEST(SweepStatistics, ClopperAndPearsonsTable) {
  // 95 %, four figures as in tables of exact binomial limits [hb: Geigy Scientific Tables, from memory].
  const struct {
    long k, n;
    double low, high;
  } rows[] = {{0, 10, 0.0, 0.3085},    {1, 10, 0.0025, 0.4450},   {5, 10, 0.1871, 0.8129},
              {5, 20, 0.0866, 0.4910}, {10, 100, 0.0490, 0.1762}, {50, 100, 0.3983, 0.6017}};
  for (const auto& row : rows) {
    const statistics::Interval found = statistics::probability_interval(row.k, row.n, 0.95);
    EXPECT_NEAR(found.low, row.low, 6e-5) << row.k << " of " << row.n;
    EXPECT_NEAR(found.high, row.high, 6e-5) << row.k << " of " << row.n;
  }
}

TEST(SweepStatistics, DrawsThatWilksAsksFor) {
  // Wilks, Ann. Math. Statist. 12, 1941 [pub]: the greatest of n draws bounds a quantile from above.
  EXPECT_EQ(statistics::draws_for_upper_bound(0.95, 0.95), 59);
  EXPECT_EQ(statistics::draws_for_upper_bound(0.95, 0.99), 90);
  EXPECT_EQ(statistics::draws_for_upper_bound(0.99, 0.95), 299);
  EXPECT_EQ(statistics::draws_for_upper_bound(0.90, 0.95), 29);
  EXPECT_EQ(statistics::draws_for_upper_bound(0.50, 0.95), 5);
}

TEST(SweepStatistics, RanksAroundTheMedianAsInTheTablesOfTheSignTest) {
  // [hb: Conover, Practical Nonparametric Statistics, from memory] 95 % at least.
  const long rows[][3] = {{6, 1, 6},   {10, 2, 9},   {15, 4, 12},  {20, 6, 15},
                          {25, 8, 18}, {50, 18, 33}, {100, 40, 61}};
  for (const auto& row : rows) {
    const statistics::QuantileRanks ranks = statistics::quantile_ranks(row[0], 0.5, 0.95);
    EXPECT_EQ(ranks.low, row[1]) << row[0];
    EXPECT_EQ(ranks.high, row[2]) << row[0];
  }
  EXPECT_NEAR(statistics::quantile_ranks(10, 0.5, 0.95).coverage, 0.9785, 5e-5);
  EXPECT_NEAR(statistics::quantile_ranks(20, 0.5, 0.95).coverage, 0.9586, 5e-5);
}

TEST(SweepStatistics, StudentsSleepersPairedAndNot) {
  // Extra hours of sleep of ten patients under two drugs: Student, Biometrika 6, 1908 [pub]. Paired:
  // difference 1.58, standard error 1.230/sqrt(10), t = 4.062; not paired (Welch): t = 1.861 with 17.8
  // degrees of freedom, p = 0.0794 on two sides. So one side tells them apart at 98 % in pairs only, and at
  // 96 % either way.
  analysis::TradeOffCases cases;
  cases.points = 2;
  cases.draws = 10;
  cases.cost_per_metre.resize(20);
  cases.cost_per_metre << 0.7, -1.6, -0.2, -1.2, -0.1, 3.4, 3.7, 0.8, 0.0, 2.0,  //
      1.9, 0.8, 1.1, 0.1, -0.1, 4.4, 5.5, 1.6, 4.6, 3.4;
  cases.hottest_flat = cases.expected_chips = Eigen::ArrayXd::Zero(20);
  cases.finished = Eigen::ArrayXd::Ones(20);
  const analysis::TradeOff paired = analysis::trade_off(cases, {}, 0.98);
  EXPECT_NEAR(paired.points[1].over_best.mean, 1.58, 1e-12);
  EXPECT_NEAR(paired.points[1].over_best.mean / paired.points[1].over_best.error, 4.0621, 5e-5);
  EXPECT_FALSE(paired.points[1].like_best);
  cases.draws_alike = false;
  const analysis::TradeOff apart = analysis::trade_off(cases, {}, 0.98);
  EXPECT_NEAR(apart.points[1].over_best.mean / apart.points[1].over_best.error, 1.8608, 5e-5);
  EXPECT_TRUE(apart.points[1].like_best);
  EXPECT_FALSE(analysis::trade_off(cases, {}, 0.96).points[1].like_best) << "p = 0.0397 on one side";
  EXPECT_TRUE(analysis::trade_off(cases, {}, 0.961).points[1].like_best);
}

TEST(SweepStatistics, WeibullPlotOfSimulatedLivesRecoversThePlantedModulus) {
  // 100 lives a sample, modulus 2.2, those over the 80 % point censored; 500 samples. 95 % intervals of
  // modulus and scale cover within three standard errors of 500 (2.9 %) and 1 % for being formulae for many
  // lives. The mean of the moduli is the planted one within the bias that few lives have (1.4/80) and three
  // standard errors.
  const double modulus = 2.2, scale = 120.0, watched = scale * std::pow(-std::log(0.2), 1.0 / modulus);
  int modulus_covered = 0, scale_covered = 0;
  double sum = 0.0;
  for (std::uint64_t sample = 0; sample < 500; ++sample) {
    std::vector<statistics::Life> lives;
    for (std::uint64_t k = 0; k < 100; ++k) {
      const double life = scale * std::pow(statistics::unit_exponential_at(77, sample, k), 1.0 / modulus);
      lives.push_back({std::min(life, watched), life <= watched});
    }
    const auto fit = statistics::fit_weibull(lives, 0.95);
    ASSERT_TRUE(fit.has_value());
    sum += fit->modulus;
    modulus_covered += fit->modulus_range.low <= modulus && modulus <= fit->modulus_range.high ? 1 : 0;
    scale_covered += fit->scale_range.low <= scale && scale <= fit->scale_range.high ? 1 : 0;
  }
  EXPECT_NEAR(modulus_covered / 500.0, 0.95, 0.039);
  EXPECT_NEAR(scale_covered / 500.0, 0.95, 0.039);
  // A modulus' relative standard error is near 0.9/sqrt(80) = 0.1.
  EXPECT_NEAR(sum / 500.0 / modulus, 1.0, 1.4 / 80.0 + 3.0 * 0.1 / std::sqrt(500.0));
}

TEST(SweepStatistics, PlottedPointsOfAWeibullLawLieOnItsLine) {
  // ln(-ln(1 - share)) against ln(length) is straight with the modulus for slope: least squares over 2,000
  // lives, whose slope scatters by some 2.5 % (1.1/sqrt(2000); the ends pull more than in the fit): three of
  // them.
  std::vector<statistics::Life> lives;
  for (std::uint64_t k = 0; k < 2000; ++k)
    lives.push_back({50.0 * std::pow(statistics::unit_exponential_at(78, 0, k), 1.0 / 3.0), true});
  double x = 0, y = 0, xx = 0, xy = 0;
  const std::vector<statistics::WeibullPoint> points = statistics::weibull_points(lives);
  const auto n = static_cast<double>(points.size());
  for (const statistics::WeibullPoint& point : points) {
    const double a = std::log(point.length), b = std::log(-std::log1p(-point.share));
    x += a / n;
    y += b / n;
    xx += a * a / n;
    xy += a * b / n;
  }
  EXPECT_NEAR((xy - x * y) / (xx - x * x) / 3.0, 1.0, 0.075);
}

TEST(SweepStatistics, ErrorOfAMeanFallsWithTheRootOfTheDraws) {
  // Exponential draws, mean 1. The root-mean-square error of 400 means of n draws is 1/sqrt(n) within three
  // of its own standard errors, 1/sqrt(800); and so is the standard error that each sample states, in the
  // mean of squares (whose scatter is far smaller: kurtosis 9 gives sqrt(8/n/400)).
  for (const long n : {25L, 100L, 400L, 1600L}) {
    double squares = 0.0, stated = 0.0;
    for (std::uint64_t sample = 0; sample < 400; ++sample) {
      Eigen::ArrayXd draws(n);
      for (long k = 0; k < n; ++k)
        draws(k) = statistics::unit_exponential_at(91 + static_cast<std::uint64_t>(n), sample,
                                                   static_cast<std::uint64_t>(k));
      const analysis::DrawnMean mean = analysis::drawn_mean(draws);
      squares += (mean.mean - 1.0) * (mean.mean - 1.0) / 400.0;
      stated += mean.error * mean.error / 400.0;
    }
    const auto draws = static_cast<double>(n);
    EXPECT_NEAR(std::sqrt(squares * draws), 1.0, 3.0 / std::sqrt(800.0)) << n;
    EXPECT_NEAR(std::sqrt(stated * draws), 1.0, 3.0 * 0.5 * std::sqrt(8.0 / draws / 400.0)) << n;
  }
}

}  // namespace
}  // namespace dullcast::published
