#pragma once

#include <Eigen/Core>

namespace dullcast::failure {

/// What the edges cut at one instant. Arrays have one entry per cutter.
struct EdgeCuts {
  const Eigen::ArrayXd& engaged_width;  // m
  const Eigen::ArrayXd& area;           // m2
  const Eigen::ArrayXd& sliding_speed;  // m/s
  const Eigen::ArrayXd& strength;       // 1, of rock as it is cut at that speed and depth over its own
  /// Mean depth of a cutter's cut over its engaged width, m; 0 where it cuts nothing.
  double depth(Eigen::Index i) const { return engaged_width(i) > 0.0 ? area(i) / engaged_width(i) : 0.0; }
};

}  // namespace dullcast::failure
