#pragma once

#include "models/failure/wedge_stress.hpp"
#include "models/geometry/cutter.hpp"

namespace dullcast::failure {

/// Stones in the ground: spheres of one size, scattered at random.
struct Inclusions {
  double share = 0.0;       // 1, of the rock's volume, 0..1
  double size = 0.0;        // m, diameter
  double strength = 0.0;    // Pa
  double protrusion = 0.0;  // m, by which they stand out of the ground between them
};

/// When a diamond edge breaks. Library values say how sure each number is; most are assumptions.
struct ChipLaw {
  double edge_strength = 0.0;        // Pa, characteristic (63 %) strength of a sound cold edge, one impact
  double weibull_modulus = 10.0;     // 1
  double hot_share = 0.7;            // 1, share of the cold strength left at 700 C
  double damaged_share = 0.3;        // 1, share of the strength left at heat damage 1
  double roughness_impacts = 0.0;    // 1/m of sliding: impacts from the rock's own unevenness
  double roughness_overload = 1.0;   // 1, depth met in such an impact over the mean: loads seats and blades
  double impact_impedance = 0.0;     // Pa s/m, rho c of hard rock and stones
  double chip_size_share = 0.0;      // 1, height of a chip over the depth of cut met
  double table_modulus = 0.0;        // Pa
  double table_expansion = 0.0;      // 1/K
  double table_poisson = 0.0;        // 1
  double shock_share = 0.0;          // 1, of the full quench stress that reaches the edge
  double load_variation = 0.0;       // 1, deviation over mean of the load on a cutter in the hardest rock
  double brittle_strength = 0.0;     // Pa, of rock in which it is half as much
  double unevenness = 0.0;           // m, by which a peak is deeper than the mean depth of cut
  double touch_down_overload = 1.0;  // 1, load as the bit is set on bottom over the load afterwards
};

/// The state of one cutter's edge.
struct CuttingEdge {
  double back_rake = 0.0;               // rad
  double worn_height = 0.0;             // m
  double temperature = 0.0;             // K
  double heat_damage = 0.0;             // 1
  const WearingWedge* wedge = nullptr;  // of its shape and back rake, where these have been looked at before
};

/// What one cutter cuts and may strike.
struct EdgeImpacts {
  double width = 0.0;          // m, engaged
  double depth = 0.0;          // m, mean depth of cut over that width
  double sliding_speed = 0.0;  // m/s
  double rock_strength = 0.0;  // Pa, at the hole bottom, of the ground between stones
  Inclusions inclusions;
  double rock_impedance = 0.0;  // Pa s/m, rho c of that ground
};

// Every function below is total: clamped where a number has no meaning, continuous, and a NaN goes through.

/// Characteristic strength of an edge, Pa, at temperature T (K) and heat damage (1, held in 0..1) [asm]: cold
/// up to 20 C, linear to hot_share at 700 C and on, never under a tenth of the cold strength; the corners are
/// rounded (10 K at 20 C, 0.04 of strength at a tenth) so that the rate is C1. Times 1 - (1 - damaged_share)
/// damage.
double edge_strength(const ChipLaw& law, double T, double heat_damage);

/// Standard deviation over mean of the load on a cutter in rock of the given strength (Pa): load_variation
/// q/(q + brittle_strength) [asm]. Cutting forces run smooth in ductile and saw-toothed in brittle rock
/// (Richard et al., Eng. Geol. 147-148, 2012; Che et al., J. Manuf. Sci. Eng. 139, 2017, 011011 [pub] for the
/// trend).
double load_variation(const ChipLaw& law, double strength);

/// How much more often than under its mean an edge of Weibull modulus m breaks under a load that varies by
/// `variation` (1, deviation over mean): the m-th moment of a Weibull distribution of mean 1 and that
/// variation, Gamma(1 + m/k)/Gamma(1 + 1/k)^m, its shape k = variation^-1.086 (within 3 % for k from 1 to 10)
/// [hb: Justus et al., J. Appl. Meteorology 17, 1978]. 1 without variation; held at 1 of variation, where the
/// peaks' tail is exponential. Total; a NaN goes through.
double peak_factor(double variation, double modulus);

/// Peak factors (1) of the ground and of the stones in it: the same for every edge, so worked out once.
struct PeakFactors {
  double ground = 1.0, stones = 1.0;
};
PeakFactors peak_factors(const ChipLaw& law, double ground_strength, const Inclusions& inclusions);

/// Depth (m) met at a peak of the load where the mean depth of cut is d (m, >= 0): d + a/(1 + a/(4 d)), a the
/// bottom's unevenness: by a where the cut is deep, by four times itself at most where the bit skims [asm].
double peak_depth(double depth, double unevenness);

/// Depth (m) to which a stone is met at a mean depth of cut d (m): d and what it stands out, but not past
/// half its size (rounded) [asm].
double depth_in_stone(const Inclusions& inclusions, double depth);

/// Height (m) by which stones of a size (m) stand out of ground softer than they (Pa): share size (1 -
/// q/q_s), none where it is as hard [asm].
double stone_protrusion(double share, double size, double ground_strength, double stone_strength);

/// Line load of an impact on the whole depth of cut met, N per metre of edge: (strength + rho c v) depth
/// [asm]. Strength Pa, v m/s, depth m; negative ones count as 0.
/// `impedance` is rho c, Pa s/m.
double impact_line_load(double impedance, double strength, double v, double depth);

/// The part of a line load over a depth of cut d that presses within an edge radius r_e of the very edge, as
/// a share: 1/sqrt(1 + (pi^2/4) d/r_e). Under a rigid punch of length d the pressure is P'/(pi sqrt(s (d -
/// s))) at s from its end, which puts (2/pi) asin(sqrt(r_e/d)) of P' within r_e [hb: Sadowsky 1928; Johnson,
/// Contact Mechanics, 1985, sec. 2.8]; the form used is its limit for d >> r_e (within 2.5 % from 15 r_e,
/// never more than 0.47 below it) and is smooth where the exact one has a corner at d = r_e. The rest of the
/// load rests on the face and stresses the edge no more than its own pressure. d m >= 0, r_e m.
double edge_load_share(double depth, double edge_radius);

/// Tension at the edge from an impact on rock of the given strength (Pa) at speed v (m/s) over a depth (m):
/// impact_line_load x edge_load_share/r_e x wedge_stress_factor of edge_wedge, Pa.
double impact_stress(double impedance, const geometry::CutterShape& shape, const CuttingEdge& edge,
                     double strength, double v, double depth);

/// Weibull chance that an edge of the given characteristic strength breaks: 1 - exp(-(stress/strength)^m)
/// [hb: Weibull, J. Applied Mechanics 18, 1951]. Stress and strength Pa, m > 0. No stress, no break; no
/// strength, certain break.
double chip_probability(double stress, double strength, double modulus);

/// Stones that an edge of the given engaged width and depth of cut (m) meets per metre of travel, 1/m: N_V [w
/// d + D (w + d) + pi D^2/4], N_V = share/(pi D^3/6). A sphere of diameter D is met when its centre lies
/// within D/2 of the swept w x d rectangle: the area of that strip is Steiner's formula [hb: Santalo,
/// Integral Geometry and Geometric Probability, 1976; Underwood, Quantitative Stereology, 1970]. A thin line
/// gives share over the mean chord 2D/3. Grazes count as meetings. None at share or size 0.
double inclusions_met_per_metre(const Inclusions& inclusions, double width, double depth);

/// Rate of the chance of a chip, 1/s: sliding speed times the sum of, per metre,
/// - peaks of the load in the ground: (1 - share) roughness_impacts P(ground's strength and impedance,
/// peak_depth),
/// - the same within stones: share roughness_impacts P(stones' strength, peak_depth),
/// - blows on entering them: inclusions_met_per_metre P(stones' strength, depth_in_stone),
/// P = 1 - exp(-peak_factor (impact_stress/edge_strength)^m), without the factor on entering stones, grazed
/// or not, which counts at the whole depth already [asm]: the chance that the mean exponent over all peaks
/// gives, an upper bound to the mean chance (Jensen) that it meets where chips are rare. Blows come at
/// random, so those that chip are a Poisson process thinned by P [hb: Cox & Miller, 1965]: the chance over a
/// time is 1 - exp(-integral). `factors` of the ground by peak_factors; without them the load is steady. 0
/// when nothing is cut.
double chip_hazard_rate(const ChipLaw& law, const geometry::CutterShape& shape, const CuttingEdge& edge,
                        const EdgeImpacts& impacts, const PeakFactors& factors = {});

/// Hazard (1) of entering a harder rock of the given strength (Pa) at the softer rock's depth of cut (m):
/// impacts x P.
double boundary_hazard(const ChipLaw& law, const geometry::CutterShape& shape, const CuttingEdge& edge,
                       double depth_before, double harder_strength, double v, double impacts);

/// Hazard (1) of one setting of the bit on bottom where it then cuts as `impacts` says: peak_factor
/// (stress/edge_strength)^m at touch_down_overload times the depth of cut, in the ground or, for their share,
/// in stones. 0 when nothing is cut.
double touch_down_hazard(const ChipLaw& law, const geometry::CutterShape& shape, const CuttingEdge& edge,
                         const EdgeImpacts& impacts, const PeakFactors& factors = {});

/// Greatest surface tension of a quenched plate over that of full constraint, at Biot number Bi:
/// 1/(1.5 + 3.25/Bi - 0.5 exp(-16/Bi)) [hb: Manson, Thermal Stress and Low-Cycle Fatigue, 1966]; Bi/3.25 when
/// small, 1 when large, 0 at Bi <= 0. Within 5 % of the exact plate for Bi 0.1 to 20
/// (tests/published/breaking_edge_test.cpp).
double manson_stress_share(double biot);

/// Tension at the table's surface when fluid at T_fluid (K) meets diamond at T_before (K): shock_share E a dT
/// /(1 - nu) x manson_stress_share(h thickness/conductivity), Pa; 0 when the fluid is hotter. Manson's plate
/// is cooled on both faces and `thickness` is half of it: a table cooled on one face. h W/(m2 K), thickness
/// m, conductivity W/(m K).
double quench_stress(const ChipLaw& law, double T_before, double T_fluid, double h, double thickness,
                     double conductivity);

/// Hazard (1) of one quench: (stress/strength)^m, so that 1 - exp(-hazard) is chip_probability; held at 700,
/// a certain break.
double quench_hazard(const ChipLaw& law, double stress, const CuttingEdge& edge);

/// Worn height (m) that one chip adds: chip_size_share x depth of cut met (m), at least the edge radius and
/// at most half the cutter's radius [asm].
double chip_height(const ChipLaw& law, const geometry::CutterShape& shape, double depth);

}  // namespace dullcast::failure
