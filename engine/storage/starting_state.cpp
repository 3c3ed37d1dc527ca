#include "engine/storage/starting_state.hpp"

#include <cmath>
#include <cstdio>
#include <string>

#include "engine/base/file_error.hpp"

namespace dullcast::storage {
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
  throw base::FileError(
      earlier.path, "the bit cannot go on from this result (bit '" + earlier.bit_name + "'): " + difference);
}

void check_length(const StoredRun& earlier, const std::string& what, double there, double here) {
  if (!same(there, here)) {
    refuse(earlier,
           what + " is " + millimetres(there) + " there and " + millimetres(here) + " in the scenario");
  }
}

void check_count(const StoredRun& earlier, const std::string& what, Eigen::Index values,
                 Eigen::Index cutters) {
  if (values != cutters) {
    refuse(earlier, "it ends with " + std::to_string(values) + " values of " + what + " for " +
                        std::to_string(cutters) + " cutters");
  }
}

void check_state(const StoredRun& earlier, const std::string& what, const Eigen::ArrayXd& state,
                 Eigen::Index cutters) {
  check_count(earlier, what, state.size(), cutters);
  for (Eigen::Index i = 0; i < state.size(); ++i) {
    if (!std::isfinite(state[i]) || state[i] < 0.0) {
      refuse(earlier, what + " of cutter " + std::to_string(i + 1) + " is not a number from 0 up");
    }
  }
}

/// Marks of what is gone: one per cutter, 0 or 1.
void check_marks(const StoredRun& earlier, const std::string& what, const Eigen::ArrayXi& marks,
                 Eigen::Index cutters) {
  check_count(earlier, what, marks.size(), cutters);
  for (Eigen::Index i = 0; i < cutters; ++i) {
    if (marks[i] != 0 && marks[i] != 1) {
      refuse(earlier, what + " of cutter " + std::to_string(i + 1) + " is not 0 or 1");
    }
  }
}

void check_depth(const StoredRun& earlier, const std::string& what, double depth) {
  if (!std::isfinite(depth) || depth < 0.0) refuse(earlier, what + " is not a number from 0 up");
}

/// A wear of the body that leaves something of it. A height of 0 is not known.
void check_left(const StoredRun& earlier, const std::string& what, double worn, double height,
                const std::string& of) {
  if (height > 0.0 && worn >= height) {
    refuse(earlier, what + " is " + millimetres(worn) + ", as much as the " + of + " of " +
                        millimetres(height) + ": past repair");
  }
}

/// What no bit like `bit` can have come to and still go on. The same bounds as the scenario's own
/// starting_* have.
void check_bounds(const StoredRun& earlier, const scenario::BitRecord& bit) {
  constexpr double whole_damage = 1.0 + 1e-6;  // a table counts as ruined where a step lands, at 1
  constexpr double most_hazard = 1000.0;
  const simulation::BitCondition& end = earlier.outcome.end;
  for (Eigen::Index i = 0; i < bit.layout.count(); ++i) {
    const std::string cutter = " of cutter " + std::to_string(i + 1) + " is ";
    if (end.worn_height[i] > bit.layout.exposure[i]) {
      refuse(earlier, "worn height" + cutter + millimetres(end.worn_height[i]) + ", beyond its exposure of " +
                          millimetres(bit.layout.exposure[i]) + ": past repair");
    }
    if (end.heat_damage[i] > whole_damage)
      refuse(earlier, "heat damage" + cutter + "more than 1, a ruined table's");
    if (end.chip_hazard[i] > most_hazard) refuse(earlier, "chip hazard" + cutter + "more than 1000");
  }
  check_left(earlier, "its erosion", end.eroded, bit.build.blade_thickness, "blade thickness");
  check_left(earlier, "the wear of its blades", end.blade_wear, bit.build.blade_height, "blade height");
  check_left(earlier, "the wear of its gauge pads", end.pad_wear, bit.layout.bit_radius, "bit radius");
}

void check_end(const StoredRun& earlier, Eigen::Index cutters) {
  const simulation::BitCondition& end = earlier.outcome.end;
  check_state(earlier, "worn height", end.worn_height, cutters);
  check_state(earlier, "heat damage", end.heat_damage, cutters);
  check_state(earlier, "chip hazard", end.chip_hazard, cutters);
  check_marks(earlier, "the mark of loss", end.lost, cutters);
  check_marks(earlier, "the mark of a lost table", end.table_gone, cutters);
  if (cutters > 0 && end.lost.minCoeff() == 1) refuse(earlier, "it ends with no cutter on the bit");
  check_depth(earlier, "its erosion", end.eroded);
  check_depth(earlier, "the wear of its blades", end.blade_wear);
  check_depth(earlier, "the wear of its gauge pads", end.pad_wear);
  if (earlier.outcome.ended_by == simulation::EndedBy::blade_sheared)
    refuse(earlier, "a blade sheared off there");
}

}  // namespace

void apply_starting_state(scenario::Scenario& scenario, const StoredRun& earlier) {
  const geometry::BitLayout& here = scenario.bit.layout;
  const geometry::BitLayout& there = earlier.layout;
  check_length(earlier, "the bit diameter", 2.0 * there.bit_radius, 2.0 * here.bit_radius);
  if (there.count() != here.count()) {
    refuse(earlier, "it has " + std::to_string(there.count()) + " cutters there and " +
                        std::to_string(here.count()) + " in the scenario");
  }
  for (Eigen::Index i = 0; i < here.count(); ++i) {
    const std::string cutter = "cutter " + std::to_string(i + 1);
    check_length(earlier, "the radius of " + cutter + " on the bit", there.radius[i], here.radius[i]);
    check_length(earlier, "the diameter of " + cutter, 2.0 * there.shape(i).radius,
                 2.0 * here.shape(i).radius);
    check_length(earlier, "the length of " + cutter, there.shape(i).length, here.shape(i).length);
  }
  check_end(earlier, here.count());
  check_bounds(earlier, scenario.bit);
  const simulation::BitCondition& end = earlier.outcome.end;
  scenario.bit.starting_wear = end.worn_height;
  scenario.bit.starting_damage = end.heat_damage;
  scenario.bit.starting_chip_hazard = end.chip_hazard;
  scenario.bit.starting_lost = end.lost;
  scenario.bit.starting_table_gone = end.table_gone;
  scenario.bit.starting_erosion = end.eroded;
  scenario.bit.starting_blade_wear = end.blade_wear;
  scenario.bit.starting_pad_wear = end.pad_wear;
}

}  // namespace dullcast::storage
