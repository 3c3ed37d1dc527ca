#include "models/cooling.hpp"

#include <algorithm>
#include <cmath>

#include "models/domain.hpp"
#include "models/letters.hpp"

namespace dullcast {

double churchill_bernstein(double reynolds, double prandtl) {
  require_domain(reynolds >= 0.0, "churchill_bernstein", "the Reynolds number must be 0 or more", reynolds);
  require_domain(prandtl > 0.0, "churchill_bernstein", "the Prandtl number must be above 0", prandtl);
  const double laminar = 0.62 * std::sqrt(reynolds) * std::cbrt(prandtl) /
                         std::pow(1.0 + std::pow(0.4 / prandtl, 2.0 / 3.0), 0.25);
  return 0.3 + laminar * std::pow(1.0 + std::pow(reynolds / 282000.0, 0.625), 0.8);
}

double cutter_convection(const Fluid& fluid, double v, double cutter_diameter) {
  require_domain(v >= 0.0, "cutter_convection", "the speed past the cutter must be 0 m/s or more", v);
  require_domain(cutter_diameter > 0.0, "cutter_convection", "the cutter's diameter must be above 0 m",
                 cutter_diameter);
  require_domain(fluid.density > 0.0, "cutter_convection", "the fluid's density must be above 0 kg/m3",
                 fluid.density);
  require_domain(fluid.viscosity > 0.0, "cutter_convection", "the fluid's viscosity must be above 0 Pa s",
                 fluid.viscosity);
  require_domain(fluid.conductivity > 0.0, "cutter_convection",
                 "the fluid's conductivity must be above 0 W/(m K)", fluid.conductivity);
  const double reynolds = fluid.density * v * cutter_diameter / fluid.viscosity;
  const double prandtl = fluid.viscosity * fluid.heat_capacity / fluid.conductivity;
  return churchill_bernstein(reynolds, prandtl) * fluid.conductivity / cutter_diameter;
}

double speed_past_cutter(double slot_velocity, double rotary_speed, double r) {
  return std::hypot(slot_velocity, two_pi * rotary_speed * r);
}

double bottom_hole_pressure(double fluid_density, double fluid_level, double z) {
  const double head = z - fluid_level;
  require_domain(head == head, "bottom_hole_pressure", "depth less fluid level must be a number", head);
  require_domain(fluid_density >= 0.0, "bottom_hole_pressure", "the fluid's density must be 0 kg/m3 or more",
                 fluid_density);
  return standard_atmosphere + fluid_density * standard_gravity * std::max(0.0, head);
}

double saturation_temperature(double pressure) {
  require_domain(pressure >= 611.213 && pressure <= 22.064e6, "saturation_temperature",
                 "the pressure must be between 611.213 Pa and 22.064 MPa", pressure);
  // Coefficients n1..n10 of IAPWS R7-97(2012), table 34.
  constexpr double n1 = 0.11670521452767e4, n2 = -0.72421316703206e6, n3 = -0.17073846940092e2,
                   n4 = 0.12020824702470e5, n5 = -0.32325550322333e7, n6 = 0.14915108613530e2,
                   n7 = -0.48232657361591e4, n8 = 0.40511340542057e6, n9 = -0.23855557567849,
                   n10 = 0.65017534844798e3;
  const double beta = std::pow(pressure * 1e-6, 0.25);
  const double e = beta * beta + n3 * beta + n6;
  const double f = n1 * beta * beta + n4 * beta + n7;
  const double g = n2 * beta * beta + n5 * beta + n8;
  const double root = 2.0 * g / (-f - std::sqrt(f * f - 4.0 * e * g));
  const double sum = n10 + root;
  return 0.5 * (sum - std::sqrt(sum * sum - 4.0 * (n9 + n10 * root)));
}

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

}  // namespace dullcast
