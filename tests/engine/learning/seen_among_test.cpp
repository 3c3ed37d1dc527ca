#include "engine/learning/seen_among.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace dullcast::learning {
namespace {

double factorial(int n) {
  return std::tgamma(n + 1.0);
}

Marks counted(int cutters, int count) {
  Marks marks;
  for (int i = 0; i < cutters; ++i) marks.looked_at.push_back(i);
  marks.count = count;
  return marks;
}

TEST(MarksCounted, EqualChancesGiveTheBinomialLaw) {
  // [hb] P(k of n) = n!/(k! (n - k)!) p^k (1 - p)^(n - k)
  const int n = 18;
  const double p = 0.13;
  double all = 0.0;
  for (int k = 0; k <= n; ++k) {
    const double closed =
        factorial(n) / (factorial(k) * factorial(n - k)) * std::pow(p, k) * std::pow(1.0 - p, n - k);
    const double found = std::exp(log_chance_of_marks(counted(n, k), Eigen::ArrayXd::Constant(n, p), 0.0));
    EXPECT_NEAR(found, closed, 1e-13) << k;
    all += found;
  }
  EXPECT_NEAR(all, 1.0, 1e-12);
  EXPECT_EQ(log_chance_of_marks(counted(3, 4), Eigen::ArrayXd::Constant(3, p), 0.0),
            -std::numeric_limits<double>::infinity());
}

TEST(MarksCounted, ACountIsTheSumOverAllListsThatHaveIt) {
  const Eigen::ArrayXd p = (Eigen::ArrayXd(4) << 0.1, 0.35, 0.6, 0.02).finished();
  for (int count = 0; count <= 4; ++count) {
    double sum = 0.0;
    for (int list = 0; list < 16; ++list) {
      if (__builtin_popcount(static_cast<unsigned>(list)) != count) continue;
      Marks marks;
      for (int i = 0; i < 4; ++i) {
        marks.looked_at.push_back(i);
        marks.marked.push_back((list >> i & 1) != 0);
      }
      sum += std::exp(log_chance_of_marks(marks, p, 0.0));
    }
    EXPECT_NEAR(std::exp(log_chance_of_marks(counted(4, count), p, 0.0)), sum, 1e-14) << count;
  }
}

TEST(MarksCounted, SlopesAreDifferences) {
  const Eigen::ArrayXd p = (Eigen::ArrayXd(5) << 0.1, 0.35, 0.6, 0.02, 0.9).finished();
  Marks listed;
  listed.looked_at = {0, 2, 3};
  listed.marked = {true, false, false};
  for (const Marks& marks : {counted(5, 0), counted(5, 2), counted(5, 5), listed}) {
    Eigen::ArrayXd slope;
    log_chance_of_marks(marks, p, 0.004, slope);
    for (Eigen::Index i = 0; i < 5; ++i) {
      Eigen::ArrayXd above = p, below = p;
      above(i) += 1e-5;
      below(i) -= 1e-5;
      const double difference =
          (log_chance_of_marks(marks, above, 0.004) - log_chance_of_marks(marks, below, 0.004)) / 2e-5;
      // Second-order differences are off by the third derivative times 1e-10/6: by 1/p^3, 1e5 at most.
      EXPECT_NEAR(slope(i), difference, 1e-5 * (1.0 + std::abs(difference))) << i;
    }
  }
}

}  // namespace
}  // namespace dullcast::learning
