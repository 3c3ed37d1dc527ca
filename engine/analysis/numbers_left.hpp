#pragma once

#include <string>
#include <vector>

#include "engine/analysis/number_effects.hpp"
#include "engine/scenario/learned.hpp"

namespace dullcast::analysis {

/// What uncertain numbers that go together leave open of ln(wear), in units in which each number's 90 % point
/// is 1.
struct WhatIsLeft {
  /// Covariance of the numbers with ln(wear): how far each goes where the wear goes by its variance.
  std::vector<double> pull;
  double variance = 0.0;  // of ln(wear): s^T R s
  std::vector<double>
      shares;  // of it, one a number, 0 or more, which sum to 1, or to 0 where nothing is left
};

/// Of numbers whose `effects` are the slopes s and whose correlation R is that of `together`: R s, s^T R s,
/// and the relative weights of Johnson, Multivariate Behavioral Research 35, 2000 [pub]: with L = R^(1/2),
/// the share of number k is sum_j L_kj^2 (L s)_j^2. Where numbers are independent a share is its square
/// s_k^2.
WhatIsLeft what_is_left(const std::vector<NumberEffect>& effects, const scenario::NumbersTogether& together);

/// Makes independent normal coordinates of the numbers `names` go together: R^(1/2) times them.
void draw_together(std::vector<double>& coordinates, const std::vector<std::string>& names,
                   const scenario::NumbersTogether& together);

}  // namespace dullcast::analysis
