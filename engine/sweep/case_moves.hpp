#pragma once

#include <Eigen/Core>
#include <string>
#include <vector>

#include "engine/sweep/sweep_plan.hpp"

namespace dullcast::sweep {

/// A value that every case of a sweep sets by its path, and which of a case's inputs says to what.
struct Move {
  std::string path;
  Eigen::Index column = 0;                     // of the inputs
  double times = 1.0;                          // what the input multiplies
  const base::Dimension* dimension = nullptr;  // null: a word
  std::string currency;                        // of money
  std::vector<std::string> words;              // what the input is the index of, where it is a word
};

/// What a plan's factors and drawn values move, in their order; their inputs begin at column `first`.
std::vector<Move> moves_of(const SweepPlan& plan, Eigen::Index first);

/// What a move sets in the case with these inputs, SI; words by their index.
double value_of(const Move& move, const Eigen::ArrayXd& inputs);

/// The same as --set writes it: "key=value", numbers to the last bit.
std::string set_of(const Move& move, const Eigen::ArrayXd& inputs);

/// A library number that is drawn by its name.
struct DrawnNumber {
  std::string name;         // as for_each_number calls it
  Eigen::Index column = 0;  // of the inputs
};
std::vector<DrawnNumber> drawn_numbers_of(const SweepPlan& plan, Eigen::Index first_drawn);

}  // namespace dullcast::sweep
