#include "engine/input/problems.hpp"

#include <gtest/gtest.h>

#include <string>

namespace dullcast::input {
namespace {

TEST(Problems, OfAHundredThousandMistakesTheFirstAreToldAndTheRestCounted) {
  Problems problems;
  for (int line = 1; line <= 100'000; ++line) problems.error({"rows.csv", line, 1}, "speed", "is no value");
  EXPECT_EQ(problems.error_count(), 100'000u);
  try {
    problems.throw_if_any();
    FAIL() << "there are mistakes";
  } catch (const ScenarioErrors& errors) {
    ASSERT_EQ(errors.messages().size(), 51u);
    EXPECT_EQ(errors.messages().front(), "rows.csv:1:1: speed: is no value");
    EXPECT_EQ(errors.messages().back(), "and 99950 more errors, not shown");
  }
}

TEST(Problems, AFewAreAllToldAndNothingElse) {
  Problems problems;
  for (int line = 50; line >= 1; --line) problems.error({"a.yaml", line, 1}, "", "is wrong");
  try {
    problems.throw_if_any();
    FAIL() << "there are mistakes";
  } catch (const ScenarioErrors& errors) {
    ASSERT_EQ(errors.messages().size(), 50u);
    EXPECT_EQ(errors.messages().back(), "a.yaml:50:1: is wrong");
  }
}

}  // namespace
}  // namespace dullcast::input
