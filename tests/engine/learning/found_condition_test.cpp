#include "engine/learning/found_condition.hpp"

#include <gtest/gtest.h>

#include "engine/learning/planted_shelf.hpp"
#include "engine/simulation/run.hpp"

namespace dullcast::learning {
namespace {

scenario::ShelvedBit come_back() {
  scenario::ShelvedBit bit;
  bit.run = testing::fleet_run(1);
  bit.run.numbers.abrasion_coefficient = samples::exactly(1e-15);
  return bit;
}

simulation::BitCondition as_run(const scenario::ShelvedBit& bit) {
  return simulation::run(bit.run, {}, simulation::Rows::left_out).end;
}

TEST(FoundCondition, WithoutFindingsItIsAsTheRunLeavesIt) {
  const scenario::ShelvedBit bit = come_back();
  const FoundCondition found = found_condition(bit);
  EXPECT_TRUE((found.bit.worn_height == as_run(bit).worn_height).all());
  EXPECT_EQ(found.wear_factor, 1.0);
  EXPECT_EQ(found.measured, 0);
  EXPECT_EQ(found.scaled, 7);
}

TEST(FoundCondition, WhatWasNotReadIsTheRunsScaledToWhatWas) {
  scenario::ShelvedBit bit = come_back();
  const Eigen::ArrayXd worn = as_run(bit).worn_height;
  bit.found.cutters.resize(7);
  bit.found.cutters[1].worn_height = 1.4 * worn(1);
  bit.found.cutters[4].worn_height = 1.6 * worn(4);
  bit.found.cutters[5].worn_height = 5e-3;  // where it broke, so it says nothing of wear
  bit.found.cutters[5].chipped = true;
  bit.found.cutters[6].worn_height = 3.0 * worn(6);
  bit.found.cutters[6].at_least = true;
  const FoundCondition found = found_condition(bit);
  const double factor = (1.4 * worn(1) + 1.6 * worn(4)) / (worn(1) + worn(4));
  EXPECT_NEAR(found.wear_factor, factor, 1e-12);
  EXPECT_EQ(found.measured, 2);
  EXPECT_EQ(found.scaled, 4);
  EXPECT_NEAR(found.bit.worn_height(0), factor * worn(0), 1e-12);
  EXPECT_NEAR(found.bit.worn_height(1), 1.4 * worn(1), 1e-12);
  EXPECT_NEAR(found.bit.worn_height(5), 5e-3, 1e-12);
  EXPECT_NEAR(found.bit.worn_height(6), 3.0 * worn(6), 1e-12);
  EXPECT_EQ(found.bit.chips(5), 1);
}

TEST(FoundCondition, ADullGradeScalesWhereNoHeightWasRead) {
  scenario::ShelvedBit bit = come_back();
  bit.found.outer_grade = scenario::GradeSeen{3.0, false};
  const FoundCondition found = found_condition(bit);
  EXPECT_TRUE(found.by_grade);
  PredictedBit shape = predict(bit.run);
  const std::vector<bool> none(7, false);
  EXPECT_NEAR(*zone_grade(shape, found.bit.worn_height, none, true), 3.0, 1e-4);
}

TEST(FoundCondition, MarksAreAsSeenAndCountsGoToTheLikeliest) {
  scenario::ShelvedBit bit = come_back();
  bit.found.cutters.resize(7);
  bit.found.cutters[0].lost = true;
  bit.found.cutters[1].renewed = true;
  bit.found.cutters[2].heat_checked = true;
  FoundCondition found = found_condition(bit);
  EXPECT_EQ(found.bit.lost(0), 1);
  EXPECT_EQ(found.bit.lost.sum(), 1);
  EXPECT_EQ(found.bit.worn_height(1), 0.0);
  EXPECT_EQ(found.bit.chip_hazard(1), 0.0);
  EXPECT_GE(found.bit.heat_damage(2), ReadingLaw{}.heat_check_damage);
  bit.found.cutters.clear();
  bit.found.chipped = 2;
  found = found_condition(bit);
  EXPECT_EQ(found.bit.chips.sum(), 2);
  Eigen::Index worst = 0;
  as_run(bit).chip_hazard.maxCoeff(&worst);
  EXPECT_EQ(found.bit.chips(worst), 1);
  bit.found.cutters.resize(3);
  EXPECT_THROW(found_condition(bit), std::invalid_argument);
}

}  // namespace
}  // namespace dullcast::learning
