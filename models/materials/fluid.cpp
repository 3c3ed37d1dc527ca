#include "models/materials/fluid.hpp"

#include "models/common/constants.hpp"
#include "models/common/domain.hpp"

namespace dullcast::materials {

Fluid gas_with_mist(const Fluid& gas, double free_gas_flow, double mist_water_flow, double pressure,
                    double T) {
  constexpr double reference_temperature = celsius_zero + 15.0;
  constexpr double water_heat_capacity = 4186.0;  // J/(kg K) at 15 C [hb]
  require_domain(free_gas_flow >= 0.0, "gas_with_mist", "the gas flow must be 0 m3/s or more", free_gas_flow);
  require_domain(mist_water_flow >= 0.0, "gas_with_mist", "the water flow must be 0 m3/s or more",
                 mist_water_flow);
  require_domain(pressure > 0.0, "gas_with_mist", "the pressure must be above 0 Pa", pressure);
  require_domain(T > 0.0, "gas_with_mist", "the temperature must be above 0 K", T);
  Fluid mixed = gas;
  mixed.density = gas.density * (pressure / standard_atmosphere) * (reference_temperature / T);
  if (mist_water_flow == 0.0) return mixed;
  const double gas_mass = gas.density * free_gas_flow, water_mass = mist_water_density * mist_water_flow;
  require_domain(gas_mass > 0.0, "gas_with_mist", "there must be gas to carry the water: its mass flow",
                 gas_mass);
  mixed.density *= 1.0 + water_mass / gas_mass;
  mixed.heat_capacity =
      (gas_mass * gas.heat_capacity + water_mass * water_heat_capacity) / (gas_mass + water_mass);
  return mixed;
}

}  // namespace dullcast::materials
