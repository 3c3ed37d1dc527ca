#pragma once

#include "models/materials/saturated_water.hpp"
#include "models/thermal/boiling.hpp"

namespace dullcast::thermal {

/// Water boiled away, kg/s, by heat (W) that saturated water cannot take up otherwise: max(0, surplus)/h_fg
/// [hb]. latent_heat J/kg, not under 1 kJ/kg. Total.
double evaporation_rate(double surplus_heat, double latent_heat);

/// The greatest steam rate, kg/s, against which all the water it came from can fall back through an opening:
/// counter-current flooding after Wallis 1969 [hb, constants from memory],
///   j_g*^1/2 + m j_f*^1/2 = C, j* = j (rho/(g D (rho_l - rho_v)))^1/2, with m = 1 and C = 0.725 (sharp-edged
/// ends; 0.9 to 1 when rounded), and equal mass rates of steam up and water down:
///   G = C^2 (g D (rho_l - rho_v))^1/2 / (rho_v^-1/4 + rho_l^-1/4)^2, times the open area.
/// Condensation on subcooled water, which lets more fall, is left out (conservative). Above it water still
/// falls, but less than boils away. open_area m2, hydraulic_diameter m, negative ones count as 0. Total.
double flooding_steam_rate(const materials::SaturatedWater& water, double open_area,
                           double hydraulic_diameter);

/// Water that a kilogram of dry air holds at saturation, kg/kg: 0.622 p_v/(p - p_v) [hb]. From p_v = 0.95 p
/// it goes on in a straight line in p_v, so that it stays finite where the air is all steam. T is held to
/// 273.15 .. 647.096 K, pressure (Pa) to 1 kPa or more. Total, never falling as T rises.
double saturated_humidity(double T, double pressure);

/// Heat taken up by mist evaporating into an air stream, W (`flux`, here a whole flow), and its slope in
/// T_fluid, W/K. Evaporation stops when the mist is gone or the air is saturated: with a = the mist and b =
/// air (w_sat(T_fluid) - w_sat(T_inlet)) in kg/s, a b/(a^4 + b^4)^1/4, a smooth lesser of the two [asm],
/// times h_fg = 2.501 MJ/kg - 2,361 J/(kg K) (T - 273.15 K) [hb], T held to 273.15 .. 373.15 K there.
/// The air arrives saturated and leaves in equilibrium: an upper bound of what mist can do [asm].
/// 0 at or below T_inlet, rising over the first kelvin above it by a cubic step, so C1. Rates kg/s, negative
/// ones count as 0. Total.
SurfaceFlux mist_cooling(double mist_water_rate, double air_rate, double T_fluid, double T_inlet,
                         double pressure);

}  // namespace dullcast::thermal
