#include "engine/scenario/learned.hpp"

#include <algorithm>

namespace dullcast::scenario {

Eigen::MatrixXd correlation_of(const NumbersTogether& together, const std::vector<std::string>& names) {
  const auto count = static_cast<Eigen::Index>(names.size());
  Eigen::MatrixXd result = Eigen::MatrixXd::Identity(count, count);
  std::vector<Eigen::Index> places;
  for (const std::string& name : names) {
    const auto found = std::find(together.names.begin(), together.names.end(), name);
    places.push_back(found == together.names.end() ? -1 : found - together.names.begin());
  }
  for (Eigen::Index i = 0; i < count; ++i) {
    for (Eigen::Index j = 0; j < i; ++j) {
      const Eigen::Index a = places[static_cast<std::size_t>(i)], b = places[static_cast<std::size_t>(j)];
      if (a >= 0 && b >= 0) result(i, j) = result(j, i) = together.correlation(a, b);
    }
  }
  return result;
}

}  // namespace dullcast::scenario
