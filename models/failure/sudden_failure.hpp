#pragma once

#include "models/geometry/cutter.hpp"

namespace dullcast::failure {

// Sudden failures as load over median strength: the load share, at which 1 the median part fails. All
// functions are total: clamped where a number has no meaning, continuous, and a NaN goes through.

/// Chance that a part fails under a load share (1), strengths being lognormal about their median with
/// standard deviation `spread` of their logarithm: Phi(ln(load_share)/spread) [hb]. No load gives 0; a spread
/// of 0 or less is a step, a half at exactly 1.
double lognormal_failure_probability(double load_share, double spread);

/// Silver braze between cutter and pocket.
struct BrazeLaw {
  double shear_strength = 0.0;         // Pa, median, below softening
  double softening_temperature = 0.0;  // K
  double solidus = 0.0;                // K, above softening
};

/// Shear strength of the braze at T (K), Pa: whole below softening, 5 % from the solidus on, a cubic step
/// between (C1) [asm; brazing handbooks give falling strength from about 200 C and none at the solidus]. The
/// 5 % stands for a viscous film and keeps ratios finite.
double braze_strength(const BrazeLaw& law, double T);

/// Area over which a cutter is brazed, m2: the carbide's side in the pocket, 2 pi a (l - t)(1 -
/// exposed_share), and with back_in_pocket its back too, pi a^2. Braze does not wet the diamond table [cp].
/// exposed_share (1) is held in 0..1.
double bonded_pocket_area(const geometry::CutterShape& shape, double exposed_share, bool back_in_pocket);

/// Load share of a cutter's brazed pocket: resultant (N)/(braze_strength(T) x bonded_area (m2) x pocket_fit),
/// fit 1 for a sound pocket and 0 for an open one. Nominal stress, as lap-joint tests state strength [asm].
/// The capacity is held above 1 N.
double pocket_load_share(const BrazeLaw& law, double resultant, double bonded_area, double pocket_fit,
                         double T);

/// Bond of the diamond table to its carbide.
struct BondLaw {
  double shear_strength = 0.0;       // Pa, median
  double mismatch_per_kelvin = 0.0;  // Pa/K, interface shear from unequal expansion
  double neutral_temperature = 0.0;  // K, where there is none
};

/// Load share of that bond: (|F_n cos(theta) - F_t sin(theta)|/(pi a^2) + mismatch_per_kelvin |T - T_0|) over
/// strength. The interface is parallel to the face, so that of the push on the cutter, F_t (N) against the
/// travel and F_n (N) away from the rock, only the part along the face shears it; spread evenly [asm].
/// Thermal shear points outward all round the rim, so the two add somewhere [hb: Timoshenko, J. Opt. Soc. Am.
/// 11, 1925, for the growth with temperature]. theta rad, T K. The strength is held above 1 Pa.
double bond_load_share(const BondLaw& law, double tangential_force, double normal_force,
                       const geometry::CutterShape& shape, double back_rake, double T);

/// Root of one blade, as a rectangle.
struct BladeSection {
  double height = 0.0;     // m, root to tip: the lever of the cutters' forces
  double thickness = 0.0;  // m, along the travel
  double length = 0.0;     // m, along the radius
};

/// Load share of a blade bent about its root by the sum of its cutters' F_t x height (N m):
/// 6 M/(length thickness^2)/strength [hb: cantilever beam, outer fibre; e.g. Gere & Timoshenko, Mechanics of
/// Materials]. The section's lengths are held above 0.1 mm, strength above 1 Pa; the moment's sign does not
/// matter.
double blade_load_share(double sum_of_moments, const BladeSection& section, double body_strength);

}  // namespace dullcast::failure
