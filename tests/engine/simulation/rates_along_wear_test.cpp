#include "engine/simulation/rates_along_wear.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace dullcast::simulation {
namespace {

TEST(RatesAlongWear, AreTheTrapezoidWhereWearDoesNotBend) {
  const Eigen::Array3d even(2.0, 1.0, 0.0);
  EXPECT_EQ(wear_bends(even, even), 0.0);
  EXPECT_EQ(wear_bends(Eigen::Array3d::Zero(), Eigen::Array3d::Zero()), 0.0);
  EXPECT_EQ(count_of_far_end(0.0), 0.5);
}

// Wear y' = r y from y = 1 over a step of 1: the straight step ends at 1 + r, where its rate is r (1 + r).
// What is gained is e^r - 1, and the integral of y, the time of a bit whose pace goes with its wear, (e^r -
// 1)/r.
TEST(RatesAlongWear, AreExactForRatesLinearInWear) {
  for (const double r : {-1.0, -0.4, -0.01, 0.01, 0.4, 1.0}) {
    const Eigen::ArrayXd first = Eigen::ArrayXd::Constant(1, r),
                         last = Eigen::ArrayXd::Constant(1, r * (1.0 + r));
    const double bends = wear_bends(first, last), counts = count_of_far_end(bends);
    EXPECT_NEAR(bends, r, 1e-15);
    EXPECT_NEAR((1.0 - counts) * first(0) + counts * last(0), std::expm1(r), 4e-16);
    EXPECT_NEAR(1.0 - counts + counts * (1.0 + r), std::expm1(r) / r, 4e-16);
  }
}

// The cutters that wear most say how wear bends; one that hardly wears may do as it likes.
TEST(RatesAlongWear, FollowTheCuttersThatWearMost) {
  const Eigen::Array2d first(1.0, 1e-3), last(0.9, 1e-2);
  EXPECT_NEAR(wear_bends(first, last), -0.1, 1e-4);
  EXPECT_EQ(wear_bends(first, 5.0 * last), 1.0) << "and no more than that a step";
}

}  // namespace
}  // namespace dullcast::simulation
