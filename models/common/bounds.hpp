#pragma once

#include "models/common/dual.hpp"

namespace dullcast {

/// Bounds that let a NaN through, for functions that are total (std::max and std::clamp may swallow one). A
/// Dual that is held has no slope; on the bound itself it has its own.
constexpr double at_least(double x, double floor) {
  return x < floor ? floor : x;
}
constexpr double at_most(double x, double ceiling) {
  return x > ceiling ? ceiling : x;
}
constexpr double within(double x, double floor, double ceiling) {
  return at_most(at_least(x, floor), ceiling);
}
constexpr Dual at_least(Dual x, double floor) {
  return x.value < floor ? Dual{floor} : x;
}
constexpr Dual at_most(Dual x, double ceiling) {
  return x.value > ceiling ? Dual{ceiling} : x;
}
constexpr Dual within(Dual x, double floor, double ceiling) {
  return at_most(at_least(x, floor), ceiling);
}

/// Smooth step: 0 up to x = 0, 1 from x = 1, 3 x^2 - 2 x^3 between (C1), and its slope. A NaN goes through.
template <class Number>
constexpr Number cubic_step(const Number& x) {
  const Number s = within(x, 0.0, 1.0);
  return s * s * (3.0 - 2.0 * s);
}
constexpr double cubic_step_slope(double x) {
  return cubic_step(variable(x)).slope;
}

}  // namespace dullcast
