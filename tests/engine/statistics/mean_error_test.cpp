#include "engine/statistics/mean_error.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "engine/statistics/quantile_bounds.hpp"

namespace dullcast::statistics {
namespace {

TEST(MeanError, IsTheErrorOfTheMean) {
  const MeanError more = mean_error({1.0, 2.0, 3.0, 6.0});
  EXPECT_DOUBLE_EQ(more.mean, 3.0);
  EXPECT_DOUBLE_EQ(more.error, std::sqrt(14.0 / 3.0 / 4.0));
}

TEST(MeanError, OneValueHasNoErrorAndNoneHasNoMean) {
  EXPECT_EQ(mean_error({2.5}).mean, 2.5);
  EXPECT_TRUE(std::isnan(mean_error({2.5}).error));
  EXPECT_TRUE(std::isnan(mean_error({}).mean));
}

TEST(RankThatReaches, AShareThatIsAWholeNumberOfValuesIsThatNumber) {
  EXPECT_EQ(rank_that_reaches(0.1, 30), 3);
  EXPECT_EQ(rank_that_reaches(0.1, 31), 4);
  EXPECT_EQ(rank_that_reaches(0.5, 10), 5);
  EXPECT_EQ(rank_that_reaches(0.9, 10), 9);
  EXPECT_EQ(rank_that_reaches(0.0, 5), 1);
  EXPECT_EQ(rank_that_reaches(1.0, 5), 5);
}

}  // namespace
}  // namespace dullcast::statistics
