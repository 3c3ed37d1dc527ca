#pragma once

#include <Eigen/Core>

#include "models/cutting/bit_forces.hpp"

namespace dullcast::cutting {

/// Heat that friction makes on each cutter, W.
struct FrictionHeat {
  Eigen::ArrayXd flat;  // on the contact
  Eigen::ArrayXd face;  // of the chip on the face
};

/// At rotary speed N (rev/s), Omega = 2 pi N:
///   flat: mu Omega (integral of r dF_c + R F_side), R the bit's radius, where the wall presses gauge
///   cutters; face: r_c eps Omega sin psi/cos(theta + psi) integral of r cut dr, the chip sliding at r_c
///   times the cutting speed. eps is the sharp cutter's, undivided by the drilling efficiency: regrinding
///   heats the rock, not the face.
void friction_heat(const BitMechanics& bit, const BitForces& forces, const RockResistance& rock, double N,
                   double bit_radius, double chip_speed_share, FrictionHeat& heat);

}  // namespace dullcast::cutting
