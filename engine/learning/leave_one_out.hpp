#pragma once

#include "engine/learning/shelf_fit.hpp"

namespace dullcast::learning {

/// How fast one bit wore beside what was predicted of it, as ln(found over predicted): with the library's
/// numbers, and with those that all the other bits of the shelf have taught.
struct BitJudged {
  bool tells_wear = false;                              // without, the rest is 0
  bool measured = false;                                // by a calliper: a grade alone tells a factor of two
  double before = 0.0, told = 0.0;                      // 1, ln(found/predicted)
  double before_deviation = 0.0, told_deviation = 0.0;  // 1, predicted of it: numbers, bit and readings
  double z_before() const { return before_deviation > 0.0 ? before / before_deviation : 0.0; }
  double z_told() const { return told_deviation > 0.0 ? told / told_deviation : 0.0; }
};

/// Each bit against all others: the most probable numbers without it, by Newton's steps from those with it
/// (its own share taken out of the second derivatives), no run of the engine. Deterministic for any number
/// of threads.
std::vector<BitJudged> leave_one_out(const std::vector<scenario::ShelvedBit>& shelf, const ShelfFit& fit,
                                     int threads);

/// Of the bits whose heights were measured: root of the mean square of ln(found/predicted), before and as
/// told by the others; and how many lay within the 90 % range predicted of them.
struct PredictiveError {
  int bits = 0;
  double before = 0.0, told = 0.0;
  int within_before = 0, within_told = 0;
};
PredictiveError predictive_error(const std::vector<BitJudged>& judged);

/// A bit so far from what the others say that one in a hundred would be by chance.
bool is_outlier(const BitJudged& judged);

}  // namespace dullcast::learning
