#pragma once

#include "engine/scenario/inspected_bit.hpp"
#include "engine/simulation/outcome.hpp"

namespace dullcast::learning {

/// How a bit that came back is, as far as it was looked at; the rest as its run says.
struct FoundCondition {
  simulation::BitCondition bit;
  int measured = 0;          // cutters whose worn height was read, or that were renewed
  int scaled = 0;            // cutters whose height is the run's, scaled
  double wear_factor = 1.0;  // on the wear that the run adds, by what was read
  bool by_grade = false;     // the factor comes from a dull grade: no height was read
};

/// What was found put over what the record's run leaves:
/// - the run's gain of wear is multiplied by one factor: the sum of the gains that were read over the sum of
///   those predicted of the same cutters (heights that are only "at least" do not count; not below 0); where
///   none was read, the factor that gives the outer dull grade, or else the inner one; else 1. It changes
///   worn heights only, up to the cutter's exposure;
/// - then each cutter is as it was seen: its height (one that is "at least" lifts what is scaled), lost,
///   without its diamond, chipped, or renewed, which is new;
/// - where cutters were only counted, the marks go to those of which the run makes it likeliest: the greatest
///   chip hazard, load of the pocket, heat damage;
/// - a table cracked by heat has borne at least the damage at which half of all show cracks (ReadingLaw).
/// Drills the run; throws what simulation::run throws, and std::invalid_argument where the record has
/// cutters but not as many as the bit.
FoundCondition found_condition(const scenario::ShelvedBit& bit);

}  // namespace dullcast::learning
