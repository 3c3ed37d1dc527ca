#include "engine/statistics/elementary_effects.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "support/refusal.hpp"

namespace dullcast::statistics {
namespace {

/// Two walks of two factors: up in the first, then up in the second; the other way round and down.
Eigen::ArrayXXd two_walks() {
  Eigen::ArrayXXd x(6, 2);
  x << 0, 0, 0.5, 0, 0.5, 0.5,  //
      1, 1, 1, 0.5, 0.5, 0.5;
  return x;
}

TEST(ElementaryEffects, OfAProductAreTheOtherFactor) {
  // y = a b: the effect of a is b where a moves, and so on; by hand from the walks above.
  const Eigen::ArrayXXd x = two_walks();
  const ElementaryEffects found = elementary_effects(x.col(0) * x.col(1), x, {});
  ASSERT_EQ(found.factors.size(), 2u);
  EXPECT_NEAR(found.factors[0].mean, (0.0 + 0.5) / 2.0, 1e-15);
  EXPECT_NEAR(found.factors[1].mean, (0.5 + 1.0) / 2.0, 1e-15);
  EXPECT_NEAR(found.factors[0].spread, 0.5 / std::sqrt(2.0), 1e-15);
  EXPECT_EQ(found.trajectories, 2);
}

TEST(ElementaryEffects, SizesDoNotCancel) {
  const Eigen::ArrayXXd x = two_walks();
  // y = |a - 0.5|: falls on the first walk, and falls on the second going down, so rises with a there.
  const ElementaryEffects found = elementary_effects((x.col(0) - 0.5).abs(), x, {});
  EXPECT_NEAR(found.factors[0].mean, 0.0, 1e-15);
  EXPECT_NEAR(found.factors[0].mean_size, 1.0, 1e-15);
  EXPECT_NEAR(found.factors[0].mean_size_range.low, 1.0, 1e-15)
      << "both walks have size 1, so has any resample";
}

TEST(ElementaryEffects, AWalkWithAFailureIsLeftOut) {
  const Eigen::ArrayXXd x = two_walks();
  Eigen::ArrayXd y = x.col(0) * x.col(1);
  y(1) = std::nan("");
  const ElementaryEffects found = elementary_effects(y, x, {});
  EXPECT_EQ(found.trajectories, 1);
  EXPECT_EQ(found.left_out, 1);
  EXPECT_NEAR(found.factors[0].mean, 0.5, 1e-15);
  EXPECT_TRUE(std::isnan(found.factors[0].spread)) << "one walk has no spread";
}

TEST(ElementaryEffects, RefusesWhatIsNoWalk) {
  Eigen::ArrayXXd still = two_walks(), both = two_walks(), again = two_walks();
  still(1, 0) = 0.0;
  both(1, 1) = 0.5;
  again(2, 0) = 1.0;
  again(2, 1) = 0.0;
  const Eigen::ArrayXd y = Eigen::ArrayXd::Zero(6);
  EXPECT_NE(testing::refusal([&] { return elementary_effects(y, still, {}); }).find("none"),
            std::string::npos);
  EXPECT_NE(testing::refusal([&] { return elementary_effects(y, both, {}); }).find("more"),
            std::string::npos);
  EXPECT_NE(testing::refusal([&] { return elementary_effects(y, again, {}); }).find("again"),
            std::string::npos);
  EXPECT_NE(testing::refusal([&] { return elementary_effects(y.head(5), two_walks().topRows(5), {}); }), "");
  EXPECT_NE(testing::refusal([&] { return elementary_effects(y.head(5), two_walks(), {}); }), "");
}

}  // namespace
}  // namespace dullcast::statistics
