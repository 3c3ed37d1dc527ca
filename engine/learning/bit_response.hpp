#pragma once

#include <functional>

#include "engine/learning/predicted_bit.hpp"
#include "engine/learning/shelf_numbers.hpp"

namespace dullcast::learning {

/// What is predicted of one bit near some values of the numbers: straight in the coordinates, for the
/// logarithms of wear and hazards nearly are.
struct BitResponse {
  PredictedBit at;                      // where it was found
  Eigen::VectorXd y;                    // there
  std::vector<Eigen::ArrayXXd> slopes;  // of at.logs by each coordinate; empty for one without any
  PredictedBit near(const Eigen::VectorXd& other) const;
};

/// Runs done and in all. Called from one thread at a time.
using RunsTold = std::function<void(double done, double all)>;

/// Which numbers are worth a run for every bit: those that, in a few bits which among them have all numbers,
/// move the logarithm of any cutter's wear by a fiftieth or more for one standard deviation, that of chips by
/// a tenth, of heat damage (where there is some) by a third, of loads by a twentieth. The others' variance
/// together is a hundredth of what is told.
std::vector<bool> numbers_that_matter(const std::vector<scenario::ShelvedBit>& shelf,
                                      const ShelfNumbers& numbers, int threads, const RunsTold& told = {});

/// Responses of all bits at y. Slopes are made anew for the numbers in `anew` by a run each, half way from y
/// to the number's high; the others are taken from `before`, where there are any. A run that fails with a
/// number moved has no slope by it. Throws what a run at y throws. Deterministic for any number of threads.
std::vector<BitResponse> responses(const std::vector<scenario::ShelvedBit>& shelf,
                                   const ShelfNumbers& numbers, const Eigen::VectorXd& y,
                                   const std::vector<bool>& anew, const std::vector<BitResponse>& before,
                                   int threads, const RunsTold& told = {});

}  // namespace dullcast::learning
