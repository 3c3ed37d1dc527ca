#pragma once

#include <functional>
#include <vector>

#include "tools/heat_reference/conduction.hpp"

namespace dullcast::heat_reference {

/// A stretch of time over which M dT/dt = load - exchange T with the same matrices.
struct MarchStage {
  double duration = 0.0;  // s
  Matrix exchange;        // W/K
  Vector load;            // W
};

/// Steps `field` through the stages and calls observe(time, field) at `times` (s from the beginning, rising;
/// what lies past the end is left out). Two-stage diagonally implicit Runge-Kutta, L-stable, second order
/// (Alexander, SIAM J. Numer. Anal. 14(6), 1977 [pub]). Every stage begins with steps of 1/64 of the time to
/// its first observation (at least 1/64 ms); they double so that `steps_per_doubling` of them fill each
/// doubling of the time since it began. Throws std::domain_error for fewer than one, std::runtime_error where
/// a solution fails.
void march(const Matrix& mass, const std::vector<MarchStage>& stages, Vector field,
           const std::vector<double>& times, int steps_per_doubling,
           const std::function<void(double, const Vector&)>& observe);

}  // namespace dullcast::heat_reference
