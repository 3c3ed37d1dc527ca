#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "engine/learning/bit_response.hpp"
#include "engine/learning/cause_hypotheses.hpp"
#include "engine/learning/reading_likelihood.hpp"

namespace dullcast::learning {

struct CauseOptions {
  int draws = 32;  // of the library's numbers
  int threads = 1;
  double relative_tolerance = 2e-2;
  ReadingLaw law;  // but for bit_spread, which is the library's
  RunsTold told;
};

/// What a bit would have come back like by each cause, in draws of the library's numbers.
struct CausePredictions {
  /// Bits by cause, level and draw; none where the run failed.
  std::vector<std::vector<std::vector<std::optional<PredictedBit>>>> bits;
  std::vector<std::vector<double>> wear_factor;  // by cause and level, on the abrasion coefficient, as run
  ReadingLaw law;                                // with the spread of the bit's pace and of that coefficient
  /// 1, share of its metres that a bit must have drilled not to contradict its record: it may well have come
  /// back because it stopped in its last hole.
  double drilled_enough = 0.0;
  int failed = 0;  // runs
};

/// Drills the record's run by every level of every cause. The evidence of a cause is the likelihood of what
/// was found, averaged over the library's numbers and over the cause's levels. Two kinds of numbers are
/// averaged over in two ways:
/// - The abrasion coefficient, the grades' wear resistance and the bit's own pace only make all wear faster
///   or slower, by a factor that is known within some threefold before, and within a tenth once heights are
///   read. Draws would hit that too seldom. So each level is run at the factor that what was found asks of it
///   (found in up to three runs at central numbers, starting from what the run as told asks), and
///   read_against integrates exactly over ln(factor): the law's bit_spread is that of all of them together,
///   and the predicted gains are shifted back to the central factor. Chips and heat are thus those of a bit
///   worn as it was found.
/// - All others are drawn (analysis::drawn_scenario), the same draws for all causes and levels, so that what
///   they have in common cancels. A few dozen leave the evidence of a cause uncertain by some tens of per
///   cent, which CauseOdds tells. A Laplace fit of some hundred numbers for each of a dozen levels would
///   take ten times the runs, and straight lines do not follow tables that heat ruins.
/// Draws stay with the record's run: the change comes after them. Deterministic for any number of threads.
/// Throws what the run as told throws at central numbers.
CausePredictions predict_causes(const scenario::ShelvedBit& bit, const std::vector<Cause>& causes,
                                const CauseOptions& options);

}  // namespace dullcast::learning
