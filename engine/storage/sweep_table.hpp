#pragma once

#include <Eigen/Core>
#include <string>
#include <string_view>
#include <vector>

/// What a finished sweep holds, as values: one row a case, one column a setting, a draw or an outcome. SI
/// units. Cases, points, draws and holes are counted from 1, as in the file.
namespace dullcast::storage {

enum class ColumnRole {
  coordinate,  // place in the unit cube of the design, 0..1; only in designs made for sensitivities
  setting,     // what the plan varies on purpose: its factors
  uncertain,   // what is drawn
  outcome      // what the run came to; NaN where the case failed
};

/// How the meaning of a column begins that multiplies a number of one layer; what follows is what people call
/// it.
inline constexpr std::string_view multiplies_the = "what multiplies the ";
/// How the meaning of a column ends that counts lenses; what stands before is what people call them.
inline constexpr std::string_view met_by_chance = " met by chance";

struct SweepColumn {
  std::string name;
  std::string units;    // UDUNITS; "1" for none
  std::string meaning;  // one phrase
  ColumnRole role = ColumnRole::outcome;
  std::vector<std::string> words;  // where the values are words: value i stands for words[i]; otherwise empty
  Eigen::ArrayXd values;           // one per case
};

struct SweepFailure {
  long case_number = 0;
  std::string message;
};

struct SweepTable {
  std::string title;
  std::string currency;  // of cost_per_metre
  std::string design;    // "grid", "latin_hypercube", "sobol_sequence", "table", "elementary_effects" or
                         // "variance_shares"
  long points = 0, draws = 0;  // cases() is their product; case = (point - 1) draws + draw
  bool draws_alike = true;     // draw j is the same state of the unknown at every point
  std::vector<SweepColumn> columns;
  std::vector<SweepFailure> failures;

  long cases() const { return points * draws; }
  const SweepColumn* find(const std::string& name) const {
    for (const SweepColumn& column : columns) {
      if (column.name == name) return &column;
    }
    return nullptr;
  }
};

/// The courses that a sweep kept of some of its cases, at even steps of each one's own footage.
struct SweepCourses {
  std::vector<long> cases;           // numbers, from 1; empty where none were kept
  long rows = 0;                     // of each
  std::vector<SweepColumn> columns;  // values: all rows of the first case, then of the next
};

// The outcomes every sweep has: failed (0, 1), ended_by (words), holes_finished, rework_due (0, 1), due_rule
// (words), due_hole, due_depth (m in that hole), due_footage (m), due_rotating_time (s), due_elapsed_time (s)
// [the due_ columns are NaN where rework did not fall due]; footage (m), rotating_time (s), elapsed_time (s),
// energy (J), mean_rate_of_penetration (m/s), cost_per_metre (money/m; to rework due, or to the end),
// hottest_flat (K), greatest_worn_height (m), greatest_heat_damage (1), expected_chips (1), chip_chance (1,
// of the likeliest edge), chips (drawn), cutters_lost, tables_lost, outer_dull_grade, inner_dull_grade (0..8,
// NaN for none), gauge_loss (m), greatest_load_share (1), time_in_film (s), steps, right_hand_sides.

}  // namespace dullcast::storage
