#pragma once

#include <string>
#include <vector>

#include "engine/learning/bit_response.hpp"
#include "engine/statistics/rate_comparison.hpp"

namespace dullcast::learning {

/// Chips and losses of one lot's cutters beside what their runs forecast of a lot as it should be.
struct LotRecordSeen {
  std::string lot;
  int bits = 0;  // of which breakage was noted or counted
  statistics::CountedRate chips,
      lost;  // cutters found so, and expected; expected is 0 where nothing was noted
  statistics::CountedRate both() const { return {chips.seen + lost.seen, chips.expected + lost.expected}; }
};

/// All lots of a shelf in the order in which they first appear, each record's run drilled at central numbers
/// with a sound lot (shares of 1, a spread of 0.15), so that all are held against one measure. Of a record
/// count the cutters that tell (reading_likelihood.hpp): chips are expected by 1 - exp(-hazard), losses by
/// the lognormal law of strengths under the greatest load. An expectation that all lots share in error
/// cancels as they are compared; it does not in the rate of one. A record that names no lot counts under its
/// scenario's. Throws what a run throws. Deterministic for any number of threads.
std::vector<LotRecordSeen> lots_of(const std::vector<scenario::ShelvedBit>& shelf, int threads,
                                   const RunsTold& told = {});

}  // namespace dullcast::learning
