#include <gtest/gtest.h>

#include <algorithm>
#include <boost/math/special_functions/gamma.hpp>
#include <boost/random/sobol.hpp>
#include <cmath>
#include <set>

#include "engine/sweep/design.hpp"

// The Sobol sequence of design.hpp: what makes it evenly spread, and unbiased.
namespace dullcast::sweep {
namespace {

Design sobol(long points, int axes, long seed = 1) {
  SweepPlan plan;
  plan.design.kind = DesignKind::sobol_sequence;
  plan.design.points = points;
  plan.seed = seed;
  return Design(plan, axes);
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

TEST(SobolDesign, PointsAreBoostsSequencePointByPoint) {
  // Against the engine itself, set up for each point, far out too; shifts are the same for all points.
  constexpr int axes = 40;
  const Design design = sobol(1L << 40, axes);
  const Eigen::ArrayXd origin = design.point(0);
  const auto digits = [](double u) { return static_cast<std::uint64_t>(u * 0x1p52); };
  for (const long p : {1L, 2L, 3L, 4L, 5L, 1023L, 1024L, 777777L, (1L << 31) + 12345, (1L << 40) - 1}) {
    boost::random::sobol engine(axes);
    engine.seed(static_cast<std::uint64_t>(p - 1));
    const Eigen::ArrayXd u = design.point(p);
    for (Eigen::Index f = 0; f < axes; ++f)
      ASSERT_EQ(digits(u(f)) ^ digits(origin(f)), engine() >> 12) << "point " << p << " axis " << f;
  }
}

TEST(SobolDesign, EveryAlignedBlockOfASobolSequenceFillsEverySlice) {
  // 2^m points from a multiple of 2^m on: one in each 2^-m of every axis (Sobol 1967 [pub]), shifted or not.
  const Eigen::ArrayXXd points = all_points(sobol(4096, 12));
  for (int m = 1; m <= 12; ++m) {
    const long size = 1L << m;
    for (long from = 0; from < 4096; from += size) {
      for (Eigen::Index axis = 0; axis < 12; ++axis) {
        std::vector<bool> met(static_cast<std::size_t>(size));
        for (long p = from; p < from + size; ++p)
          met[static_cast<std::size_t>(slice(points(p, axis), size))] = true;
        ASSERT_EQ(std::count(met.begin(), met.end(), true), size) << "axis " << axis << " from " << from;
      }
    }
  }
}

TEST(SobolDesign, TheFirstTwoAxesOfASobolSequenceAreNetsOfQualityZero) {
  // Every aligned block of 2^m points has one in each box of 2^-i by 2^-(m - i): a (0, 2)-sequence in base 2
  // (Niederreiter, Random Number Generation and Quasi-Monte Carlo Methods, 1992, ch. 4 [hb]).
  const Eigen::ArrayXXd points = all_points(sobol(1024, 2, 7));
  for (int m = 1; m <= 10; ++m) {
    const long size = 1L << m;
    for (long from = 0; from < 1024; from += size) {
      for (int i = 0; i <= m; ++i) {
        std::set<std::pair<long, long>> boxes;
        for (long p = from; p < from + size; ++p) {
          boxes.insert({slice(points(p, 0), 1L << i), slice(points(p, 1), 1L << (m - i))});
        }
        ASSERT_EQ(static_cast<long>(boxes.size()), size) << m << ", " << i << ", from " << from;
      }
    }
  }
}

TEST(SobolDesign, SobolPointsFarOutAreStillNets) {
  // A block from 2^39 on, the trillions that a sweep may have: one in each slice.
  const Design far = sobol(1'000'000'000'000, 3);
  const long from = 1L << 39;
  for (Eigen::Index axis = 0; axis < 3; ++axis) {
    std::set<long> met;
    for (long p = from; p < from + 256; ++p) met.insert(slice(far.point(p)(axis), 256));
    EXPECT_EQ(met.size(), 256u) << axis;
  }
}

TEST(SobolDesign, TheShiftMakesASobolSequenceUnbiased) {
  // One point, and one of few: over 20,000 seeds every coordinate of a fixed point is uniform. Mean and mean
  // square within four standard errors, and chi-square over 64 bins at a probability of 1e-4.
  for (const long p : {0L, 1L, 5L}) {
    double mean = 0.0, square = 0.0;
    std::vector<double> bins(64);
    for (long seed = 0; seed < 20000; ++seed) {
      const double u = sobol(6, 2, seed).point(p)(1);
      mean += u / 20000.0;
      square += u * u / 20000.0;
      bins[static_cast<std::size_t>(slice(u, 64))] += 1.0;
    }
    EXPECT_NEAR(mean, 0.5, 4.0 * std::sqrt(1.0 / 12.0 / 20000.0)) << p;
    EXPECT_NEAR(square, 1.0 / 3.0, 4.0 * std::sqrt(4.0 / 45.0 / 20000.0)) << p;
    double chi_square = 0.0;
    for (const double count : bins) chi_square += (count - 312.5) * (count - 312.5) / 312.5;
    EXPECT_GT(boost::math::gamma_q(31.5, 0.5 * chi_square), 1e-4) << p;
  }
  // Axes are shifted independently: over seeds the first points of two axes are uncorrelated.
  double together = 0.0;
  for (long seed = 0; seed < 20000; ++seed) {
    const Eigen::ArrayXd u = sobol(1, 2, seed).point(0);
    together += 12.0 * (u(0) - 0.5) * (u(1) - 0.5) / 20000.0;
  }
  EXPECT_NEAR(together, 0.0, 4.0 / std::sqrt(20000.0));
}

}  // namespace
}  // namespace dullcast::sweep
