#pragma once

#include "engine/learning/learned_numbers.hpp"

namespace dullcast::learning {

/// `calibrate_from:` as a shelf of one record: `inspected` is the scenario of the run that the bit made, of
/// which it drilled the inspection's number of holes. Readings that are NaN were not taken. Throws
/// std::invalid_argument, with the place of the readings, when no cutter was measured, there are not as many
/// readings as cutters, or they show no more wear than the bit started with.
scenario::ShelvedBit shelf_of_one(const scenario::Scenario& inspected,
                                  const scenario::Inspection& inspection);

/// What that bit tells: fit_shelf of it. Throws what these throw, and std::invalid_argument where the
/// inspected run does not wear the bit.
scenario::Learned learn_from_one(const scenario::Scenario& inspected, const scenario::Inspection& inspection,
                                 const FitOptions& options);

}  // namespace dullcast::learning
