#include "engine/sweep/design.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <boost/math/special_functions/gamma.hpp>
#include <cmath>

#include "support/refusal.hpp"

namespace dullcast::sweep {
namespace {

SweepPlan plan_of(DesignKind kind, long points, long seed = 1) {
  SweepPlan plan;
  plan.design.kind = kind;
  plan.design.points = points;
  plan.seed = seed;
  return plan;
}

Design latin(long points, int axes, long seed = 1) {
  return Design(plan_of(DesignKind::latin_hypercube, points, seed), axes);
}

Design sobol(long points, int axes, long seed = 1) {
  return Design(plan_of(DesignKind::sobol_sequence, points, seed), axes);
}

Design trajectories(int count, int levels, int axes, long seed = 1) {
  SweepPlan plan = plan_of(DesignKind::elementary_effects, 0, seed);
  plan.design.trajectories = count;
  plan.design.levels = levels;
  return Design(plan, axes);
}

SweepPlan grid_plan(const std::vector<std::size_t>& levels) {
  SweepPlan plan = plan_of(DesignKind::grid, 0);
  for (const std::size_t n : levels) {
    plan.factors.emplace_back();
    plan.factors.back().levels = n;
  }
  return plan;
}

long slice(double u, long slices) {
  return static_cast<long>(std::floor(u * static_cast<double>(slices)));
}

/// Points as rows.
Eigen::ArrayXXd all_points(const Design& design) {
  Eigen::ArrayXXd points(design.points(), design.axes());
  for (long p = 0; p < design.points(); ++p) points.row(p) = design.point(p).transpose();
  return points;
}

std::vector<Design> one_of_each(long seed = 1) {
  SweepPlan table = plan_of(DesignKind::table, 0, seed);
  table.design.rows.resize(24, {1.0, 2.0, 3.0});
  SweepPlan grid = grid_plan({2, 3, 4});
  grid.seed = seed;
  return {Design(grid, 3),
          Design(table, 3),
          latin(24, 3, seed),
          sobol(24, 3, seed),
          trajectories(6, 4, 3, seed),
          Design(plan_of(DesignKind::variance_shares, 5, seed), 3)};
}

TEST(Design, GridCoversEveryCombinationOnceTheLastFactorFastest) {
  const std::vector<std::size_t> levels{3, 1, 4, 2};
  const Design grid(grid_plan(levels), 4);
  ASSERT_EQ(grid.points(), 24);
  long p = 0;
  for (long a = 0; a < 3; ++a) {
    for (long c = 0; c < 4; ++c) {
      for (long d = 0; d < 2; ++d) {
        const Eigen::ArrayXd u = grid.point(p++);
        EXPECT_EQ(slice(u(0), 3), a);
        EXPECT_EQ(slice(u(1), 1), 0);
        EXPECT_EQ(slice(u(2), 4), c);
        EXPECT_EQ(slice(u(3), 2), d);
        EXPECT_DOUBLE_EQ(u(2), (static_cast<double>(c) + 0.5) / 4.0) << "the middle of its share";
      }
    }
  }
  // As many levels as a factor may have: every one is found again from its coordinate.
  const Design fine(grid_plan({100000}), 1);
  for (long k = 0; k < 100000; ++k) ASSERT_EQ(slice(fine.point(k)(0), 100000), k);
}

TEST(Design, AGridWithoutFactorsIsOnePoint) {
  const Design none(grid_plan({}), 0);
  EXPECT_EQ(none.points(), 1);
  EXPECT_EQ(none.point(0).size(), 0);
}

TEST(Design, EveryPointIsComputedByItself) {
  // Backwards, from a copy made later, and again: the same bits. And all coordinates lie in [0, 1).
  const std::vector<Design> first = one_of_each(), second = one_of_each();
  for (std::size_t k = 0; k < first.size(); ++k) {
    const Eigen::ArrayXXd straight = all_points(first[k]);
    ASSERT_GE(first[k].points(), 24);
    for (long p = first[k].points(); p-- > 0;) {
      EXPECT_TRUE((second[k].point(p).transpose() == straight.row(p)).all()) << k << " at " << p;
    }
    EXPECT_TRUE((straight >= 0.0).all() && (straight < 1.0).all()) << k;
  }
}

TEST(Design, SeedsMakeOtherPointsOfTheDrawnDesigns) {
  const std::vector<Design> first = one_of_each(1), second = one_of_each(2);
  for (std::size_t k = 0; k < first.size(); ++k) {
    const bool drawn = k >= 2;
    EXPECT_EQ((all_points(first[k]) != all_points(second[k])).any(), drawn) << k;
  }
}

TEST(Design, RefusesPointsOutsideAndTooManyAxes) {
  for (const Design& design : one_of_each()) {
    EXPECT_EQ(testing::refusal([&] { return design.point(-1); }), "a point outside its design");
    EXPECT_EQ(testing::refusal([&] { return design.point(design.points()); }), "a point outside its design");
  }
  const int most = most_sobol_axes();
  EXPECT_GE(most, 1000);
  EXPECT_EQ(testing::refusal([&] { return sobol(4, most); }), "");
  EXPECT_NE(testing::refusal([&] { return sobol(4, most + 1); }), "");
  const auto shares = [](int axes) { return Design(plan_of(DesignKind::variance_shares, 4), axes); };
  EXPECT_EQ(testing::refusal([&] { return shares(most / 2); }), "")
      << "A and B are one point of twice the axes";
  EXPECT_NE(testing::refusal([&] { return shares(most / 2 + 1); }), "");
  EXPECT_EQ(testing::refusal([&] { return Design(grid_plan({2, 3}), 3); }), "a grid has one axis a factor");
}

TEST(Design, LatinHypercubeHasOnePointInEverySliceOfEveryAxis) {
  // McKay, Beckman & Conover 1979 [pub]: whatever the number of points.
  for (const long n : {1L, 2L, 3L, 7L, 64L, 65L, 100L, 997L, 4096L}) {
    const Eigen::ArrayXXd points = all_points(latin(n, 5));
    for (Eigen::Index axis = 0; axis < 5; ++axis) {
      std::vector<int> met(static_cast<std::size_t>(n));
      for (long p = 0; p < n; ++p) ++met.at(static_cast<std::size_t>(slice(points(p, axis), n)));
      EXPECT_EQ(std::count(met.begin(), met.end(), 1), n) << n << " points, axis " << axis;
    }
  }
}

TEST(Design, LatinHypercubesPointsStandAnywhereInTheirSlices) {
  // Places in the slices of 10,000 points, in 50 bins: chi-square's probability within its middle 99.8 %.
  const Eigen::ArrayXXd points = all_points(latin(10000, 1));
  std::vector<double> bins(50);
  for (long p = 0; p < 10000; ++p) {
    const double place = points(p, 0) * 10000.0;
    bins[static_cast<std::size_t>((place - std::floor(place)) * 50.0)] += 1.0;
  }
  double chi_square = 0.0;
  for (const double count : bins) chi_square += (count - 200.0) * (count - 200.0) / 200.0;
  const double probability = boost::math::gamma_q(24.5, 0.5 * chi_square);
  EXPECT_GT(probability, 0.001);
  EXPECT_LT(probability, 0.999);
}

TEST(Design, LatinHypercubesAxesAreUncorrelated) {
  // Correlation of two random orders of n: standard error 1/sqrt(n - 1) [hb: Kendall]; 4/sqrt(n) for all 45
  // pairs of ten axes (probability 0.3 % that one of 45 goes beyond).
  for (const long n : {50L, 200L, 2000L}) {
    const Eigen::ArrayXXd points = all_points(latin(n, 10));
    for (Eigen::Index a = 0; a < 10; ++a) {
      for (Eigen::Index b = a + 1; b < 10; ++b) {
        const double together = ((points.col(a) - 0.5) * (points.col(b) - 0.5)).mean() * 12.0;
        EXPECT_NEAR(together, 0.0, 4.0 / std::sqrt(static_cast<double>(n))) << n << ": " << a << ", " << b;
      }
    }
  }
}

TEST(Design, LatinHypercubeTakesTheSumsVarianceAway) {
  // Stein, Technometrics 29, 1987 [pub]: what is a sum of functions of one axis each is integrated with the
  // variance of the places in the slices only. For u_1 + u_2 + u_3 that is 3 (1/12)/n^3, against 3 (1/12)/n
  // at random. Mean square error over 400 seeds within four standard errors of a mean of squares.
  const long n = 20;
  double square = 0.0;
  for (long seed = 0; seed < 400; ++seed) {
    const double error = all_points(latin(n, 3, seed)).rowwise().sum().mean() - 1.5;
    square += error * error / 400.0;
  }
  EXPECT_NEAR(square / (0.25 / static_cast<double>(n * n * n)), 1.0, 4.0 * std::sqrt(2.0 / 400.0));
}

TEST(Design, TrajectoriesMoveEveryAxisOnceByHalf) {
  // Morris 1991 [pub]: axes + 1 points a trajectory. With levels at the middles of their shares a step of
  // half of the levels is 1/2 exactly.
  for (const int levels : {2, 4, 6, 10}) {
    const Design design = trajectories(50, levels, 7);
    ASSERT_EQ(design.points(), 50 * 8);
    for (long trajectory = 0; trajectory < 50; ++trajectory) {
      std::vector<int> moves(7);
      for (long step = 0; step < 7; ++step) {
        const Eigen::ArrayXd moved =
            design.point(8 * trajectory + step + 1) - design.point(8 * trajectory + step);
        EXPECT_EQ((moved != 0.0).count(), 1) << "one axis a step";
        for (Eigen::Index axis = 0; axis < 7; ++axis) {
          if (moved(axis) == 0.0) continue;
          EXPECT_NEAR(std::abs(moved(axis)), 0.5, 2.3e-16);
          ++moves[static_cast<std::size_t>(axis)];
        }
      }
      EXPECT_EQ(std::count(moves.begin(), moves.end(), 1), 7) << "every axis once";
    }
    for (long p = 0; p < design.points(); ++p) {
      const Eigen::ArrayXd place = design.point(p) * levels - 0.5;
      EXPECT_LT((place - place.round()).abs().maxCoeff(), 1e-14) << "on the grid";
    }
  }
}

TEST(Design, TrajectoriesMeetEveryLevelEquallyOftenAndGoUpAsOftenAsDown) {
  // 4000 trajectories: at the first point, at the last and at the one between, each of six levels in a sixth;
  // the first move goes up in half, and takes any of three axes in a third, after each of them any other in
  // half. Within four standard errors of shares of 4000 (or of 4000/3).
  const int levels = 6;
  const Design design = trajectories(4000, levels, 3);
  Eigen::ArrayXXd met = Eigen::ArrayXXd::Zero(4, levels), order = Eigen::ArrayXXd::Zero(3, 3);
  double up = 0.0;
  for (long trajectory = 0; trajectory < 4000; ++trajectory) {
    Eigen::Index moved[3] = {};
    for (long step = 0; step < 4; ++step) {
      const Eigen::ArrayXd here = design.point(4 * trajectory + step);
      met(step, slice(here(1), levels)) += 1.0;
      if (step == 0) continue;
      const Eigen::ArrayXd change = here - design.point(4 * trajectory + step - 1);
      change.abs().maxCoeff(&moved[step - 1]);
      if (change(moved[step - 1]) > 0.0) up += 1.0;
    }
    order(moved[0], moved[1]) += 1.0;
  }
  const auto share_error = [](double share, double n) { return 4.0 * std::sqrt(share * (1.0 - share) / n); };
  for (Eigen::Index step = 0; step < 4; ++step) {
    for (Eigen::Index level = 0; level < levels; ++level) {
      EXPECT_NEAR(met(step, level) / 4000.0, 1.0 / 6.0, share_error(1.0 / 6.0, 4000.0)) << step << level;
    }
  }
  EXPECT_NEAR(up / 12000.0, 0.5, share_error(0.5, 12000.0));
  for (Eigen::Index a = 0; a < 3; ++a) {
    EXPECT_EQ(order(a, a), 0.0);
    for (Eigen::Index b = 0; b < 3; ++b) {
      if (a == b) continue;
      EXPECT_NEAR(order(a, b) / 4000.0, 1.0 / 6.0, share_error(1.0 / 6.0, 4000.0)) << a << ", then " << b;
    }
  }
}

TEST(Design, VarianceSharesAreBlocksOfAAndBAndAWithOneAxisOfB) {
  // Saltelli et al. 2010 [pub], rows as variance_shares() wants them.
  const int axes = 4;
  const Design design(plan_of(DesignKind::variance_shares, 100, 5), axes);
  ASSERT_EQ(design.points(), 600);
  const Design pairs = sobol(100, 2 * axes, 5);
  for (long block = 0; block < 100; ++block) {
    const Eigen::ArrayXd A = design.point(6 * block), B = design.point(6 * block + 1);
    for (Eigen::Index axis = 0; axis < axes; ++axis) {
      Eigen::ArrayXd expected = A;
      expected(axis) = B(axis);
      EXPECT_TRUE((design.point(6 * block + 2 + axis) == expected).all()) << block << ", " << axis;
      EXPECT_NE(A(axis), B(axis));
    }
    EXPECT_TRUE((pairs.point(block).head(axes) == A).all());
    EXPECT_TRUE((pairs.point(block).tail(axes) == B).all());
  }
}

TEST(Design, ATableOnlyCounts) {
  SweepPlan plan = plan_of(DesignKind::table, 0);
  plan.design.rows = {{1.0}, {2.0}, {3.0}};
  EXPECT_EQ(Design(plan, 1).points(), 3);
}

}  // namespace
}  // namespace dullcast::sweep
