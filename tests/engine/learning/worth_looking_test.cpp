#include "engine/learning/worth_looking.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "engine/learning/planted_causes.hpp"

namespace dullcast::learning {
namespace {

/// Two causes, one level and one draw each; the second heats every cutter to where half of all show cracks.
CausePredictions two_predictions() {
  CausePredictions predictions;
  PredictedBit bit = predict(testing::told_run());
  bit.logs.col(heat_damage) = -20.0;
  bit.logs.col(pocket_load) = bit.logs.col(bond_load) = -20.0;
  bit.logs.col(chip_hazard) = -20.0;
  PredictedBit hot = bit;
  hot.logs.col(heat_damage) = std::log(ReadingLaw{}.heat_check_damage);
  hot.logs(3, wear_gain) += 1.0;
  predictions.bits = {{{bit}}, {{hot}}};
  return predictions;
}

std::vector<Cause> two_causes() {
  return {{"plain", "plain use", 2.0, {{"", 1.0, {}}}}, {"heat", "heat", 1.0, {{"", 1.0, {}}}}};
}

const WorthLooking* look_at(const std::vector<WorthLooking>& looks, FindingKind kind) {
  const auto found = std::find_if(looks.begin(), looks.end(),
                                  [&](const WorthLooking& look) { return look.finding == kind; });
  return found == looks.end() ? nullptr : &*found;
}

/// Half of seven cutters against none: the deviation is that of the coins alone, half of it under one cause.
TEST(WorthLooking, ExpectsWhatEitherCausePredicts) {
  const CausePredictions predictions = two_predictions();
  scenario::InspectedBit found;
  const CauseOdds odds = cause_odds(found, predictions, two_causes(), 1);
  const auto looks = worth_looking(found, predictions, two_causes(), odds);
  const WorthLooking* cracks = look_at(looks, FindingKind::heat_checks);
  ASSERT_NE(cracks, nullptr);
  EXPECT_NEAR(cracks->leading, 0.0, 1e-6);
  EXPECT_NEAR(cracks->other, 3.5, 1e-9);
  EXPECT_EQ(cracks->of, 7.0);
  EXPECT_NEAR(cracks->deviations, 3.5 / std::sqrt(0.5 * 7 * 0.25), 1e-6);
  EXPECT_NEAR(look_at(looks, FindingKind::lost)->deviations, 0.0, 1e-3);
  // Of all heights the one that they disagree about.
  EXPECT_EQ(look_at(looks, FindingKind::heights)->cutter, 3);
  for (std::size_t k = 1; k < looks.size(); ++k) EXPECT_LE(looks[k].deviations, looks[k - 1].deviations);
}

TEST(WorthLooking, WhatWasLookedAtIsNotAskedForAgain) {
  const CausePredictions predictions = two_predictions();
  scenario::InspectedBit found;
  found.heat_checked = 0;
  found.inner_grade = scenario::GradeSeen{1.0, false};
  found.cutters.resize(7);
  found.breakage_noted = false;
  found.cutters[3].worn_height = 1e-3;
  const CauseOdds odds = cause_odds(found, predictions, two_causes(), 1);
  const auto looks = worth_looking(found, predictions, two_causes(), odds);
  EXPECT_EQ(look_at(looks, FindingKind::heat_checks), nullptr);
  for (const WorthLooking& look : looks) {
    EXPECT_FALSE(look.finding == FindingKind::grades && !look.outer);
    EXPECT_NE(look.cutter, 3);
  }
}

/// Leading by its odds alone; heat checks that were seen turn that.
TEST(CauseOdds, TheFindingThatTurnsThemIsNamed) {
  const CausePredictions predictions = two_predictions();
  scenario::InspectedBit found;
  found.heat_checked = 4;
  found.lost = 0;
  const CauseOdds odds = cause_odds(found, predictions, two_causes(), 1);
  EXPECT_EQ(odds.order.front(), 1U);
  ASSERT_EQ(odds.findings.size(), 2U);
  EXPECT_EQ(odds.findings.front().finding, FindingKind::heat_checks);
  EXPECT_GT(odds.findings.front().log_odds, 3.0);
  EXPECT_NEAR(odds.findings.back().log_odds, 0.0, 1e-3);
}

}  // namespace
}  // namespace dullcast::learning
