#include "engine/learning/reading_likelihood.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "models/common/constants.hpp"

namespace dullcast::learning {
namespace {

/// Six cutters, three in either zone, worn by what a run might say.
PredictedBit some_bit() {
  PredictedBit bit;
  bit.logs.resize(6, trace_count);
  bit.logs.col(wear_gain) =
      (Eigen::ArrayXd(6) << 0.2e-3, 0.3e-3, 0.5e-3, 0.8e-3, 1.1e-3, 1.6e-3).finished().log();
  bit.logs.col(chip_hazard) = (Eigen::ArrayXd(6) << 0.01, 0.02, 0.1, 0.2, 0.6, 1.4).finished().log();
  bit.logs.col(heat_damage) = (Eigen::ArrayXd(6) << 1e-4, 1e-3, 0.01, 0.05, 0.2, 0.7).finished().log();
  bit.logs.col(pocket_load) = (Eigen::ArrayXd(6) << 0.2, 0.3, 0.4, 0.5, 0.7, 0.9).finished().log();
  bit.logs.col(bond_load) = bit.logs.col(pocket_load) - 0.5;
  bit.starting_wear = Eigen::ArrayXd::Constant(6, 0.1e-3);
  bit.usable_height = Eigen::ArrayXd::Constant(6, 4e-3);
  bit.radius = (Eigen::ArrayXd(6) << 0.01, 0.03, 0.045, 0.06, 0.07, 0.075).finished();
  bit.bit_radius = 0.075;
  bit.strength_spread = 0.15;
  return bit;
}

scenario::InspectedBit looked_at() {
  scenario::InspectedBit found;
  found.bit = "A1";
  found.cutters.resize(6);
  found.cutters[0].worn_height = 0.35e-3;
  found.cutters[2].worn_height = 0.7e-3;
  found.cutters[3].worn_height = 1.0e-3;
  found.cutters[3].at_least = true;
  found.cutters[4].chipped = true;
  found.cutters[4].worn_height = 3e-3;  // says nothing: it broke there
  found.cutters[5].lost = true;
  found.cutters[3].heat_checked = true;
  found.inner_grade = scenario::GradeSeen{1.0, false};
  found.outer_grade = scenario::GradeSeen{4.0, false};
  return found;
}

TEST(ReadingLikelihood, AllSlopesAreDifferences) {
  scenario::InspectedBit counted = looked_at();
  counted.cutters.clear();
  counted.chipped = 1;
  counted.lost = 0;
  counted.heat_checked = 2;
  counted.outer_grade = scenario::GradeSeen{2.0, true};
  for (const scenario::InspectedBit& found : {looked_at(), counted}) {
    const PredictedBit bit = some_bit();
    const ReadingLaw law;
    const Reading reading = read_against(found, bit, law);
    const double h = 1e-4;
    for (Eigen::Index i = 0; i < 6; ++i) {
      for (Eigen::Index trace = 0; trace < trace_count; ++trace) {
        PredictedBit above = bit, below = bit;
        above.logs(i, trace) += h;
        below.logs(i, trace) -= h;
        const double difference = (read_against(found, above, law).log_likelihood -
                                   read_against(found, below, law).log_likelihood) /
                                  (2.0 * h);
        // Third derivatives of these sums stay under some thousands.
        EXPECT_NEAR(reading.slope(i, trace), difference, 1e-5) << i << " " << trace;
      }
    }
    ReadingLaw wider = law, narrower = law;
    wider.bit_spread *= std::exp(h);
    narrower.bit_spread *= std::exp(-h);
    const double by_spread =
        (read_against(found, bit, wider).log_likelihood - read_against(found, bit, narrower).log_likelihood) /
        (2.0 * h);
    EXPECT_NEAR(reading.slope_of_spread, by_spread, 1e-5);
  }
}

/// One cutter read with next to no scatter about a small factor: a normal reading of a normal shift, of which
/// the closed form is known [hb]: ln y = b + error, so y's marginal deviation is sqrt(spread^2 + error^2).
TEST(ReadingLikelihood, OneHeightIsANormalReadingOfANormalShift) {
  PredictedBit bit = some_bit();
  bit.starting_wear.setZero();
  ReadingLaw law;
  law.misread = law.cutter_scatter = 0.0;
  law.bit_spread = 0.02;  // where e^b is straight to a hundredth of it
  scenario::InspectedBit found;
  found.cutters.resize(6);
  found.breakage_noted = false;
  const double predicted = 1.1e-3, error = 0.015 * predicted;
  found.measurement_error = error;
  for (const double miss : {-0.03, 0.0, 0.02}) {
    found.cutters[4].worn_height = predicted * (1.0 + miss);
    const double variance = 0.02 * 0.02 + 0.015 * 0.015;
    // Densities are per usable height.
    const double closed =
        std::log(4e-3 / predicted) - 0.5 * std::log(two_pi * variance) - 0.5 * miss * miss / variance;
    const Reading reading = read_against(found, bit, law);
    // e^b - 1 - b is up to 0.5 (0.03)^2, a thirtieth of the deviation, at three halves of it from the middle.
    EXPECT_NEAR(reading.log_likelihood, closed, 0.06) << miss;
    EXPECT_NEAR(reading.bit_mean, miss * 0.02 * 0.02 / variance, 0.001);
    EXPECT_NEAR(reading.bit_deviation, 0.02 * 0.015 / std::sqrt(variance), 0.0005);
  }
}

TEST(ReadingLikelihood, GradesAreIntervalsThatTogetherAreCertain) {
  const PredictedBit bit = some_bit();
  const ReadingLaw law;
  double all = 0.0, upward = 0.0;
  for (int grade = 0; grade <= 8; ++grade) {
    scenario::InspectedBit found;
    found.outer_grade = scenario::GradeSeen{static_cast<double>(grade), false};
    const double one = std::exp(read_against(found, bit, law).log_likelihood);
    all += one;
    if (grade >= 3) upward += one;
  }
  // The integral over the bit's own pace stops at five deviations, beyond which lies 6e-7.
  EXPECT_NEAR(all, 1.0, 1e-6);
  scenario::InspectedBit at_least;
  at_least.outer_grade = scenario::GradeSeen{3.0, true};
  // Of what is misread "at least" counts as one of nine grades, the six from 3 to 8 as six.
  EXPECT_NEAR(std::exp(read_against(at_least, bit, law).log_likelihood), upward - 5.0 / 9.0 * law.misread,
              1e-6);
}

TEST(ReadingLikelihood, WhatWasNotLookedAtSaysNothing) {
  const PredictedBit bit = some_bit();
  scenario::InspectedBit found;
  EXPECT_EQ(read_against(found, bit, {}).log_likelihood, 0.0);
  found.cutters.resize(6);
  found.breakage_noted = false;
  EXPECT_EQ(read_against(found, bit, {}).log_likelihood, 0.0);
  EXPECT_FALSE(read_against(found, bit, {}).tells_wear);
  found.breakage_noted = true;  // six edges that are whole do say something
  EXPECT_LT(read_against(found, bit, {}).log_likelihood, 0.0);
  found.cutters.resize(5);
  EXPECT_THROW(read_against(found, bit, {}), std::invalid_argument);
}

TEST(ReadingLikelihood, ACutterFoundLostCountsWholeInItsZonesGrade) {
  const PredictedBit bit = some_bit();
  std::vector<bool> gone(6, false);
  const Eigen::ArrayXd worn = bit.worn_height();
  EXPECT_NEAR(*zone_grade(bit, worn, gone, true), 8.0 * (0.9 + 1.2 + 1.7) / 3.0 / 4.0, 1e-12);
  gone[5] = true;
  EXPECT_NEAR(*zone_grade(bit, worn, gone, true), 8.0 * ((0.9 + 1.2) / 4.0 + 1.0) / 3.0, 1e-12);
  EXPECT_NEAR(*zone_grade(bit, worn, gone, false), 8.0 * (0.3 + 0.4 + 0.6) / 3.0 / 4.0, 1e-12);
}

}  // namespace
}  // namespace dullcast::learning
