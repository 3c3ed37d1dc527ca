#pragma once

#include "engine/learning/learned_numbers.hpp"

namespace dullcast::learning {

/// What a shelf has told of one number.
struct NumberTold {
  std::string name;
  scenario::Quantity before, now;
  double left = 1.0;   // 1, of its spread: 0 is known, 1 is no better than before
  double moved = 0.0;  // of its spread: 1 is as far as the 84 % point was
};

/// Two numbers of which a product or quotient is told better than either.
struct ToldTogether {
  std::string one, other;
  double correlation = 0.0;
};

struct WhatWasTold {
  std::vector<NumberTold> told;        // narrowed or moved by a tenth of their spread, the most told first
  std::vector<NumberTold> not_told;    // that shops ask for, and the shelf cannot say
  std::vector<ToldTogether> together;  // |correlation| of told ones of 0.6 or more, the closest first
};

/// What can be identified, from the posterior's covariance. Those that shops ask for: the models' abrasion
/// coefficient, abrasivity exponent, share of cutting, temperature of acceleration and its scale and rate of
/// impacts, and every rock's abrasivity and lot's edge strength.
WhatWasTold what_was_told(const ShelfFit& fit);

}  // namespace dullcast::learning
