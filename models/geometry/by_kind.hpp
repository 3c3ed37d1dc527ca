#pragma once

#include <Eigen/Core>
#include <vector>

namespace dullcast::geometry {

/// What each kind of cutter on a bit has, found by the cutter.
template <class T>
struct ByKind {
  std::vector<T> kinds;
  Eigen::ArrayXi kind;  // of each cutter, 0 .. kinds.size() - 1
  const T& of(Eigen::Index cutter) const { return kinds[static_cast<std::size_t>(kind(cutter))]; }
};

}  // namespace dullcast::geometry
