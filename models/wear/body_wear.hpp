#pragma once

#include <Eigen/Core>

#include "models/geometry/bit_layout.hpp"

namespace dullcast::wear {

/// Wear of the body around the cutters. Every function is total:
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

/// Wear coefficient of blades and pads in a rock, m2/N: coefficient at CAI 1 (m2/N) times CAI^exponent,
/// growing with the rock's abrasivity as the diamond's does [asm].
double body_rubbing_coefficient(double coefficient, double abrasivity, double abrasivity_exponent);

/// What decides how the body of one bit wears and stays the same along the hole.
struct BodyWearLaw {
  double erosion_coefficient = 0.0;  // m/s
  double erosion_resistance = 1.0;   // 1
  double blade_area = 0.0;           // m2, of all blades' faces towards the hole bottom
  double pad_area = 0.0;             // m2, of the pad that faces the imbalance
  double bit_radius = 0.0;           // m
};

/// What wears it at one instant.
struct BodyLoads {
  double grain_speed = 0.0;          // m/s, in the slots
  double solids_fraction = 0.0;      // 1
  double rubbing_coefficient = 0.0;  // m2/N, of this rock on blades and pads
  double blade_weight = 0.0;         // N on rubbing blades
  double rubbing_radius = 0.0;       // m, where they rub
  double pad_force = 0.0;            // N
  double rotary_speed = 0.0;         // rev/s
};

/// Depths lost a second, m/s: erosion of blades and pockets, rubbing of blades, rubbing of pads.
struct BodyWearRates {
  double eroded = 0.0, blade = 0.0, pad = 0.0;
};
BodyWearRates body_wear_rates(const BodyWearLaw& law, const BodyLoads& loads);

/// Depth of a pocket, m: what of the cutter's cylinder the mean exposure leaves below the blade's surface, a
/// tenth of the cutter's radius at least [asm].
double pocket_depth(const geometry::BitLayout& bit);

/// Speed of grains at the end of a passage, m/s: they come up to the fluid's speed v over its length where
/// the fluid is as heavy as they are, and a gas leaves them behind:
///   v rho_f/(rho_f + rho_s size/length) [asm: a drag of one velocity head on a grain's face over the
///   length].
/// v 0 or more; total for densities and sizes of 0 or more and a length above 0.
double grain_speed(double v, double fluid_density, double grain_density, double size, double length);

/// How well a pocket still holds its cutter, 1 new to 0 gone: (1 - (eroded + rubbed)/depth)^2. What flow and
/// rubbing take off the blade shortens the seat, and with it both the brazed area and the arm over which it
/// holds [asm]. Depths m; pocket_depth counts as at least 1 micrometre.
double pocket_fit(double eroded, double blade_rubbed, double pocket_depth);

}  // namespace dullcast::wear
