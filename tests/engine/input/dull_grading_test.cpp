#include "engine/input/dull_grading.hpp"

#include <gtest/gtest.h>

#include "engine/input/reading.hpp"

// The trade's open system of dull grading for fixed-cutter bits, and single grades.
namespace dullcast::input {
namespace {

using testing::Messages;

struct Graded {
  scenario::InspectedBit bit;
  Messages errors;
};

Graded graded(const std::string& yaml) {
  Graded result;
  Problems problems;
  Reading reading{testing::reader().units(), problems};
  const YamlValue root = parse_yaml(yaml, "shelf.yaml", problems);
  MapReader map(root, "", reading);
  result.bit.inner_grade = read_grade(map, "inner_grade");
  result.bit.outer_grade = read_grade(map, "outer_grade");
  read_dull_grading(map, result.bit);
  for (const Warning& error : problems.errors()) result.errors.push_back(error.text);
  return result;
}

TEST(DullGrading, TheEightFieldsGoOntoTheRecord) {
  const Graded all = graded("dull_grading: 2-4-wt-S-X-2-CT-TD");
  EXPECT_EQ(all.errors, Messages{});
  EXPECT_EQ(all.bit.inner_grade->grade, 2.0);
  EXPECT_EQ(all.bit.outer_grade->grade, 4.0);
  EXPECT_EQ(all.bit.characteristics, (Messages{"worn cutters", "chipped cutters"}));
  EXPECT_TRUE(all.bit.some_chipped);
  EXPECT_FALSE(all.bit.some_lost || all.bit.some_heat_checked || all.bit.some_bared);
  EXPECT_EQ(all.bit.graded_where, "shoulder");
  EXPECT_NEAR(*all.bit.gauge_loss, 2.0 / 16.0 * 25.4e-3, 1e-12);
  EXPECT_EQ(all.bit.reason_pulled, "total depth");
  const Graded other = graded("dull_grading: '0, 8, LT, G, X, 1/8, HC, PR'");
  EXPECT_TRUE(other.bit.some_lost && other.bit.some_heat_checked && !other.bit.some_chipped);
  EXPECT_NEAR(*other.bit.gauge_loss, 25.4e-3 / 8.0, 1e-12);
  EXPECT_EQ(*graded("dull_grading: 1 1 NO A X I NO HR").bit.gauge_loss, 0.0);
}

TEST(DullGrading, WhatTheSystemDoesNotKnowIsToldFieldByField) {
  EXPECT_EQ(graded("dull_grading: 9-4-ZZ-Q-E-3/7-CT-XX").errors.size(), 6u);
  const Messages seven = graded("dull_grading: 2-4-WT-S-X-I-CT").errors;
  ASSERT_EQ(seven.size(), 1u);
  EXPECT_TRUE(seven[0].starts_with("\"2-4-WT-S-X-I-CT\" has 7 fields, not eight; write inner, outer,"))
      << seven[0];
  EXPECT_EQ(graded("dull_grading: 2-4-WT-S-X-I-LC-TD").errors.size(), 1u) << "a lost cone";
  const Messages both = graded("{outer_grade: 3, dull_grading: 2-4-WT-S-X-I-NO-TD}").errors;
  ASSERT_EQ(both.size(), 1u);
  EXPECT_EQ(both[0], "grades the outer rows 4, but outer_grade says otherwise; keep one of them");
}

TEST(DullGrading, AGradeIsAWholeNumberOrALeastOne) {
  EXPECT_EQ(graded("inner_grade: 8").bit.inner_grade->grade, 8.0);
  const Graded least = graded("outer_grade: At least 6");
  EXPECT_EQ(least.bit.outer_grade->grade, 6.0);
  EXPECT_TRUE(least.bit.outer_grade->at_least);
  for (const char* wrong : {"9", "-1", "2.5", "at least", "two", "[2]", "at least 6 mm"}) {
    const Graded read = graded(std::string("inner_grade: ") + wrong);
    EXPECT_EQ(read.errors.size(), 1u) << wrong;
    EXPECT_FALSE(read.bit.inner_grade) << wrong;
  }
}

}  // namespace
}  // namespace dullcast::input
