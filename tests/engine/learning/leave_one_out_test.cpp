#include "engine/learning/leave_one_out.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "engine/learning/planted_shelf.hpp"
#include "engine/learning/what_was_told.hpp"

namespace dullcast::learning {
namespace {

using testing::planted_shelf;
using testing::PlantedShelf;

struct Judged {
  PlantedShelf shelf;
  ShelfFit fit;
  std::vector<BitJudged> bits;
};

/// Fourteen bits, of which the fifth wore three times as fast as its record explains.
const Judged& with_an_odd_one() {
  static const Judged judged = [] {
    Judged made;
    made.shelf = planted_shelf(14, 11);
    for (scenario::CutterSeen& cutter : made.shelf.bits[4].found.cutters)
      if (cutter.worn_height) *cutter.worn_height *= 3.0;
    made.shelf.bits[4].found.inner_grade.reset();
    made.shelf.bits[4].found.outer_grade.reset();
    made.fit = fit_shelf(made.shelf.bits, {});
    made.bits = leave_one_out(made.shelf.bits, made.fit, 1);
    return made;
  }();
  return judged;
}

TEST(LeaveOneOut, PointsOutTheBitThatDoesNotFit) {
  const Judged& judged = with_an_odd_one();
  for (std::size_t r = 0; r < judged.bits.size(); ++r) {
    ASSERT_TRUE(judged.bits[r].tells_wear) << r;
    EXPECT_EQ(is_outlier(judged.bits[r]), r == 4) << r << " " << judged.bits[r].z_told();
  }
  EXPECT_GT(judged.bits[4].told, 0.7);
}

/// The same with the bit left off the shelf and all fitted anew, runs of the engine included.
TEST(LeaveOneOut, IsWhatAFitWithoutTheBitSays) {
  const Judged& judged = with_an_odd_one();
  for (const std::size_t r : {std::size_t{0}, std::size_t{4}}) {
    std::vector<scenario::ShelvedBit> others = judged.shelf.bits;
    others.erase(others.begin() + static_cast<std::ptrdiff_t>(r));
    const ShelfFit fit = fit_shelf(others, {});
    const scenario::ShelvedBit& left_out = judged.shelf.bits[r];
    ReadingLaw wide = fit.law;
    wide.bit_spread = 1.0;
    const PredictedBit predicted = predict(with_coordinates(left_out.run, fit.numbers, fit.y()));
    const double anew = read_against(left_out.found, predicted, wide).bit_mean;
    // Newton's steps from the whole shelf's answer, and predictions straight about it: within a third of what
    // is not known of the bit.
    EXPECT_NEAR(judged.bits[r].told, anew, 0.33 * judged.bits[r].told_deviation) << r;
  }
}

TEST(LeaveOneOut, OthersForetellBetterThanTheLibrary) {
  // The truth planted here lies off the library's middle; all but the odd bit are foretold by the others.
  std::vector<BitJudged> usual = with_an_odd_one().bits;
  usual.erase(usual.begin() + 4);
  const PredictiveError error = predictive_error(usual);
  EXPECT_EQ(error.bits, 9);  // of 13, those that a calliper read
  EXPECT_LT(error.told, error.before);
  EXPECT_GE(error.within_told, 6);  // of 9, at 90 % each: fewer has a chance of 0.8 %
}

TEST(WhatWasTold, SaysWhatIsKnownOnlyTogetherAndWhatNotAtAll) {
  const Judged& judged = with_an_odd_one();
  const WhatWasTold told = what_was_told(judged.fit);
  ASSERT_FALSE(told.told.empty());
  // A wear resistance divides what the abrasion coefficient multiplies, everywhere alike: no record can tell
  // them apart.
  bool found = false;
  for (const ToldTogether& pair : told.together)
    found = found || pair.one.find("wear_resistance") != std::string::npos ||
            pair.other.find("wear_resistance") != std::string::npos || pair.one == "abrasion_coefficient" ||
            pair.other == "abrasion_coefficient";
  EXPECT_TRUE(found);
  for (const NumberTold& number : told.told) EXPECT_TRUE(number.left < 0.9 || std::abs(number.moved) > 0.1);
}

}  // namespace
}  // namespace dullcast::learning
