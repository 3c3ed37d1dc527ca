#pragma once

#include <functional>
#include <vector>

namespace dullcast::bench {

/// Boost odeint's rosenbrock4 (Hairer & Wanner's method of fourth order) with dense output, its Jacobian
/// dense and by forward differences: takes z from 0 to `until` under dz/dt = slope(z), every entry's error of
/// a step held to `tolerance` (|z| + 1). Returns the number of steps. The header and its source know nothing
/// else of the project: Boost's matrices before 1.79 do not compile as C++20, so they are compiled as C++17.
long solve_by_rosenbrock4(const std::function<void(const double* z, double* rate)>& slope, double tolerance,
                          double until, std::vector<double>& z);

}  // namespace dullcast::bench
