#pragma once

namespace dullcast::materials {

/// Properties of a drilling fluid. SI.
struct Fluid {
  double density = 0.0;        // kg/m3
  double viscosity = 0.0;      // Pa s
  double conductivity = 0.0;   // W/(m K)
  double heat_capacity = 0.0;  // J/(kg K)
};

/// Density of the water that mist carries, kg/m3 at 15 C [hb].
inline constexpr double mist_water_density = 999.1;

/// A gas at pressure p and temperature T carrying water mist, as one fluid: ideal-gas density with the mist's
/// mass added, heat capacity by mass; viscosity and conductivity of the gas (dry, conservative) [asm]. `gas`
/// holds the properties at one atmosphere and 15 C; flows are free gas and water volumes, m3/s. With no water
/// the gas flow may be 0 (pump off). Throws std::domain_error for negative flows, water without gas to carry
/// it, or pressure (Pa) or temperature (K) not above 0.
Fluid gas_with_mist(const Fluid& gas, double free_gas_flow, double mist_water_flow, double pressure,
                    double T);

}  // namespace dullcast::materials
