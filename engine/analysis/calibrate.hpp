#pragma once

#include "engine/analysis/forecast.hpp"

namespace dullcast::analysis {

/// Learns from one inspected bit. `inspected` is the scenario of the run it made, `inspection` what was read
/// off it. Finds the factor on the abrasion coefficient at which the predicted mean worn height of the
/// measured cutters equals the measured mean (secant in logarithms; wear is nearly proportional). Where the
/// pattern over the cutters tells wear by cutting from wear by rubbing (it narrows the spread of
/// cutting_wear_share by half or more), that share follows from it, by least squares with the library's
/// spread as prior; else it stays and the evidence says so. Then how its wear answers to every number. The
/// evidence's noise joins, in squares, the reading error of the mean and the scatter of the cutters about the
/// prediction, both over sqrt(cutters), and `site_spread`: what differs between two fields of the same rocks
/// by name [asm]. Throws std::invalid_argument when no cutter was measured, the measured mean is not above 0,
/// or the starting wear already exceeds it.
InspectionEvidence learn_from_inspection(const scenario::Scenario& inspected,
                                         const scenario::Inspection& inspection,
                                         const ForecastOptions& options,
                                         const ForecastProgress& progress = {});

/// Standard deviation of ln(wear) between fields [asm].
inline constexpr double site_spread = 0.15;

/// The 90 % point of a standard normal variable [hb].
inline constexpr double ninety_percent_point = 1.2815515655446004;

}  // namespace dullcast::analysis
