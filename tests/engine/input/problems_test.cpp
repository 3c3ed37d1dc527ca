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
    ASSERT_EQ(errors.messages().size(), 201u);
    EXPECT_EQ(errors.messages().front(), "rows.csv:1:1: speed: is no value");
    EXPECT_EQ(errors.messages().back(), "rows.csv: and 99800 more mistakes, which are not listed");
  }
}

TEST(Problems, AFewAreAllToldAndNothingElse) {
  Problems problems;
  for (int line = 200; line >= 1; --line) problems.error({"a.yaml", line, 1}, "", "is wrong");
  try {
    problems.throw_if_any();
    FAIL() << "there are mistakes";
  } catch (const ScenarioErrors& errors) {
    ASSERT_EQ(errors.messages().size(), 200u);
    EXPECT_EQ(errors.messages().back(), "a.yaml:200:1: is wrong");
  }
}

}  // namespace
}  // namespace dullcast::input
