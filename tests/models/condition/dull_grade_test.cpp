#include "models/condition/dull_grade.hpp"

#include <gtest/gtest.h>

#include <limits>

#include "support/refusal.hpp"

namespace dullcast::condition {
namespace {

Eigen::ArrayXd array(std::initializer_list<double> values) {
  Eigen::ArrayXd made(static_cast<Eigen::Index>(values.size()));
  Eigen::Index i = 0;
  for (const double value : values) made[i++] = value;
  return made;
}

TEST(DullGrade, AveragesEachZoneOnItsOwn) {
  const DullGrade grade = dull_grade(array({0.02, 0.05, 0.08, 0.095}), 0.1, array({0.0, 1e-3, 2e-3, 3e-3}),
                                     array({4e-3, 4e-3, 4e-3, 4e-3}));
  EXPECT_NEAR(grade.inner.value(), 1.0, 1e-14);  // 8 (0 + 1/4)/2
  EXPECT_NEAR(grade.outer.value(), 5.0, 1e-14);  // 8 (1/2 + 3/4)/2
}

TEST(DullGrade, CountsNoCutterBeyondItsUsableHeight) {
  const double infinity = std::numeric_limits<double>::infinity();
  const DullGrade grade = dull_grade(array({0.09, 0.095}), 0.1, array({infinity, 5e-3}), array({4e-3, 4e-3}));
  EXPECT_EQ(grade.outer.value(), 8.0);
}

TEST(DullGrade, SaysWhenAZoneIsEmpty) {
  EXPECT_FALSE(dull_grade(array({0.09}), 0.1, array({0.0}), array({4e-3})).inner.has_value());
  EXPECT_FALSE(dull_grade(array({0.01}), 0.1, array({0.0}), array({4e-3})).outer.has_value());
  EXPECT_EQ(dull_grade(array({0.01}), 0.1, array({0.0}), array({4e-3})).inner.value(), 0.0);
}

TEST(DullGrade, UsesEachCuttersOwnUsableHeight) {
  const DullGrade grade = dull_grade(array({0.09, 0.095}), 0.1, array({1e-3, 1e-3}), array({2e-3, 4e-3}));
  EXPECT_NEAR(grade.outer.value(), 3.0, 1e-14);
}

TEST(DullGrade, PutsTheBoundaryWithTheInnerZone) {
  // 0.06 is exactly two thirds of 0.09 within rounding: 2/3 * 0.09 = 0.06 in doubles.
  const DullGrade grade = dull_grade(array({0.06}), 0.09, array({1e-3}), array({4e-3}));
  EXPECT_TRUE(grade.inner.has_value());
  EXPECT_FALSE(grade.outer.has_value());
}

TEST(DullGrade, RefusesWhatHasNoMeaning) {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  const auto one = array({0.05}), height = array({4e-3}), wear = array({1e-3});
  EXPECT_NE(testing::refusal([&] { return dull_grade(one, 0.1, array({1e-3, 1e-3}), height); }), "");
  EXPECT_NE(testing::refusal([&] { return dull_grade(one, 0.1, wear, array({1e-3, 1e-3})); }), "");
  EXPECT_NE(testing::refusal([&] { return dull_grade(one, 0.1, wear, array({0.0})); }), "");
  EXPECT_NE(testing::refusal([&] { return dull_grade(one, 0.1, wear, array({nan})); }), "");
  EXPECT_NE(testing::refusal([&] { return dull_grade(one, 0.1, array({nan}), height); }), "");
  EXPECT_NE(testing::refusal([&] { return dull_grade(array({nan}), 0.1, wear, height); }), "");
  EXPECT_NE(testing::refusal([&] { return dull_grade(one, nan, wear, height); }), "");
}

}  // namespace
}  // namespace dullcast::condition
