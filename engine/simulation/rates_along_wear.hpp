#pragma once

#include <Eigen/Core>

namespace dullcast::simulation {

/// How wear bends over a straight step of a settled bit, from its rates at the step's start and at the end
/// that they lead to (m per m, one entry per cutter): b, the change of the rate over the rate, as the cutters
/// have it that wear most; below 0 where wear slows down. Held within -1..1; 0 where nothing wears.
double wear_bends(const Eigen::Ref<const Eigen::ArrayXd>& before,
                  const Eigen::Ref<const Eigen::ArrayXd>& after);

/// How much the rates at that end count (1) in the mean over the step, those at its start for the rest. Rates
/// are taken to run straight along the way that wear goes, which itself is gone at a pace 1 + b s after a
/// share s of the step: the mean place on the way is (e^b - 1 - b)/b^2, a half where nothing bends (the
/// trapezoid). Exact where a rate is linear in what it wears. b within -1..1.
double count_of_far_end(double bends);

/// What of the difference between the rates at both ends such a mean may be wrong by (1): a sixth of how much
/// they, or wear, bend, which is by how much the trapezoid is wrong where rates are linear in wear.
inline constexpr double bend_left_open = 1.0 / 6.0;

}  // namespace dullcast::simulation
