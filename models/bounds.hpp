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

}  // namespace dullcast
