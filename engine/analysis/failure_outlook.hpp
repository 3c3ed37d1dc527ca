#pragma once

#include <vector>

#include "engine/scenario/scenario.hpp"
#include "engine/simulation/outcome.hpp"

namespace dullcast::analysis {

/// The sudden ways a bit's parts go.
enum class FailureKind { chip, table_ruined, table_lost, cutter_lost, blade_sheared };
const char* failure_words(FailureKind kind);

/// One of them: what happened in the run, or the probability that it would have.
struct FailureOutlook {
  FailureKind kind = FailureKind::chip;
  bool happened = false;
  int times = 0;             // that it happened
  double probability = 0.0;  // 1, of at least one on the bit, up to the outlook's point; 1 where it happened
  int cutter = -1;           // that goes first, or is the most at risk; -1 for none
  // Of the first that happened:
  int hole = 0;
  double depth = 0.0;    // m
  double footage = 0.0;  // m
};

/// Every kind: those that happened in the order of their first time, then the others by falling probability.
/// Up to rework due where it fell due, otherwise to the run's end.
///
/// Probabilities are those of the loads met, strengths lognormal and independent
/// (models/failure/sudden_failure.hpp): 1 - product over cutters of (1 - p). The blades share one greatest
/// load, so theirs is an upper bound. A chip: 1 - exp(-hazard gained since the start, all cutters). Heat
/// damage is no probability but an amount; it is given as the share of a table's life used by the hottest
/// cutter, and `table_ruined` happens at 1.
std::vector<FailureOutlook> failure_outlook(const scenario::Scenario& scenario,
                                            const simulation::RunOutcome& outcome);

}  // namespace dullcast::analysis
