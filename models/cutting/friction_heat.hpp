#pragma once

#include <Eigen/Core>

#include "models/cutting/bit_forces.hpp"

namespace dullcast::cutting {

/// Heat that friction makes on each cutter, W.
struct FrictionHeat {
  Eigen::ArrayXd flat;       // on the contact
  Eigen::ArrayXd face;       // of the chip on the face
  Eigen::ArrayXd rock_rise;  // K, by which rock that was cut is warmer than the bottom
  Eigen::ArrayXd crushed;  // W, that warmth times the rate at which rock is cut: no more can be drawn from it
};

/// How cutting heats what is cut.
struct ChipHeatLaw {
  double speed_share = 0.0;    // 1, r_c: speed of the chip over the face over the cutting speed
  double crushed_share = 0.0;  // 1, of the work of cutting that is heat in the rock that meets face and flat
};

/// At rotary speed N (rev/s), Omega = 2 pi N, in rock of the given heat capacity per volume rho c (J/(m3 K)):
///   flat: mu Omega (integral of r dF_c + R F_side), R the bit's radius, where the wall presses gauge
///   cutters; face: r_c eps Omega sin psi/cos(theta + psi) integral of r cut dr, the chip sliding at r_c
///   times the cutting speed; rock_rise: crushed_share eps/(rho c), crushed: crushed_share eps Omega integral
///   of r cut dr, since nearly all work of crushing and shearing is heat there (Taylor & Quinney, Proc. R.
///   Soc. A 143, 1934, of metals [pub]; the share of it that has not left before the rock meets face and flat
///   [asm]). eps is the sharp cutter's at the cutter's speed and depth of cut, undivided by the drilling
///   efficiency: regrinding heats the rock, not the face.
void friction_heat(const BitMechanics& bit, const BitForces& forces, const RockResistance& rock, double N,
                   double bit_radius, const ChipHeatLaw& chips, double heat_per_volume, FrictionHeat& heat);

}  // namespace dullcast::cutting
