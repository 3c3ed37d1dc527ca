#pragma once

namespace dullcast {

/// Bounds that let a NaN through, for functions that are total (std::max and std::clamp may swallow one).
constexpr double at_least(double x, double floor) {
  return x < floor ? floor : x;
}
constexpr double at_most(double x, double ceiling) {
  return x > ceiling ? ceiling : x;
}
constexpr double within(double x, double floor, double ceiling) {
  return at_most(at_least(x, floor), ceiling);
}

/// Smooth step: 0 up to x = 0, 1 from x = 1, 3 x^2 - 2 x^3 between (C1), and its slope. A NaN goes through.
constexpr double cubic_step(double x) {
  const double s = within(x, 0.0, 1.0);
  return s * s * (3.0 - 2.0 * s);
}
constexpr double cubic_step_slope(double x) {
  const double s = within(x, 0.0, 1.0);
  return 6.0 * s * (1.0 - s);
}

}  // namespace dullcast
