#pragma once

#include <Eigen/Core>
#include <optional>
#include <vector>

#include "models/geometry/cutter.hpp"

namespace dullcast::geometry {

/// Where the cutters of one bit sit. All arrays have one entry per cutter. SI units, angles in rad.
struct BitLayout {
  double bit_radius = 0.0;             // m, half the nominal diameter
  int blades = 0;                      // 1
  std::vector<CutterShape> shapes{1};  // one per kind of cutter, the bit's usual one first
  Eigen::ArrayXi kind;                 // of each cutter, 0 .. shapes.size() - 1
  Eigen::ArrayXd radius;               // m, r of the cutter's tip
  Eigen::ArrayXd azimuth;              // rad, in [0, 2 pi)
  Eigen::ArrayXd depth;                // m, z of the tip, positive downward
  Eigen::ArrayXd back_rake;            // rad, theta
  Eigen::ArrayXd side_rake;            // rad, beta: above 0 the face looks outward and pushes cuttings there
  Eigen::ArrayXd profile_angle;  // rad, gamma of the outward normal at the tip: 0 at the nose, pi/2 at gauge
  Eigen::ArrayXd exposure;       // m, height of the tip over the blade, along the normal
  Eigen::ArrayXi blade;          // 0 .. blades - 1
  Eigen::Index count() const { return radius.size(); }
  const CutterShape& shape(Eigen::Index i) const { return shapes[static_cast<std::size_t>(kind(i))]; }
};

/// Sizes the arrays of a layout for so many cutters, all of the first kind, every number 0.
void resize(BitLayout& bit, Eigen::Index cutters);

/// Radii of all cutters' cylinders, m, one entry per cutter.
Eigen::ArrayXd cutter_radii(const BitLayout& bit);

/// From a share of the outermost tip's radius on, outwards, the cutters of a bit are of another kind.
struct KindZone {
  double from = 0.0;  // 1, in [0, 1]
  int kind = 0;
};

/// One cutter (0 .. n - 1, from the axis outwards) that is of another kind than its zone's.
struct FittedCutter {
  Eigen::Index cutter = 0;
  int kind = 0;
};

/// How far a wing trails from its innermost cutter to its outermost, as makers state it: the angle between
/// the two (rad), or the arc along the gauge (m).
struct WingTwist {
  double angle = 0.0, arc = 0.0;
};

/// A short description of a bit from which its layout is made.
struct BladePlan {
  double bit_diameter = 0.0;          // m
  Eigen::ArrayXi cutters_per_blade;   // one entry per blade, each at least 1
  double wing_sweep = 0.0;            // rad that a wing trails from the axis to the bit radius
  std::vector<WingTwist> wing_twist;  // one per blade, in place of wing_sweep; empty: by wing_sweep
  double cone_angle = 0.0;            // rad, slope of the cone inside the nose
  double nose_share = 0.6;            // radius of the nose over bit radius, in (0, 1)
  double gauge_angle = 0.0;           // rad, profile angle of the outermost cutter, in (0, pi/2]
  double inner_back_rake = 0.0;       // rad, on the inner two thirds of the radius
  double outer_back_rake = 0.0;       // rad, on the outer third
  double side_rake = 0.0;             // rad
  std::optional<double> exposure;     // m; none: each cutter its own radius
  double crowding = 0.75;             // cutter k of n sits at share ((k + 1/2)/(n - 1/2))^crowding of the
                                      // outermost tip's radius: 1 is even, less crowds them towards gauge
  std::vector<KindZone> zones;        // in rising order of `from`; inside the first: kind 0
  std::vector<FittedCutter> fitted;   // overrule the zones
};

/// Lays cutters out on a cone, a nose and a circular shoulder. From gauge inward each next cutter goes to the
/// next blade in turn that has room [cp]. The outermost cutter's outline just reaches the bit radius. Along a
/// wing azimuth falls linearly with the radius, by the sweep or by the wing's twist; a wing of one cutter has
/// none.
/// Throws std::invalid_argument when the plan cannot be laid out (the sentence says why).
BitLayout lay_out_mixed(const BladePlan& plan, const std::vector<CutterShape>& shapes);
/// The same with cutters of one shape.
BitLayout lay_out_blades(const BladePlan& plan, const CutterShape& shape);

/// A band of radius that no cutter reaches, between the core and the outermost reach.
struct UncoveredBand {
  double inner = 0.0, outer = 0.0;  // m
};

/// The first band of radius, wider than `tolerance` (m), that no unworn cutter reaches; inner == outer when
/// all is covered.
UncoveredBand first_uncovered_band(const BitLayout& bit, double tolerance = 1e-6);

}  // namespace dullcast::geometry
