#pragma once

#include "models/materials/saturated_water.hpp"

namespace dullcast::thermal {

/// Heat flux out of a surface and its slope against the surface's temperature.
struct SurfaceFlux {
  double flux = 0.0;   // W/m2
  double slope = 0.0;  // W/(m2 K)
};

// Every function here but bromley_convection is total (finite for any finite state, clamped where a quantity
// has no meaning; NaN goes through) and allocates nothing. None knows a critical pressure: SaturatedWater
// ends at 20 MPa. Temperatures in K.

/// Critical heat flux, W/m2: Zuber 1959 with the constant of Lienhard & Dhir 1973 as Incropera & DeWitt print
/// it [hb, eq. 10.6], 0.149 h_fg rho_v (sigma g (rho_l - rho_v)/rho_v^2)^1/4: 1.26 MW/m2 for water at 1 atm;
/// times the subcooling factor 1 + 0.1 (rho_l/rho_v)^3/4 c (T_sat - T_fluid)/h_fg of Ivey & Morris 1962
/// [pub]. No gain from flow past the surface is counted (conservative). Subcooling counts from 0 up to what
/// brings T_fluid to the ice point; its measured base reaches about 70 K. Continuous, with a kink at T_fluid
/// = T_sat.
double critical_heat_flux(const materials::SaturatedWater& water, double T_fluid);

/// Flux from a wetted surface: h (T_surface - T_fluid), plus past saturation the nucleate boiling of Rohsenow
/// 1952 [hb: Incropera & DeWitt eq. 10.5, n = 1],
///   mu h_fg (g (rho_l - rho_v)/sigma)^1/2 (c (T_surface - T_sat)/(C_sf h_fg Pr))^3,
/// the two added after Rohsenow [hb]. Excess is counted over the higher of T_sat and T_fluid. Where the
/// nucleate part reaches twice the critical heat flux it goes on in a straight line: the regime has changed
/// long before, only trial states get there. C1 in T_surface, never falling. h W/(m2 K), not under 0; C_sf
/// (surface_factor) 0.006 to 0.015 [hb: table 10.1], not under 0.001.
SurfaceFlux wetted_flux(const materials::SaturatedWater& water, double h, double T_surface, double T_fluid,
                        double surface_factor);

/// What decides a wetted surface's flux beside h and its temperature, for surfaces that share their water.
struct Nucleation {
  double T_fluid = 0.0;        // K
  double boils_from = 0.0;     // K, the higher of T_sat and T_fluid
  double strength = 0.0;       // W/(m2 K3), of the nucleate part over the cube of the excess
  double straight_from = 0.0;  // K, of excess
  double critical_flux = 0.0;  // W/m2, critical_heat_flux
};
Nucleation nucleation(const materials::SaturatedWater& water, double T_fluid, double surface_factor);
/// The same flux, of that.
SurfaceFlux wetted_flux(const Nucleation& nucleation, double h, double T_surface);

/// Convection of a still, saturated vapour film, W/(m2 K), Bromley 1950 [hb: Incropera & DeWitt eq. 10.8]:
/// 0.62 (k^3 rho_v (rho_l - rho_v) g (h_fg + 0.8 c_v dT)/(mu_v D dT))^1/4 for a horizontal cylinder of
/// diameter D (m) at superheat dT (K), vapour properties as given: the caller brings them at the film's mean
/// temperature. Throws std::domain_error unless D and dT are above 0.
double bromley_convection(const materials::SaturatedWater& water, double superheat, double diameter);

/// Flux from a surface under a vapour film, to fluid at T_fluid.
/// - Saturated film: Bromley as above on min(size, 4.53 L), L = (sigma/(g (rho_l - rho_v)))^1/2: at that size
///   it becomes Berenson 1961 for a plate, 0.425 (k^3 .../(mu dT L))^1/4 [hb], which no longer depends on
///   size. Vapour at the mean of surface and saturation: k ~ T^1.2, mu ~ T^1.05, rho ~ 1/T [fit: steam at 1
///   atm, 380 to 850 K, Incropera & DeWitt table A.4, 3 to 5 % above it in (k^3 rho/mu)^1/4]. The superheat
///   in the denominator is sqrt(dT^2 + (20 K)^2) [asm], which keeps h finite where no film exists.
/// - Subcooling thins the film: with a the saturated flux and q_l = h (T_sat - T_fluid) what the liquid
/// carries
///   off behind the film, the film's thickness d obeys k dT/d = q and q - q_l ~ d^3, so
///   q^4 = q_l q^3 + a^4: q = a in saturated fluid, about a + q_l/4 near it, q_l far from it. The balance is
///   the one of the laminar film [hb]; the single-phase h behind it is [asm].
/// - Radiation: 0.75 e sigma (T^4 - T_sat^4), the 3/4 of Bromley [hb], e = 0.9 [asm]; straight past 3,000 K.
/// Hundreds of W/(m2 K) on the superheat in saturated water. Never falls as T_surface rises. C1 above T_sat;
/// at and under it, where no film exists, h (T_surface - T_fluid) with a kink in slope. size m, not under 0.1
/// mm; h not under 0.
SurfaceFlux film_flux(const materials::SaturatedWater& water, double T_surface, double T_fluid, double size,
                      double h_single_phase);

/// Surface temperature under which a film collapses and the surface is wetted again, K, for a diamond
/// surface. Berenson 1961 [hb], saturated-vapour properties:
///   dT_B = 0.127 (rho_v h_fg/k_v) (g (rho_l - rho_v)/(rho_l + rho_v))^2/3 L (mu_v/(g (rho_l - rho_v)))^1/3,
/// raised for the wall's and the liquid's share by Henry 1974 [pub, from memory]:
///   dT_H = dT_B + 0.42 (T_sat + dT_B - T_fluid) ((k rho c)_l^1/2/(k rho c)_w^1/2 h_fg/(c_w dT_B))^0.6,
/// and bounded by homogeneous nucleation on contact, T_n = T_c (0.905 + 0.095 (T_sat/T_c)^8) [pub: Lienhard
/// 1976], T_n + (T_n - T_fluid) (k rho c)_l^1/2/(k rho c)_w^1/2 [hb: two half-spaces in contact]. Berenson's
/// superheat grows with vapour density, so the bound rules from some 3 bar up. Blended as (dT_H^-4 +
/// dT_n^-4)^-1/4 [asm]. Wall: diamond at 300 C, k 543 W/mK, 3,510 kg/m3, 1,290 J/kgK: its high effusivity
/// makes the film last longest. Always above T_sat. Published rewet temperatures scatter by 50 K and more.
double rewet_temperature(const materials::SaturatedWater& water, double T_fluid);

}  // namespace dullcast::thermal
