#include "engine/simulation/stage_sums.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

namespace dullcast::simulation::stage_sums {
namespace {

double drawn(int k) {
  return std::sin(1.0 + 12.9898 * k) * std::pow(10.0, k % 7 - 3);
}

// Lengths about whole blocks; the order of the sums decides their last digits.
TEST(StageSums, AreTheSumsOneByOneInTheOrderOfTheStagesToTheLastBit) {
  for (const Eigen::Index n : {1, 7, 8, 9, 40, 177}) {
    Stages stages;
    Eigen::VectorXd from(n);
    for (Eigen::Index k = 0; k < n; ++k) from(k) = drawn(static_cast<int>(k));
    for (std::size_t j = 0; j < stages.size(); ++j) {
      stages[j].resize(n);
      for (Eigen::Index k = 0; k < n; ++k)
        stages[j](k) = drawn(static_cast<int>(k + 100) * static_cast<int>(j + 2));
    }
    const Weights weights{0.3, -1.7, 2.1e-3, 0.77};
    for (std::size_t count = 1; count <= stages.size(); ++count) {
      Eigen::VectorXd sum = from;
      add(stages, weights, count, sum);
      for (Eigen::Index k = 0; k < n; ++k) {
        double one = from(k);
        for (std::size_t j = 0; j < count; ++j) one += weights[j] * stages[j](k);
        ASSERT_EQ(sum(k), one) << n << ' ' << count << ' ' << k;
      }
    }
  }
}

TEST(StageSums, TheGreatestShareIsFoundWhereverItStands) {
  for (const Eigen::Index n : {1, 8, 13, 40}) {
    Eigen::VectorXd scale = Eigen::VectorXd::Constant(n, 2.0);
    scale(n - 1) = std::numeric_limits<double>::infinity();
    for (Eigen::Index k = 0; k + 1 < n; ++k) {
      Eigen::VectorXd error = Eigen::VectorXd::Constant(n, 0.1);
      error(k) = -3.0;
      EXPECT_EQ(greatest_share(error, scale), 1.5) << n << ' ' << k;
    }
    EXPECT_EQ(greatest_share(Eigen::VectorXd::Constant(n, 1.0), scale), n > 1 ? 0.5 : 0.0);
  }
}

}  // namespace
}  // namespace dullcast::simulation::stage_sums
