#pragma once

#include <Eigen/Core>

#include "models/geometry/bit_layout.hpp"

namespace dullcast::geometry {

/// Outline of one cutter in the (r, z) plane: a disc tilted by the back rake projects to an ellipse, a along
/// the profile and a cos(theta) normal to it, cut off flat where worn. Lengths m.
struct Outline {
  double centre_r = 0.0, centre_z = 0.0;
  double a = 0.0, b = 0.0;          // half axes along the profile and along the normal
  double sine = 0.0, cosine = 1.0;  // of the profile angle gamma
  double half_reach = 0.0;          // half extent in r of the whole ellipse
  double lean = 0.0;                // dz/dr of the line through the ellipse's middle points at given r
  double height_scale = 0.0;        // a b/half_reach^2
  double rake_sine = 0.0, rake_cosine = 1.0;    // of the back rake theta
  double flat_level = 0.0;                      // height of the flat along the normal from the centre
  double flat_inner = 0.0, flat_outer = 0.0;    // radii where the flat begins and ends
  double reach_inner = 0.0, reach_outer = 0.0;  // radii between which the worn outline exists

  /// Depth z of the worn outline at a radius inside its reach (clamped to it).
  double depth_at(double r) const;
  /// Distance from the cutter's lowest point, along the profile, of the outline's point at depth z and radius
  /// r.
  double along_profile(double r, double z) const { return (r - centre_r) * cosine - (z - centre_z) * sine; }
};

/// Outline of cutter i at worn height u (m, in the face, 0 <= u < 2 a).
Outline make_outline(const BitLayout& bit, Eigen::Index i, double u);

}  // namespace dullcast::geometry
