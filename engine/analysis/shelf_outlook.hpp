#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "engine/scenario/inspected_bit.hpp"
#include "engine/simulation/outcome.hpp"

namespace dullcast::analysis {

/// How many of a bit's cutters were found so, and how many were to be expected.
struct CountBeside {
  std::optional<int> found;  // none: not looked at
  double expected = 0.0;
};

/// What one record found beside what its run forecasts at central numbers.
struct BesideForecast {
  std::string failure;                             // why it could not be drilled; the forecast is then empty
  double footage = 0.0;                            // m that the run drilled
  bool finished = true;                            // it drilled every hole of the record
  std::optional<double> inner_grade, outer_grade;  // forecast, 0..8; none for an empty zone
  std::optional<double> worst_found;               // m: greatest worn height that wear alone made
  bool worst_at_least = false;                     // it is that much or more
  double worst_forecast = 0.0;                     // m, of the cutters measured, or of all where none was
  std::optional<double>
      wear_ratio;  // 1: wear found over wear forecast, means of the cutters measured in full
  CountBeside chipped, lost, heat_checked;
};

/// Compares a record with its run's outcome. Wear counts from the heights that the bit started with. Cutters
/// that are chipped, bared, lost or renewed, or only worn "at least" so much, say nothing of the ratio.
/// Expected: chipped, the sum of 1 - exp(-hazard gained); lost or bared, the sum of the probabilities that a
/// pocket or a bond failed under the loads met (lognormal strengths); heat-checked, the sum of the share of
/// each table's life that heat used, at most 1 [asm]. Found: the record's count, or its marks where every
/// cutter was looked at for breakage.
BesideForecast beside_forecast(const scenario::ShelvedBit& record, const simulation::RunOutcome& outcome);

/// The same of a whole shelf, each record's run drilled without rows, at most `threads` at once; the order is
/// the shelf's. A run that fails is kept with its reason. `progress` is told, by one thread at a time, how
/// many are done of how many; it must not throw.
std::vector<BesideForecast> shelf_beside_forecast(
    const std::vector<scenario::ShelvedBit>& shelf, int threads,
    const std::function<void(double done, double all)>& progress = {});

/// The middle one of some values, the mean of the two middle ones of an even number; none of none.
std::optional<double> median_of(std::vector<double> values);

}  // namespace dullcast::analysis
