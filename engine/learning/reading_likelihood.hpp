#pragma once

#include "engine/learning/predicted_bit.hpp"
#include "engine/scenario/inspected_bit.hpp"

namespace dullcast::learning {

/// How what is found scatters about what is predicted. All [asm].
struct ReadingLaw {
  double bit_spread = 0.15;        // 1, of ln(wear) from bit to bit: the models' bit_to_bit_wear
  double cutter_scatter = 0.1;     // 1, of a cutter's worn height from what its place on the bit predicts
  double grade_error = 0.7;        // of a step of the dull grade, by eye
  double chip_spread = 0.5;        // 1, of ln(chip hazard) from bit to bit
  double heat_check_damage = 0.1;  // 1, heat damage at which half of all cutters show cracks
  double heat_check_spread = 1.0;  // 1, of the logarithm of that
  double misread = 0.01;           // 1, share of readings that say nothing: slips of pen and eye
};

/// What the findings say of one prediction.
struct Reading {
  double log_likelihood = 0.0;
  // Its parts, which it is the sum of: heights and grades, chips, cracks by heat, lost cutters, lost tables.
  double of_wear = 0.0, of_chips = 0.0, of_heat_checks = 0.0, of_lost = 0.0, of_bare = 0.0;
  Eigen::ArrayXXd slope;         // of it by PredictedBit::logs
  double slope_of_spread = 0.0;  // of it by ln(bit_spread)
  /// How much faster this bit wore than predicted, of ln(wear): mean and deviation of what is left to think.
  double bit_mean = 0.0, bit_deviation = 0.0;
  bool tells_wear = false;  // some height or grade was read
};

/// ln of the likelihood of all that was found on a bit, given what was predicted of it:
/// - heights: normal about the predicted one, with the calliper's error and the cutters' scatter in squares;
///   "at least" as the chance to lie above;
/// - dull grades: the interval of half a step either way (open at 0 and 8, and upward for "at least") of a
///   normal about 8 mean(min(1, u/u_use)) over the zone's cutters; cutters found lost count 1;
/// - wear of the whole bit goes faster or slower by a factor e^b, b normal with bit_spread, and the
/// likelihood
///   is its integral over b (trapezoid, whose error falls faster than any power for such a bell [hb]);
/// - chips: chance 1 - exp(-hazard e^c) of each edge, c normal with chip_spread, integrated likewise;
/// - cracks by heat: normal in ln(heat damage); lost cutters and tables: lognormal strengths under the
/// greatest
///   load met (models/failure/sudden_failure.hpp).
/// A share `misread` of heights and grades is uniform over what can be read. What was not looked at says
/// nothing. Throws std::invalid_argument where the record has cutters, but not as many as the bit.
Reading read_against(const scenario::InspectedBit& found, const PredictedBit& predicted,
                     const ReadingLaw& law);

/// Chance of each cutter to be found with the mark that a trace makes: chipped (chip_hazard, without the
/// bit's own luck), cracked by heat, lost from its pocket, without its table. Throws std::invalid_argument
/// for wear_gain, which makes none.
Eigen::ArrayXd chance_of_mark(const PredictedBit& predicted, Trace trace, const ReadingLaw& law);

/// Mean over a zone of the dull grade's shares times 8, with the slope by each worn height (1/m) in `slope`,
/// where that is not null; nothing for an empty zone. `outer`: the outer third of the radius, else the inner
/// two thirds. Cutters marked `gone` count 1.
std::optional<double> zone_grade(const PredictedBit& bit, const Eigen::ArrayXd& worn_height,
                                 const std::vector<bool>& gone, bool outer, Eigen::ArrayXd* slope = nullptr);

}  // namespace dullcast::learning
