#pragma once

#include <Eigen/Core>

#include "models/geometry/cutter.hpp"

namespace dullcast::geometry {

/// Where the cutters of one bit sit. All arrays have one entry per cutter. SI units, angles in rad.
struct BitLayout {
  double bit_radius = 0.0;       // m, half the nominal diameter
  int blades = 0;                // 1
  CutterShape shape;             // one shape for every cutter of the bit
  Eigen::ArrayXd radius;         // m, r of the cutter's tip
  Eigen::ArrayXd azimuth;        // rad, in [0, 2 pi)
  Eigen::ArrayXd depth;          // m, z of the tip, positive downward
  Eigen::ArrayXd back_rake;      // rad, theta
  Eigen::ArrayXd side_rake;      // rad; recorded, acts "barely" on the forces (Coudyzer & Richard 2005 [pub])
  Eigen::ArrayXd profile_angle;  // rad, gamma of the outward normal at the tip: 0 at the nose, pi/2 at gauge
  Eigen::ArrayXd exposure;       // m, height of the tip over the blade, along the normal
  Eigen::ArrayXi blade;          // 0 .. blades - 1
  Eigen::Index count() const { return radius.size(); }
};

/// A short description of a bit from which its layout is made.
struct BladePlan {
  double bit_diameter = 0.0;         // m
  Eigen::ArrayXi cutters_per_blade;  // one entry per blade, each at least 1
  double wing_sweep = 0.0;           // rad that a wing trails from axis to gauge
  double cone_angle = 0.0;           // rad, slope of the cone inside the nose
  double nose_share = 0.6;           // radius of the nose over bit radius, in (0, 1)
  double gauge_angle = 0.0;          // rad, profile angle of the outermost cutter, in (0, pi/2]
  double inner_back_rake = 0.0;      // rad, on the inner two thirds of the radius
  double outer_back_rake = 0.0;      // rad, on the outer third
  double side_rake = 0.0;            // rad
  double exposure = 0.0;             // m
  double crowding = 0.75;            // cutter k of n sits at share ((k + 1/2)/(n - 1/2))^crowding of the
                                     // outermost tip's radius: 1 is even, less crowds them towards gauge
};

/// Lays cutters out on a cone, a nose and a circular shoulder. From gauge inward each next cutter goes to the
/// next blade in turn that has room [cp]. The outermost cutter's outline just reaches the bit radius.
/// Throws std::invalid_argument when the plan cannot be laid out (the sentence says why).
BitLayout lay_out_blades(const BladePlan& plan, const CutterShape& shape);

/// A band of radius that no cutter reaches, between the core and the outermost reach.
struct UncoveredBand {
  double inner = 0.0, outer = 0.0;  // m
};

/// The first band of radius, wider than `tolerance` (m), that no unworn cutter reaches; inner == outer when
/// all is covered.
UncoveredBand first_uncovered_band(const BitLayout& bit, double tolerance = 1e-6);

}  // namespace dullcast::geometry
