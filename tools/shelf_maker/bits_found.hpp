#pragma once

#include <string>
#include <vector>

#include "engine/scenario/scenario.hpp"
#include "tools/shelf_maker/bits_drilled.hpp"

namespace dullcast::shelf_maker {

/// What the invented district truly is, where the library says otherwise: what a fit should find.
struct Planted {
  double abrasion_factor = 1.8;                // on the library's abrasion coefficient
  std::string odd_rock = "sandstone";          // whose abrasivity is
  double odd_rock_factor = 1.3;                // times the library's
  std::string weak_lot = "autumn";             // whose edges are
  double weak_edge_share = 0.7;                // as strong as sound ones
  double wear_scatter = 0.2;                   // standard deviation of ln(wear) from bit to bit
  double calliper_error = 1e-4;                // m, one standard deviation of a reading
  double calliper_reach = 1.5e-3;              // m: what is worn more is "at least" that
  double grader_error = 0.7;                   // of a step, one standard deviation, before rounding
  std::vector<std::size_t> short_of_flow{16};  // bits (from 0) that ran with a fifth of the flow recorded
  std::vector<std::size_t> more_holes{28};     // bits that drilled twice the holes recorded
};

/// What the shop wrote down of one bit: cells of its row, empty where nothing was looked at.
struct BitFound {
  std::string inner, outer;          // grades
  std::vector<std::string> cutters;  // a finding each; empty where they were not looked at one by one
  std::string chipped, lost;         // counts
  std::string note;
};

/// Drills what the record says (`recorded`, its run) as the district truly is, with chips and losses drawn,
/// and inspects the bit as a shop does: a third of the bits by grades alone, the others with a calliper on
/// some or all cutters. `number` counts bits from 0; all draws are by counter from `seed`.
BitFound drill_and_inspect(const scenario::Scenario& recorded, std::size_t number, unsigned long seed,
                           const Planted& planted);

}  // namespace dullcast::shelf_maker
