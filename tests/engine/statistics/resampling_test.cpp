#include "engine/statistics/resampling.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "engine/statistics/counter_random.hpp"
#include "support/refusal.hpp"

namespace dullcast::statistics {
namespace {

Eigen::ArrayXd mean_of(const Eigen::ArrayXd& values, const std::vector<long>& chosen) {
  double sum = 0.0;
  for (const long k : chosen) sum += values(k);
  return Eigen::ArrayXd::Constant(1, sum / static_cast<double>(chosen.size()));
}

TEST(Resampling, IntervalOfAMeanIsTheNormalOne) {
  // The bootstrap of a mean has the standard error s/sqrt(n) with s^2 over n, and for many rows it is normal.
  // Of 20,000 resamples the 2.5 % point itself has a standard error of 1.7 % of the half width (normal
  // order statistic: sqrt(0.025 0.975/20000)/0.0584/1.96); 5 % is three of them.
  Eigen::ArrayXd values(400);
  for (Eigen::Index k = 0; k < values.size(); ++k)
    values(k) = standard_normal_at(5, 0, static_cast<std::uint64_t>(k));
  const double mean = values.mean(), error = std::sqrt((values - mean).square().mean() / 400.0);
  const auto found =
      resampled_intervals(400, {1, 20000, 0.95}, [&](const auto& chosen) { return mean_of(values, chosen); });
  ASSERT_EQ(found.size(), 1u);
  EXPECT_NEAR((mean - found[0].low) / (1.959964 * error), 1.0, 0.05);
  EXPECT_NEAR((found[0].high - mean) / (1.959964 * error), 1.0, 0.05);
}

TEST(Resampling, TheSameSeedGivesTheSameBits) {
  const Eigen::ArrayXd values = Eigen::ArrayXd::LinSpaced(30, 0.0, 1.0);
  const auto statistic = [&](const std::vector<long>& chosen) { return mean_of(values, chosen); };
  const auto a = resampled_intervals(30, {7, 500, 0.9}, statistic),
             b = resampled_intervals(30, {7, 500, 0.9}, statistic),
             other = resampled_intervals(30, {8, 500, 0.9}, statistic);
  EXPECT_EQ(a[0].low, b[0].low);
  EXPECT_EQ(a[0].high, b[0].high);
  EXPECT_NE(a[0].low, other[0].low);
}

TEST(Resampling, OneRowOrANumberThatIsNoneHasNoInterval) {
  const auto one = resampled_intervals(1, {}, [](const auto&) { return Eigen::ArrayXd::Constant(1, 3.0); });
  EXPECT_TRUE(std::isnan(one[0].low) && std::isnan(one[0].high));
  const auto none =
      resampled_intervals(9, {}, [](const auto&) { return Eigen::ArrayXd::Constant(1, std::nan("")); });
  EXPECT_TRUE(std::isnan(none[0].low));
}

TEST(Resampling, RefusesTailsThatTheResamplesCannotTell) {
  const auto statistic = [](const std::vector<long>&) { return Eigen::ArrayXd::Constant(1, 0.0); };
  EXPECT_NE(testing::refusal([&] { return resampled_intervals(5, {1, 100, 0.999}, statistic); }), "");
  EXPECT_EQ(testing::refusal([&] { return resampled_intervals(5, {1, 100, 0.95}, statistic); }), "");
}

}  // namespace
}  // namespace dullcast::statistics
