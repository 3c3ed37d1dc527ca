#pragma once

#include <Eigen/Core>

#include "models/cutting/rate_strength.hpp"
#include "models/cutting/strip_sums.hpp"
#include "models/geometry/worn_profile.hpp"
#include "models/materials/rock.hpp"

namespace dullcast::cutting {

/// What the rock opposes to a cutter, in one layer.
struct RockResistance {
  double specific_energy = 0.0;      // Pa, eps of a sharp cutter: the strength at the hole bottom q_b
                                     // (Richard et al., Eng. Geol. 147-148, 2012 [pub])
  double contact_strength = 0.0;     // Pa, sigma_c
  double mobilisation_slope = 0.0;   // 1, d*/L_d = 4 (1 - nu^2) sigma_c/E [asm]
  double flat_friction = 0.0;        // 1, mu
  double drilling_efficiency = 1.0;  // 1, e in (0, 1]
  double bearing_strength = 0.0;     // Pa under a blade: bearing ratio times eps
  double core_strength = 0.0;        // Pa of rock that stands free: the unconfined strength
  RateLaw rate;                      // how strengths answer to speed and depth of cut
  double rotary_speed = 0.0;         // rev/s at which the bit turns
  bool operator==(const RockResistance&) const = default;
};

/// Resistance of a rock at an excess of bottom-hole over pore pressure (Pa). `bearing_ratio`: pressure under
/// a punch that sinks in over the rock's strength, 1 or more.
RockResistance rock_resistance(const materials::Rock& rock, double excess_pressure, double flat_friction,
                               double drilling_efficiency, double bearing_ratio = 1.0);

/// Resistance of ground of which `share` (of its volume, held in 0..1) is stones of strength `stone_strength`
/// (Pa, at the hole bottom). A cutter is in stone for that share of its path, whether they are wider than its
/// cut or narrower, and on a stiff bit at the same depth of cut as in the ground between: specific energy and
/// contact strength are the means by share (stones take the ground's ratio of the two) [asm]. Were the weight
/// the same at every moment instead, n cutters would let the depth swing by (q_s - q_g)/q sqrt(s (1 - s)/n)
/// of itself and its mean gain the square of that: 4 % for gravel of half stones under 20 cutters. Contacts
/// mobilise over the ground's depth [asm]: stones rest on it. They are cut, not pushed aside: the ground that
/// holds a stone twenty times as deep as the cut bears more than the cut asks. No stones, no change. A NaN
/// goes through.
RockResistance stony_resistance(const RockResistance& ground, double share, double stone_strength);

/// Share (0..1) of the load that stones carry there: share stone_strength/mean specific energy; 0 where
/// nothing does.
double load_on_stones(const RockResistance& stony, double share, double stone_strength);

/// Per-cutter constants of the force law, made once a bit: parts of the cutting force over eps A
/// (geometry::cutting_direction), and what of it pushes along and across the bit's axis at the tip's profile
/// angle gamma. A face that looks outward is pushed inward along the profile by lambda: on the shoulder that
/// is also downward. It draws no cutter in by more than zeta pushes out [asm]: axial is not below 0.
struct ForceDirections {
  Eigen::ArrayXd zeta;           // 1, along the profile's normal
  Eigen::ArrayXd chip_friction;  // 1, of the chip on the face
  Eigen::ArrayXd axial;          // 1, zeta cos gamma - lambda sin gamma: upward on the bit
  Eigen::ArrayXd across;         // 1, zeta sin gamma + lambda cos gamma: inward on the bit
};
ForceDirections force_directions(const geometry::BitLayout& bit, const geometry::EdgeLaw& law);

/// Everything that one depth of cut does to each cutter; arrays have one entry per cutter and keep their
/// storage.
struct CutterLoads {
  Eigen::ArrayXd area;            // m2, A_i, cross-section of rock cut in a revolution
  Eigen::ArrayXd area_moment;     // m3, integral of r cut dr
  Eigen::ArrayXd contact_force;   // N, F_c,i
  Eigen::ArrayXd contact_moment;  // N m, integral of r dF_c
  Eigen::ArrayXd contact_axial;   // N, integral of dF_c cos gamma
  Eigen::ArrayXd contact_across;  // N, integral of dF_c sin gamma: inward above 0, as on the shoulder
  Eigen::ArrayXd contact_area;    // m2, integral of L_d + p_c L_c times mobilisation: where rock bears
  Eigen::ArrayXd engaged_width;   // m, integral of mobilisation: length of edge that bears
  Eigen::ArrayXd cutting_width;   // m, length of edge with a cut
  Eigen::ArrayXd flat_mobilised;  // m2, integral of flat_weight times mobilisation
  Eigen::ArrayXd diamond_area;    // m2, integral of L_d times mobilisation: of land or flat
  Eigen::ArrayXd
      depth_moment;  // m3, integral of h_n^2 ds: over the area it is the mean depth of the rock cut
  Eigen::ArrayXd
      speed_strength;           // 1, contact strength at the cutter's speed over sigma_c (rate_strength.hpp)
  Eigen::ArrayXd cut_strength;  // 1, specific energy at its speed and depth of cut over eps
  void resize(Eigen::Index cutters);
};

/// What the functions below work with: storage that their caller may keep from one call to the next.
struct ForceStorage {
  StripSums sums;
  SpeedStrengths at_speed;
  double force_slope = 0.0;  // N/m, dW/dd of the last axial_force; 0 where nothing is cut
};

/// Loads at depth of cut d (m/rev, >= 0), strip by strip along the engaged outline:
///   F_c,i = s_v integral over cut > 0 of sigma_c (L_d + p_c L_c) m ds, m = min(1, M(h_n/d*(L_d))),
/// M(x) = (sqrt(x + x_0) - sqrt(x_0))/(sqrt(1 + x_0) - sqrt(x_0)),
/// h_n = cut cos gamma(r), s_v and s_h what speed and depth make of the strengths (rate_strength.hpp) at the
/// cutter's radius and at the mean depth of the rock it cuts, integral of h_n^2 ds over that of h_n ds: edge
/// that just begins to cut does not count by its length, so that forces are continuous. carbide_share is
/// p_c of each cutter, pressure on its carbide over that on its diamond. Detournay & Defourny 1992;
/// Detournay, Richard & Shepherd 2008 [pub]. Below the bearing strength progress grows with the square of the
/// weight, and the stronger the rock the slower it is: Maurer, J. Petroleum Technology 14(11), 1962 [pub], of
/// craters under indenters; that the depth which mobilises fully is the elastic one, and that rock is elastic
/// up to x_0 = elastic_share of it, is assumed [asm].
/// `further`: loads are asked for so much deeper (m/rev) than d, little, and straight on from there: areas,
/// the depth moment and what bears along the axis by their slopes, what else bears on a cutter in proportion
/// with that. What this leaves out is of the way's square, but for cutters that just begin to cut: theirs may
/// be wrong by as much as the way, over the most that one bears.
void cutter_loads(const geometry::WornProfile& profile, const RockResistance& rock,
                  const Eigen::ArrayXd& carbide_share, double d, CutterLoads& loads, ForceStorage& storage,
                  double further = 0.0);
void cutter_loads(const geometry::WornProfile& profile, const RockResistance& rock,
                  const Eigen::ArrayXd& carbide_share, double d, CutterLoads& loads);

/// What the speed of each cutter (SpeedStrengths) and its depth of cut make of loads that know nothing of
/// them: cutter_loads ends with it.
void apply_rate(const RockResistance& rock, const Eigen::ArrayXd& speed_strength, CutterLoads& loads);

/// Axial force that the cutters need for depth of cut d, N:
///   W(d) = sum_i (zeta s_v s_h eps A_i cos gamma_i/e + integral of dF_c cos gamma).
/// Cutting acts on the plane face and so along the tip's normal; contact along the outline's local normal.
/// Continuous and strictly increasing in d where a cutter cuts, W(0) = 0. Its slope is left in the storage.
/// `loads_follow`: what cutter_loads needs at the same d is found along with it, which saves work where that
/// is asked next.
double axial_force(const geometry::WornProfile& profile, const RockResistance& rock,
                   const ForceDirections& directions, const Eigen::ArrayXd& carbide_share, double d,
                   ForceStorage& storage, bool loads_follow = false);
double axial_force(const geometry::WornProfile& profile, const RockResistance& rock,
                   const ForceDirections& directions, const Eigen::ArrayXd& carbide_share, double d);
double axial_force(const CutterLoads& loads, const RockResistance& rock, const ForceDirections& directions);

/// Torque of the cutters about the bit axis, N m: sum_i (s_v s_h eps/e integral of r cut dr + mu integral of
/// r dF_c).
double cutter_torque(const CutterLoads& loads, const RockResistance& rock);

}  // namespace dullcast::cutting
