#pragma once

#include <array>
#include <string>
#include <vector>

#include "engine/learning/cause_predictions.hpp"
#include "engine/learning/finding_kinds.hpp"

namespace dullcast::learning {

/// One cause after all was weighed.
struct CauseWeighed {
  double log_evidence = 0.0;       // ln of the likelihood averaged over levels and draws; -infinity: no run
  double probability = 0.0;        // 1, after the findings
  double probability_error = 0.0;  // 1, one standard error, of the draws being so few
  std::size_t level = 0;           // the level that explains most of it
};

/// What one kind of finding did to the odds of the leading cause against all the others.
struct FindingWeight {
  FindingKind finding = FindingKind::heights;
  double log_odds = 0.0;  // with it less without it: above 0 it speaks for the leading cause
};

struct CauseOdds {
  std::vector<CauseWeighed> causes;     // in the order given
  std::vector<std::size_t> order;       // of them by falling probability
  std::vector<FindingWeight> findings;  // those that were looked at, the one most for the leading cause first
};

/// ln of the likelihood of one prediction: of all that was found, and of all but one kind of finding.
struct FindingsTold {
  double all = 0.0;
  std::array<double, findings> without{};
};

/// A prediction whose bit drilled less than `drilled_enough` of its metres contradicts the record: its
/// likelihood is times the law's `misread`.
FindingsTold findings_told(const scenario::InspectedBit& found, const PredictedBit& predicted,
                           const ReadingLaw& law, double drilled_enough);

/// Log likelihoods by cause, level and draw; -infinity where the run failed.
using CauseLikelihoods = std::vector<std::vector<std::vector<double>>>;

/// Posterior probabilities by Bayes' rule: odds before times evidence, which is the mean over a cause's
/// levels (by weight) of the mean likelihood over draws. Draws that failed are passed over. The standard
/// error leaves out each draw in turn (jackknife: Efron & Stein, Ann. Stat. 9, 1981 [pub]). Throws
/// std::invalid_argument where no cause has odds above 0, or none that has can be run.
std::vector<CauseWeighed> weigh_causes(const CauseLikelihoods& likelihoods, const std::vector<Cause>& causes);

/// All of it: weighed with everything, and once without each kind of finding.
CauseOdds cause_odds(const scenario::InspectedBit& found, const CausePredictions& predictions,
                     const std::vector<Cause>& causes, int threads);

}  // namespace dullcast::learning
