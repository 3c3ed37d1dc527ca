#pragma once

#include "models/common/dual.hpp"

namespace dullcast::materials {

/// Saturation temperature of water, K, at an absolute pressure, Pa: IAPWS-IF97 region 4 backward equation
/// [pub: IAPWS R7-97(2012), eq. 31]. Valid 611.213 Pa to 22.064 MPa; throws std::domain_error outside.
double saturation_temperature(double pressure);

/// Water and steam at saturation, one pressure. SI.
struct SaturatedWater {
  double pressure = 0.0;              // Pa, absolute
  double temperature = 0.0;           // K
  double latent_heat = 0.0;           // J/kg
  double liquid_density = 0.0;        // kg/m3
  double vapour_density = 0.0;        // kg/m3
  double surface_tension = 0.0;       // N/m
  double liquid_heat_capacity = 0.0;  // J/(kg K)
  double liquid_viscosity = 0.0;      // Pa s
  double liquid_conductivity = 0.0;   // W/(m K)
  double vapour_heat_capacity = 0.0;  // J/(kg K)
  double vapour_viscosity = 0.0;      // Pa s
  double vapour_conductivity = 0.0;   // W/(m K)
};

/// Saturated water at an absolute pressure, Pa. Valid 5 kPa to 20 MPa; throws std::domain_error outside.
/// Allocates nothing and keeps nothing: safe from several threads.
/// - temperature: saturation_temperature [pub: IAPWS R7-97(2012)];
/// - densities: Wagner & Pruss, J. Phys. Chem. Ref. Data 22, 1993 [pub: IAPWS SR1-86(1992), eqs. 2 and 3];
/// - latent heat: Clapeyron, T dp/dT (1/rho_v - 1/rho_l), with dp/dT of the same release [pub], which is how
///   its two enthalpies differ;
/// - surface tension 0.2358 t^1.256 (1 - 0.625 t) N/m, t = 1 - T/T_c [pub: IAPWS R1-76(2014)];
/// - heat capacities, viscosities, conductivities: monotone cubic (Fritsch & Butland 1984) through Incropera
///   & DeWitt, Fundamentals of Heat and Mass Transfer, table A.6 [hb, from memory], every 10 K.
/// Worst deviation from IAPWS-IF97 and the IAPWS equations for surface tension, viscosity and conductivity,
/// as measured at 1,501 pressures (tests/published/saturated_water_test.cpp holds 44 of them to it):
///                            to 1 MPa    to 10 MPa   to 20 MPa
///   temperature              2e-9        2e-9        2e-9       the same equation; figures of the table
///   latent heat              0.0082 %    0.024 %     0.17 %
///   liquid density           0.0022 %    0.029 %     0.043 %
///   vapour density           0.014 %     0.033 %     0.080 %
///   surface tension          2e-9        5e-9        3e-8       the same equation
///   liquid heat capacity     0.16 %      0.48 %      12 %
///   liquid viscosity         0.99 %      5.8 %       7.8 %
///   liquid conductivity      0.97 %      2.7 %       14 %
///   vapour heat capacity     4.5 %       6.0 %       14 %
///   vapour viscosity         6.3 %       3.1 %       16 %
///   vapour conductivity      5.9 %       4.4 %       40 %
/// The textbook's steam is older than those equations, and has none of the rise of the conductivity towards
/// the critical point: worst at 20 MPa.
SaturatedWater saturated_water(double pressure);

/// Density of water and of steam at saturation, kg/m3, by temperature (K): the equations named above. Valid
/// 273.15 to 647.096 K; throw std::domain_error outside.
double saturated_liquid_density(double T);
double saturated_vapour_density(double T);

/// Saturation pressure of water, Pa: IAPWS-IF97 region 4 basic equation [pub: IAPWS R7-97(2012), eq. 30].
/// Valid 273.15 to 647.096 K; throws std::domain_error outside.
double saturation_pressure(double T);

/// The same with its slope, Pa/K, at any temperature: held at the ends of the range, where the slope is 0
/// outside. Total; NaN in, NaN out.
struct PressureAndSlope {
  double pressure = 0.0;
  double slope = 0.0;
};
PressureAndSlope held_saturation_pressure(double T);

/// The pressure alone, as a law that other laws of T hold: Number is double, or Dual for slopes by what T
/// depends on.
template <class Number>
Number held_saturation_pressure_of(const Number& T);

}  // namespace dullcast::materials
