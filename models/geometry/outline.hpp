#pragma once

#include <Eigen/Core>
#include <algorithm>
#include <cmath>

#include "models/geometry/bit_layout.hpp"

namespace dullcast::geometry {

/// Outline of one cutter in the (r, z) plane: a disc of radius a, tilted by the back rake theta and turned
/// about the profile's normal by the side rake beta, projects to an ellipse, cut off flat where worn. A point
/// of the disc at x across the face and y towards the tip lies at x cos(beta) - y sin(theta) sin(beta) along
/// the profile (outward) and y cos(theta) along the normal. Lengths m.
struct Outline {
  double centre_r = 0.0, centre_z = 0.0;
  double a = 0.0;                             // radius of the disc
  double sine = 0.0, cosine = 1.0;            // of the profile angle gamma
  double side_sine = 0.0, side_cosine = 1.0;  // of the side rake beta
  double half_reach = 0.0;                    // half extent in r of the whole ellipse
  double lean = 0.0;          // dz/dr of the line through the ellipse's middle points at given r
  double height_scale = 0.0;  // half the height at the middle over half_reach
  double rake_sine = 0.0, rake_cosine = 1.0;    // of the back rake theta
  double outermost_height = 0.0;                // of the whole ellipse's outermost point along the normal
  double flat_level = 0.0;                      // height of the flat along the normal from the centre
  double tangent = 0.0, secant = 1.0;           // of gamma; both 0 where the flat stands upright
  double face_along = 1.0, face_high = 0.0;     // what a length along and along the normal adds to x
  double flat_inner = 0.0, flat_outer = 0.0;    // radii where the flat begins and ends
  double reach_inner = 0.0, reach_outer = 0.0;  // radii between which the worn outline exists

  /// Cuts the outline off at worn height u (m, in the face, 0 <= u < 2 a).
  void wear_to(double u);
  /// Depth z of the worn outline at a radius inside its reach (clamped to it).
  double depth_at(double r) const {
    const double from_centre = r - centre_r;
    const double under_root = std::max(0.0, (half_reach - from_centre) * (half_reach + from_centre));
    const double on_ellipse = lean * from_centre + height_scale * std::sqrt(under_root);
    // An upright flat limits the reach only.
    if (secant == 0.0) return centre_z + on_ellipse;
    return centre_z + std::min(on_ellipse, flat_level * secant - from_centre * tangent);
  }
  /// Where on the disc, across the face (x), the point at radius r and depth z lies.
  double across_face(double r, double z) const {
    const double along = (r - centre_r) * cosine - (z - centre_z) * sine;
    const double height = (r - centre_r) * sine + (z - centre_z) * cosine;
    return along * face_along + height * face_high;
  }
};

/// Outline of cutter i at worn height u (m, in the face, 0 <= u < 2 a).
Outline make_outline(const BitLayout& bit, Eigen::Index i, double u);

}  // namespace dullcast::geometry
