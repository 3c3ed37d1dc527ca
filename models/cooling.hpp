#pragma once

namespace dullcast {

/// Properties of a drilling fluid. SI.
struct Fluid {
  double density = 0.0;        // kg/m3
  double viscosity = 0.0;      // Pa s
  double conductivity = 0.0;   // W/(m K)
  double heat_capacity = 0.0;  // J/(kg K)
};

/// Mean Nusselt number of a cylinder in cross flow, Churchill & Bernstein, J. Heat Transfer 99, 1977 [hb]:
/// Nu = 0.3 + 0.62 Re^1/2 Pr^1/3 [1 + (0.4/Pr)^2/3]^-1/4 [1 + (Re/282000)^5/8]^4/5, for Re Pr > 0.2.
/// Below that the formula's own limit 0.3 is approached. Throws std::domain_error for Re < 0 or Pr <= 0.
double churchill_bernstein(double reynolds, double prandtl);

/// Convection from a cutter of the given diameter (m) swept by fluid at speed v (m/s), W/(m2 K):
/// h = Nu k/D with churchill_bernstein. Throws std::domain_error for v < 0 or any other quantity not above 0.
double cutter_convection(const Fluid& fluid, double v, double cutter_diameter);

/// Speed of fluid past a cutter, m/s: slot velocity and rotation at right angles, sqrt(v_slot^2 + (2 pi N
/// r)^2) [asm].
double speed_past_cutter(double slot_velocity, double rotary_speed, double r);

/// Pressure of a column of fluid from its level (m below surface) to depth z, Pa absolute [hb]:
/// one standard atmosphere + rho g max(0, z - level). Throws std::domain_error for a negative density or a
/// NaN.
double bottom_hole_pressure(double fluid_density, double fluid_level, double z);

/// Saturation temperature of water, K, at an absolute pressure, Pa: IAPWS-IF97 region 4 backward equation
/// [pub: IAPWS R7-97(2012), eq. 31]. Valid 611.213 Pa to 22.064 MPa; throws std::domain_error outside.
double saturation_temperature(double pressure);

/// Density of the water that mist carries, kg/m3 at 15 C [hb].
inline constexpr double mist_water_density = 999.1;

/// A gas at pressure p and temperature T carrying water mist, as one fluid: ideal-gas density with the mist's
/// mass added, heat capacity by mass; viscosity and conductivity of the gas (dry, conservative) [asm]. `gas`
/// holds the properties at one atmosphere and 15 C; flows are free gas and water volumes, m3/s. With no water
/// the gas flow may be 0 (pump off). Throws std::domain_error for negative flows, water without gas to carry
/// it, or pressure (Pa) or temperature (K) not above 0.
Fluid gas_with_mist(const Fluid& gas, double free_gas_flow, double mist_water_flow, double pressure,
                    double T);

}  // namespace dullcast
