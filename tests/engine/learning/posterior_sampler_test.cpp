#include "engine/learning/posterior_sampler.hpp"

#include <gtest/gtest.h>

#include <Eigen/LU>
#include <cmath>

#include "engine/learning/planted_shelf.hpp"

namespace dullcast::learning {
namespace {

/// A normal density, of which mean and covariance are known [hb]. Some thousand independent draws' worth:
/// errors of 3 % of a deviation, here within five of them.
TEST(PosteriorSampler, DrawsANormalDensityAsItIs) {
  Eigen::Matrix3d covariance;
  covariance << 1.0, 0.8, -0.3, 0.8, 2.0, 0.1, -0.3, 0.1, 0.5;
  const Eigen::Vector3d mean(1.0, -2.0, 0.5);
  const Eigen::Matrix3d information = covariance.inverse();
  SamplerOptions options;
  options.steps = 20000;
  const Sampled drawn =
      sample([&](const Eigen::VectorXd& x) { return -0.5 * (x - mean).dot(information * (x - mean)); }, mean,
             covariance, options);
  EXPECT_LT(drawn.worst_mixing, 1.02);
  EXPECT_GT(drawn.accepted, 0.2);
  EXPECT_LT(drawn.accepted, 0.5);
  const Eigen::VectorXd found = drawn.mean(), spread = drawn.deviation();
  for (Eigen::Index i = 0; i < 3; ++i) {
    const double deviation = std::sqrt(covariance(i, i));
    EXPECT_NEAR(found(i), mean(i), 0.15 * deviation) << i;
    EXPECT_NEAR(spread(i), deviation, 0.15 * deviation) << i;
    EXPECT_NEAR(drawn.quantile(i, 0.95), mean(i) + 1.645 * deviation, 0.25 * deviation) << i;
  }
}

TEST(PosteriorSampler, TheSameOnTwoThreads) {
  const auto density = [](const Eigen::VectorXd& x) { return -x.squaredNorm(); };
  SamplerOptions options;
  options.steps = 100;
  const Eigen::MatrixXd one =
      sample(density, Eigen::Vector2d::Zero(), Eigen::Matrix2d::Identity(), options).draws;
  options.threads = 2;
  EXPECT_EQ(one, sample(density, Eigen::Vector2d::Zero(), Eigen::Matrix2d::Identity(), options).draws);
  options.chains = 1;
  EXPECT_THROW(sample(density, Eigen::Vector2d::Zero(), Eigen::Matrix2d::Identity(), options),
               std::invalid_argument);
}

}  // namespace
}  // namespace dullcast::learning
