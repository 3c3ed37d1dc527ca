#pragma once

#include <Eigen/Core>
#include <string>
#include <vector>

#include "engine/scenario/quantity.hpp"

namespace dullcast::scenario {

/// How the errors of some numbers go together: what was told of a product of two leaves each wide and the
/// product narrow. Numbers as for_each_number calls them; normal in the coordinates in which low and high are
/// their 10 % and 90 % points.
struct NumbersTogether {
  std::vector<std::string> names;
  Eigen::MatrixXd correlation;  // symmetric, 1 on the diagonal; 0 by 0 where nothing goes together
};

struct LearnedNumber {
  std::string name;
  Quantity now;
};

/// What inspected bits have told of the library's numbers.
struct Learned {
  std::string file;   // where it was read from; empty where it was learnt in this run or stands in a scenario
  std::string shelf;  // of what shelf
  std::string made;   // when and by what
  int bits = 0;       // how many of them
  double coefficient_factor = 1.0;  // 1, by which the abrasion coefficient moved
  /// As learnt; of what the reader reads, only those of records that no library has, the others being in
  /// place.
  std::vector<LearnedNumber> numbers;
  NumbersTogether together;
};

/// Correlation of the numbers `names`: that of `together` where both are in it, else 0.
Eigen::MatrixXd correlation_of(const NumbersTogether& together, const std::vector<std::string>& names);

}  // namespace dullcast::scenario
