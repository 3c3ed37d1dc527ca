#pragma once

#include <Eigen/Core>
#include <string>
#include <vector>

#include "engine/scenario/inspected_bit.hpp"
#include "engine/statistics/normal_law.hpp"

namespace dullcast::learning {

using statistics::ninety_percent_point;

/// What a shelf may teach: every number that is uncertain in one of its runs, each once by name. As
/// coordinates y they are standard normal before anything was learnt: y = 0 is central, +-1.28 are low and
/// high. `bit_to_bit_wear` is not among them: no two bits share it.
struct ShelfNumbers {
  std::vector<std::string> names;
  std::vector<scenario::Quantity> before;         // as the runs have them
  std::vector<std::vector<Eigen::Index>> of_bit;  // for each bit, which of them are its own
  double bit_spread = 0.0;                        // 1, of ln(wear) from bit to bit: that of bit_to_bit_wear
  Eigen::Index count() const { return static_cast<Eigen::Index>(names.size()); }
};

/// Throws std::invalid_argument, with both bits' names, where two runs have different spreads for one number:
/// they were not made with one library.
ShelfNumbers shelf_numbers(const std::vector<scenario::ShelvedBit>& shelf);

/// A run with its numbers at y; bit_to_bit_wear at its central value.
scenario::Scenario with_coordinates(const scenario::Scenario& run, const ShelfNumbers& numbers,
                                    const Eigen::VectorXd& y);

}  // namespace dullcast::learning
