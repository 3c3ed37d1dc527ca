#pragma once

#include <exception>
#include <string>
#include <vector>

#include "engine/analysis/bit_bill.hpp"
#include "engine/analysis/drawn_band.hpp"

namespace dullcast::analysis {

/// What one hole costs by one choice of bit, money, line by line. The shop's shelf is to hold as many bits
/// ready to drill afterwards as before, so every bit that was used pays what its condition then costs
/// (BitBill): a repair, a new bit where it is past repair, and what is worn of the cutters that stay in.
struct HoleCost {
  double before = 0.0;   // the rework, or the new bit that takes the scrapped one's place
  double rig = 0.0;      // rig time of the hole and of a trip for every bit that went down
  double fetched = 0.0;  // bills of the bits fetched because it did not finish
  double after = 0.0;    // the bit's own repair or replacement after the hole
  double worn = 0.0;     // what is worn then of its cutters that stay in
  double already = 0.0;  // what the bit's condition cost before the hole, whatever is chosen: taken off
  double total() const { return before + rig + fetched + after + worn - already; }
};

/// One hole in one draw of chance and of the library's numbers.
struct DrawnHole {
  std::exception_ptr failure;  // that it could not be run; the rest then says nothing
  std::string trouble;         // what that said
  bool finished = false;       // the bit that began it finished it
  int fetched = 0;             // bits fetched since
  bool endless = false;        // none of them finished it: the cost has no end
  double slowest = 0.0;        // m/s, least mean progress of the bit that began it in any layer
  HoleCost cost;               // rig, fetched, after and worn
};

/// Bits that are fetched at most to finish a hole, one after another.
inline constexpr int most_fetched = 5;

struct HoleDrawOptions {
  int draws = band_draws;
  int threads = 1;
  double relative_tolerance = 1e-2;  // of the runs: choices are compared with each other
  /// m/s, draw by draw, slower than which a bit is taken out, where that is faster than the scenario's
  /// least_progress; empty: that alone.
  std::vector<double> least_progress;
};

/// Least mean progress in any layer of a run that was drilled at all, m/s; 0 where none was.
double slowest_layer(const simulation::RunOutcome& run);

/// Share of a new bit's progress in its slowest layer below which nobody waits for a dull one: it is then
/// taken out [asm].
inline constexpr double patience_share = 0.25;
/// What that makes draw by draw, from a new bit's draws.
std::vector<double> least_progress_beside(const std::vector<DrawnHole>& new_bit);

/// Drills one hole of the scenario's column, from how its bit starts, in `options.draws` draws
/// (drawn_scenario). Draw k is the same numbers and the same luck, seat by seat, whatever the bit.
///
/// A bit does not finish when it stops drilling or gets slower than options.least_progress, shears a blade or
/// wears past repair; rework that falls due on the way does not stop it. It then comes out, and a new one of
/// its make, with luck of its own, drills the rest of the hole from where it stopped, under the rest of the
/// plan; if that one does not finish either, another, up to most_fetched. Rig time is drilling, rods, and the
/// scenario's trip time once for every bit.
///
/// What the seats of a used bit have borne already is not counted in their favour [asm]. Deterministic for
/// any number of threads. Only what is the machine's own fault is thrown.
std::vector<DrawnHole> drawn_holes(const scenario::Scenario& scenario, const HoleDrawOptions& options,
                                   const ForecastProgress& progress = {});

/// The rest of a scenario's hole from `depth` (m) on, with mishaps that begin there. Throws
/// std::invalid_argument unless depth lies above the column's bottom and not above its top.
scenario::Scenario rest_of_hole(scenario::Scenario scenario, double depth);

}  // namespace dullcast::analysis
