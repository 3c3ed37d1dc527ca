#include "engine/storage/starting_state.hpp"

#include <cmath>
#include <cstdio>
#include <string>
#include <utility>

#include "engine/base/file_error.hpp"

namespace dullcast::storage {
namespace {

constexpr double same_length = 1e-6;  // m
constexpr double same_angle = 1e-6;   // rad

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

/// What no bit can start as and still drill. The same bounds as the scenario's own
/// starting_* have.
void check_bounds(const StoredRun& earlier, const scenario::BitRecord& bit) {
  constexpr double whole_damage = 1.0 + 1e-6;  // a table counts as ruined where a step lands, at 1
  constexpr double most_hazard = 1000.0;
  for (Eigen::Index i = 0; i < bit.layout.count(); ++i) {
    const std::string cutter = " of cutter " + std::to_string(i + 1) + " is ";
    if (bit.starting_wear[i] > bit.layout.exposure[i]) {
      refuse(earlier, "worn height" + cutter + millimetres(bit.starting_wear[i]) +
                          ", beyond its exposure of " + millimetres(bit.layout.exposure[i]) +
                          ": past repair");
    }
    if (bit.starting_damage[i] > whole_damage)
      refuse(earlier, "heat damage" + cutter + "more than 1, a ruined table's");
    if (bit.starting_chip_hazard[i] > most_hazard) refuse(earlier, "chip hazard" + cutter + "more than 1000");
  }
  check_left(earlier, "its erosion", bit.starting_erosion, bit.build.blade_thickness, "blade thickness");
  check_left(earlier, "the wear of its blades", bit.starting_blade_wear, bit.build.blade_height,
             "blade height");
  check_left(earlier, "the wear of its gauge pads", bit.starting_pad_wear, bit.layout.bit_radius,
             "bit radius");
}

void check_end(const StoredRun& earlier, Eigen::Index cutters) {
  const simulation::BitCondition& end = earlier.outcome.end;
  check_state(earlier, "worn height", end.worn_height, cutters);
  check_state(earlier, "heat damage", end.heat_damage, cutters);
  check_state(earlier, "chip hazard", end.chip_hazard, cutters);
  check_marks(earlier, "the mark of loss", end.lost, cutters);
  check_marks(earlier, "the mark of a lost table", end.table_gone, cutters);
  check_count(earlier, "chips", end.chips.size(), cutters);
  for (Eigen::Index i = 0; i < cutters; ++i) {
    if (end.chips[i] < 0) refuse(earlier, "the chips of cutter " + std::to_string(i + 1) + " are below 0");
  }
  check_depth(earlier, "its erosion", end.eroded);
  check_depth(earlier, "the wear of its blades", end.blade_wear);
  check_depth(earlier, "the wear of its gauge pads", end.pad_wear);
  if (earlier.outcome.ended_by == simulation::EndedBy::blade_sheared)
    refuse(earlier, "a blade sheared off there");
}

bool marked(const Eigen::ArrayXi& marks, Eigen::Index i) {
  return i < marks.size() && marks(i) != 0;
}

std::string cutter_words(Eigen::Index i) {
  return "cutter " + std::to_string(i + 1);
}

/// A cutter that sits there still is the one that was there: of its size, and of its kind.
void check_kept_cutter(const StoredRun& earlier, const scenario::BitRecord& bit, Eigen::Index i) {
  const geometry::CutterShape &here = bit.layout.shape(i), &there = earlier.layout.shape(i);
  check_length(earlier, "the diameter of " + cutter_words(i), 2.0 * there.radius, 2.0 * here.radius);
  check_length(earlier, "the length of " + cutter_words(i), there.length, here.length);
  const auto kind_there = static_cast<std::size_t>(earlier.layout.kind(i)),
             kind_here = static_cast<std::size_t>(bit.layout.kind(i));
  if (kind_there >= earlier.kind_names.size() || kind_here >= bit.kinds.size()) return;
  if (earlier.kind_names[kind_there] == bit.kinds[kind_here].name) return;
  const bool alike = same(there.table_thickness, here.table_thickness) &&
                     same(there.leach_depth, here.leach_depth) && same(there.bevel_width, here.bevel_width) &&
                     std::abs(there.bevel_angle - here.bevel_angle) <= same_angle &&
                     earlier.kind_grades[kind_there] == bit.kinds[kind_here].grade.name;
  if (!alike)
    refuse(earlier, cutter_words(i) + " is of the kind " + earlier.kind_names[kind_there] + " there and " +
                        bit.kinds[kind_here].name +
                        " in the scenario; if it is a new one, name it under bit.rebuilt.new_cutters");
}

/// Puts what was measured and found over what the run left.
void add_findings(const scenario::SinceResult& since, scenario::BitRecord& bit) {
  for (Eigen::Index i = 0; i < bit.layout.count(); ++i) {
    if (i < since.worn_height.size() && std::isfinite(since.worn_height(i)))
      bit.starting_wear(i) = since.worn_height(i);
    if (marked(since.lost, i)) bit.starting_lost(i) = 1;
    if (marked(since.table_gone, i)) bit.starting_table_gone(i) = 1;
    if (marked(since.chipped, i)) bit.starting_chipped(i) = 1;
  }
}

/// A turned cutter cuts with an edge that lay in its pocket: unworn, unchipped, none of its hazard borne; the
/// heat that its table has seen it has seen whole.
void turn(const StoredRun& earlier, Eigen::Index i, scenario::BitRecord& bit) {
  if (bit.starting_lost(i) || bit.starting_table_gone(i))
    refuse(earlier, cutter_words(i) + " is lost or without its diamond there, so it cannot be turned");
  if (bit.starting_wear(i) > bit.layout.shape(i).radius)
    refuse(earlier,
           cutter_words(i) + " is worn past its middle there, so it has no fresh edge to be turned to");
  bit.starting_wear(i) = bit.starting_chip_hazard(i) = 0.0;
  bit.starting_chipped(i) = 0;
}

void renew(Eigen::Index i, scenario::BitRecord& bit) {
  bit.starting_wear(i) = bit.starting_damage(i) = bit.starting_chip_hazard(i) = 0.0;
  bit.starting_lost(i) = bit.starting_table_gone(i) = bit.starting_chipped(i) = 0;
}

}  // namespace

void apply_starting_state(scenario::Scenario& scenario, const StoredRun& earlier) {
  scenario::BitRecord bit = scenario.bit;
  const scenario::SinceResult& since = scenario.bit.since_result;
  const Eigen::Index n = bit.layout.count();
  check_length(earlier, "the bit diameter", 2.0 * earlier.layout.bit_radius, 2.0 * bit.layout.bit_radius);
  if (earlier.layout.count() != n) {
    refuse(earlier, "it has " + std::to_string(earlier.layout.count()) + " cutters there and " +
                        std::to_string(n) + " in the scenario");
  }
  for (Eigen::Index i = 0; i < n; ++i) {
    check_length(earlier, "the radius of " + cutter_words(i) + " on the bit", earlier.layout.radius[i],
                 bit.layout.radius[i]);
    if (!marked(since.renewed, i)) check_kept_cutter(earlier, bit, i);
  }
  check_end(earlier, n);
  const simulation::BitCondition& end = earlier.outcome.end;
  bit.starting_wear = end.worn_height;
  bit.starting_damage = end.heat_damage;
  bit.starting_chip_hazard = end.chip_hazard;
  bit.starting_lost = end.lost;
  bit.starting_table_gone = end.table_gone;
  bit.starting_chipped = end.chips.min(1);
  add_findings(since, bit);
  for (Eigen::Index i = 0; i < n; ++i) {
    if (marked(since.turned, i)) turn(earlier, i, bit);
    if (marked(since.renewed, i)) renew(i, bit);
  }
  if (n > 0 && bit.starting_lost.minCoeff() == 1) refuse(earlier, "it ends with no cutter on the bit");
  bit.starting_erosion = since.blades_built_up ? 0.0 : end.eroded;
  bit.starting_blade_wear = since.blades_built_up ? 0.0 : end.blade_wear;
  bit.starting_pad_wear = since.pads_built_up ? 0.0 : end.pad_wear;
  check_bounds(earlier, bit);  // what was done has been done
  scenario.bit = std::move(bit);
}

}  // namespace dullcast::storage
