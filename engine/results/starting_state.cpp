#include "engine/results/starting_state.hpp"

#include <cmath>
#include <cstdio>
#include <string>

#include "engine/results/result_error.hpp"

namespace dullcast {
namespace {

constexpr double same_length = 1e-6;  // m

std::string millimetres(double metres) {
  char text[48];
  std::snprintf(text, sizeof text, "%.3f mm", metres * 1e3);
  return text;
}

/// False for a NaN on either side.
bool same(double a, double b) {
  return std::abs(a - b) <= same_length;
}

[[noreturn]] void refuse(const StoredRun& earlier, const std::string& difference) {
  throw ResultError(earlier.path,
                    "the bit cannot go on from this result (bit '" + earlier.bit_name + "'): " + difference);
}

void check_length(const StoredRun& earlier, const std::string& what, double there, double here) {
  if (!same(there, here)) {
    refuse(earlier,
           what + " is " + millimetres(there) + " there and " + millimetres(here) + " in the scenario");
  }
}

void check_state(const StoredRun& earlier, const std::string& what, const Eigen::ArrayXd& state,
                 Eigen::Index cutters) {
  if (state.size() != cutters) {
    refuse(earlier, "it ends with " + std::to_string(state.size()) + " values of " + what + " for " +
                        std::to_string(cutters) + " cutters");
  }
  for (Eigen::Index i = 0; i < state.size(); ++i) {
    if (!std::isfinite(state[i]) || state[i] < 0.0) {
      refuse(earlier, what + " of cutter " + std::to_string(i + 1) + " is not a number from 0 up");
    }
  }
}

}  // namespace

void apply_starting_state(Scenario& scenario, const StoredRun& earlier) {
  const BitLayout& here = scenario.bit.layout;
  const BitLayout& there = earlier.layout;
  check_length(earlier, "the bit diameter", 2.0 * there.bit_radius, 2.0 * here.bit_radius);
  if (there.count() != here.count()) {
    refuse(earlier, "it has " + std::to_string(there.count()) + " cutters there and " +
                        std::to_string(here.count()) + " in the scenario");
  }
  for (Eigen::Index i = 0; i < here.count(); ++i) {
    check_length(earlier, "the radius of cutter " + std::to_string(i + 1) + " on the bit", there.radius[i],
                 here.radius[i]);
  }
  check_length(earlier, "the diameter of a cutter", 2.0 * there.shape.radius, 2.0 * here.shape.radius);
  check_length(earlier, "the length of a cutter", there.shape.length, here.shape.length);
  check_state(earlier, "worn height", earlier.outcome.end.worn_height, here.count());
  check_state(earlier, "heat damage", earlier.outcome.end.heat_damage, here.count());
  scenario.bit.starting_wear = earlier.outcome.end.worn_height;
  scenario.bit.starting_damage = earlier.outcome.end.heat_damage;
}

}  // namespace dullcast
