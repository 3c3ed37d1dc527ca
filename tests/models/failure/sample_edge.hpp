#pragma once

#include "models/common/constants.hpp"
#include "models/failure/chipping.hpp"
#include "support/numbers.hpp"

/// One edge of a usual cutter, what decides how it chips, and stones that it may meet. Every number is
/// invented.
namespace dullcast::testing {

inline constexpr failure::ChipLaw chip_law{3.2e9, 10.0, 0.7,   0.3,    1.0, 1.5,
                                           1.2e7, 0.4,  800e9, 2.5e-6, 0.1, 0.6};
inline constexpr failure::CuttingEdge new_edge{15.0 * degree, 0.0, 100.0 + celsius_zero, 0.0};
inline constexpr failure::Inclusions gravel{0.5, 25e-3, 175e6};

/// With its bevel at an angle in degrees.
inline geometry::CutterShape cutter(double bevel_angle = 45.0) {
  geometry::CutterShape shape;
  shape.radius = 8e-3;
  shape.length = 13e-3;
  shape.table_thickness = 2e-3;
  shape.bevel_width = 0.4e-3;
  shape.bevel_angle = bevel_angle * degree;
  shape.edge_radius = 30e-6;
  return shape;
}

}  // namespace dullcast::testing
