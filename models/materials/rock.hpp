#pragma once

namespace dullcast::materials {

/// What the models need to know of one rock. SI units.
struct Rock {
  double unconfined_strength = 0.0;     // Pa, UCS
  double friction_angle = 0.0;          // rad, internal friction of the intact rock
  double youngs_modulus = 0.0;          // Pa
  double poissons_ratio = 0.0;          // 1
  double cerchar_abrasivity = 0.0;      // 1, CAI (ASTM D7625)
  double conductivity = 0.0;            // W/(m K)
  double density = 0.0;                 // kg/m3
  double heat_capacity = 0.0;           // J/(kg K)
  double contact_strength_ratio = 1.0;  // 1, sigma_c / q_b: one to two [asm]
};

/// Strength of the rock at the hole bottom, Pa.
/// q_b = UCS + p_d (1 + sin phi)/(1 - sin phi), Mohr-Coulomb [hb]; p_d >= 0 is the excess of bottom-hole over
/// pore pressure. Throws std::domain_error for negative excess pressure or a friction angle outside [0,
/// pi/2).
double bottom_hole_strength(const Rock& rock, double excess_pressure);

/// Thermal diffusivity k/(rho c), m2/s [hb]. Throws std::domain_error unless rho c is above 0.
double thermal_diffusivity(const Rock& rock);

}  // namespace dullcast::materials
