#pragma once

#include "models/thermal/boiling.hpp"

namespace dullcast::thermal {

/// Which part of the boiling curve a surface is on.
enum class BoilingRegime { single_phase, nucleate, transition, film };

/// K, from peak to film at least [asm].
inline constexpr double least_transition = 10.0;

/// K: where nothing tells how far a surface is from a film, a number that is further than any is.
inline constexpr double far_from_film = -1000.0;

struct BoilingFlux {
  SurfaceFlux out;  // W/m2 and W/(m2 K)
  BoilingRegime regime = BoilingRegime::single_phase;
  double past_peak = 0.0;  // K from the peak of the curve up to the surface, between peak and T_r; else 0
  /// K from where the film begins up to the surface: 0 or above in a film, below 0 under it, and
  /// far_from_film from where the rounding of the peak begins down.
  double past_film = far_from_film;
};

/// Flux from a surface at T_surface (K) to water at nucleation's T_fluid: the whole boiling curve (Nukiyama
/// 1934 [hb]) as a function of the surface's temperature.
/// - Wetted (wetted_flux: single phase, then nucleate) until it reaches the critical flux at T_c.
/// - Film (film_flux) from the rewetting temperature T_r on.
/// - Between them transition boiling falls from the one flux to the other, straight in the logarithm of the
///   flux over temperature [hb: the usual interpolation where no correlation serves].
/// Since the temperature is known, the curve has one value. That a surface heated at a given flux leaps to a
/// film past the critical flux, and stays under it until it has cooled to T_r, follows from the falling
/// branch and the surface's heat balance; no flag has to remember it. `critical_flux` is
/// critical_heat_flux(water, T_fluid), or what the caller leaves of it; it counts for no less than a fifth
/// above the single-phase flux at saturation. T_r counts for no less than 10 K above T_c. The peak is rounded
/// over half a kelvin either side of T_c by a cubic, which takes some two hundredths off it: on a corner
/// between a steep rise and a fall steps creep [asm, far within what is known of the flux]. `size` (m) and h
/// (W/(m2 K)) as in film_flux and wetted_flux. Total, smooth in T_surface but for a corner at T_r; NaN goes
/// through.
BoilingFlux boiling_flux(const materials::SaturatedWater& water, const Nucleation& wetted, double h,
                         double T_surface, double size, double critical_flux);

/// The same from a surface that a bed of grains buries, to the bed and the water over it.
/// - Wetted: wetted_flux with the bed's conductance h_bed, until it reaches what the bed lets through
///   (dry_out_flux, bed_dry_out.hpp; counted as `critical_flux` above).
/// - Dried out, from the rewetting temperature in saturated water on: what wet grains conduct into water
/// below
///   saturation and what dry ones conduct on top of it, h_bed (T_sat - T_fluid) + h_dry (T_surface - T_sat).
///   The grains hide what the surface would radiate, and keep a film from flowing [asm].
/// - Between them as above. The dry zone counts as grown: filling it with steam takes some seconds a
/// millimetre. Regime film stands for dried out, from the dry-out flux on. Conductances W/(m2 K). Total,
/// continuous in T_surface, with the peak rounded likewise.
BoilingFlux bed_flux(const materials::SaturatedWater& water, const Nucleation& wetted, double h_bed,
                     double h_dry, double T_surface, double dry_out_flux);

}  // namespace dullcast::thermal
