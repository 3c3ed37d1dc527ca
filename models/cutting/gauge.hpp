#pragma once

#include <Eigen/Core>

#include "models/geometry/bit_layout.hpp"

namespace dullcast::cutting {

/// The gauge: the side force that it carries, and what it has lost. Every function is total: what lies
/// outside a range is held at its end, a NaN comes back as a NaN.

/// Force on the bit across its axis.
struct LateralLoad {
  double force = 0.0;      // N
  double direction = 0.0;  // rad in [0, 2 pi), azimuth (clockwise from above) towards which the bit is pushed
};

/// Vector sum of what the rock does to the cutters across the axis. tangential_force N, against the travel,
/// which is towards larger azimuth; radial_force N, towards the axis where positive. The gauge at `direction`
/// carries it. Direction 0 when they balance.
LateralLoad lateral_imbalance(const geometry::BitLayout& bit, const Eigen::ArrayXd& tangential_force,
                              const Eigen::ArrayXd& radial_force);

/// Radius that the hole has lost, m: the outermost reach of the unworn cutters less that of the worn ones (0
/// at least). worn_height m in the face, one per cutter; 2 a or more (infinity will do) for a cutter that is
/// gone. The hole is under gauge by twice this. With no cutter left it is the whole reach.
double gauge_loss(const geometry::BitLayout& bit, const Eigen::ArrayXd& worn_height);

/// Which cutters bear on the wall of the hole: 1 where the unworn outline comes within 1 mm of the bit's
/// radius [asm], else 0.
Eigen::ArrayXi gauge_cutters(const geometry::BitLayout& bit);

/// Hole diameter lost, m: twice gauge_loss at worn heights (m), cutters marked `lost` (not 0) counting as
/// gone.
double hole_diameter_loss(const geometry::BitLayout& bit, const Eigen::ArrayXd& worn_height,
                          const Eigen::ArrayXi& lost);

/// How far the pads stand back from the wall of the hole, m: pad_wear (m off their faces) less gauge_loss.
/// Below 0 the cutters no longer clear the way for the pads, and these rub until they have worn back.
double pad_clearance(double pad_wear, double gauge_loss);

}  // namespace dullcast::cutting
