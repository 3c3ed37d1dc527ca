#pragma once

#include <Eigen/Core>

#include "models/geometry/bit_layout.hpp"

namespace dullcast::wear {

/// Wear of the body around the cutters, and the side force that the gauge carries. Every function is total:
/// what lies outside a range is held at its end, a NaN comes back as a NaN. Nothing allocates.

/// Depth that solids in the flow take off blades and pockets, m/s: coefficient c (v/(1 m/s))^2.5/resistance.
/// coefficient m/s at 1 m/s and unit solids fraction; v slot velocity m/s; solids fraction c from 0 to 1;
/// erosion resistance 1 for hardened steel or good matrix, about a quarter for soft matrix of little carbide
/// (several times faster is common practice). The exponent is [asm], within the 2 to 3 that erosion handbooks
/// give for solids in liquids (Finnie, Wear 3, 1960: 2; from memory).
double erosion_rate(double coefficient, double slot_velocity, double solids_fraction,
                    double erosion_resistance);

/// Depth that rubbing takes off a face, m/s: Archard, J. Appl. Phys. 24, 1953 [pub], coefficient F v/area.
/// coefficient m2/N (m3 per N m), force N, area m2 (counts as at least 1 mm2), v sliding speed m/s.
double rubbing_wear_rate(double coefficient, double force, double area, double v);

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

/// Depth of a pocket, m: what of the cutter's cylinder the mean exposure leaves below the blade's surface, a
/// tenth of the cutter's radius at least [asm].
double pocket_depth(const geometry::BitLayout& bit);

/// Speed of grains at the end of a passage, m/s: they come up to the fluid's speed v over its length where
/// the fluid is as heavy as they are, and a gas leaves them behind:
///   v rho_f/(rho_f + rho_s size/length) [asm: a drag of one velocity head on a grain's face over the
///   length].
/// v 0 or more; total for densities and sizes of 0 or more and a length above 0.
double grain_speed(double v, double fluid_density, double grain_density, double size, double length);

/// How far the pads stand back from the wall of the hole, m: pad_wear (m off their faces) less gauge_loss.
/// Below 0 the cutters no longer clear the way for the pads, and these rub until they have worn back.
double pad_clearance(double pad_wear, double gauge_loss);

/// How well a pocket still holds its cutter, 1 new to 0 gone: (1 - (eroded + rubbed)/depth)^2. What flow and
/// rubbing take off the blade shortens the seat, and with it both the brazed area and the arm over which it
/// holds [asm]. Depths m; pocket_depth counts as at least 1 micrometre.
double pocket_fit(double eroded, double blade_rubbed, double pocket_depth);

}  // namespace dullcast::wear
