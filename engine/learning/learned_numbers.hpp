#pragma once

#include "engine/learning/shelf_fit.hpp"
#include "engine/scenario/learned.hpp"

namespace dullcast::learning {

/// What a fit leaves of the library's numbers: those that moved by a fiftieth of their spread, or narrowed by
/// a hundredth, each with the 10 %, 50 % and 90 % points of what is left to think, and how they go together;
/// bit_to_bit_wear with the spread as learnt. Numbers that only one layer of a run has are learnt from but
/// are nobody else's, so they are left out.
scenario::Learned learned_numbers(const ShelfFit& fit, int bits);

/// A scenario with learned numbers in place of its own, where it is not certain of them.
scenario::Scenario with_learned(scenario::Scenario scenario, const scenario::Learned& learned);

}  // namespace dullcast::learning
