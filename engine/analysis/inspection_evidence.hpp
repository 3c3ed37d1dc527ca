#pragma once

#include <optional>
#include <vector>

#include "engine/analysis/number_effects.hpp"

namespace dullcast::analysis {

/// What an inspected bit has taught: how its wear answers to each number, and how well it was read.
struct InspectionEvidence {
  double coefficient_factor = 1.0;    // measured over predicted wear, as a factor on the abrasion coefficient
  std::vector<NumberEffect> effects;  // slopes of the inspected run
  double noise = 0.0;                 // 90 % point of the error of ln(measured wear)
  /// What the readings say of cutting_wear_share; nothing where they cannot tell cutting from rubbing.
  std::optional<scenario::Quantity> cutting_wear_share;
};

/// The scenario with what the inspected bit has taught in place of the library's: the abrasion coefficient
/// times the evidence's factor and, where it was told, the share of cutting.
scenario::Scenario with_evidence(scenario::Scenario scenario, const InspectionEvidence& evidence);

/// What is known of ln(wear) once an inspected bit was read (or as the library has it, without evidence).
struct WhatIsLeft {
  /// Covariance of the numbers times their slopes: how far each goes where the wear goes by its variance.
  std::vector<double> pull;
  double variance = 0.0;  // of ln(wear), in squares of the 90 % point; pull times slopes
  /// The parts of independent sources in that variance; with the inspection's they sum to 1, or to 0.
  std::vector<double> shares;
  double inspection_share = 0.0;
};

/// Conditions the numbers x, normal with the 90 % point 1 and independent, on one linear reading g.x + noise
/// of the inspected bit, g its slopes; s are `effects`. The covariance is then 1 - g g^T/(g^T g + noise^2)
/// [hb]. What the reading leaves of s.x is s.x - a (g.x + noise), a = g.s/(g.g + noise^2), whose parts are
/// independent and add in squares: number k has (s_k - a g_k)^2 of it, for it acts otherwise here than on the
/// inspected bit; the inspection has a^2 noise^2 and (a g_k)^2 of the numbers that only the inspected bit
/// met. So shares are of the variance as it was conditioned.
WhatIsLeft what_is_left(const std::vector<NumberEffect>& effects,
                        const std::optional<InspectionEvidence>& evidence);

/// Conditions one draw of the numbers `names` at `coordinates` (number_at's, where 1 is the 90 % point) on
/// the evidence: moves it along g by what the drawn bit's reading misses the inspected one's. `elsewhere` are
/// coordinates drawn for the evidence's numbers that are not among the names, in their order, and `error` a
/// drawn error of the reading, its 90 % point 1.
void condition_draw(std::vector<double>& coordinates, const std::vector<std::string>& names,
                    const InspectionEvidence& evidence, const std::vector<double>& elsewhere, double error);

}  // namespace dullcast::analysis
