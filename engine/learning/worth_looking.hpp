#pragma once

#include "engine/learning/cause_odds.hpp"

namespace dullcast::learning {

/// Something that was not looked at and would have helped to tell two causes apart.
struct WorthLooking {
  FindingKind finding = FindingKind::heights;
  int cutter = -1;                    // for heights: the one that tells most, from 0
  bool outer = false;                 // for grades: of which zone
  double leading = 0.0, other = 0.0;  // expected of either cause: cutters, m, or grade
  double of = 0.0;                    // cutters that it is counted among; 0 for heights and grades
  /// How far apart the two expectations are, in deviations of what would be read: of the reading itself and
  /// of what is not known under either cause.
  double deviations = 0.0;
};

/// Everything that the record leaves out, the most telling first, for the leading cause and the next one of
/// `odds`. Expectations are over levels and draws as the findings weigh them. Counts of marks have the
/// variance of their chances beside that of the draws; a height the calliper's error and the cutters'
/// scatter, a grade the eye's. Empty where nothing is left to look at, or only one cause was run.
std::vector<WorthLooking> worth_looking(const scenario::InspectedBit& found,
                                        const CausePredictions& predictions, const std::vector<Cause>& causes,
                                        const CauseOdds& odds);

}  // namespace dullcast::learning
