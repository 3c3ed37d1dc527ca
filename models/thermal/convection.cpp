#include "models/thermal/convection.hpp"

#include <algorithm>
#include <cmath>

#include "models/common/bounds.hpp"
#include "models/common/constants.hpp"
#include "models/common/domain.hpp"
#include "models/common/wide_functions.hpp"

namespace dullcast::thermal {
namespace {

constexpr double laminar_nusselt = 3.66;
constexpr double laminar_to = 2300.0, turbulent_from = 4000.0;

double turbulent_nusselt(double reynolds, double prandtl) {
  const double root = 1.0 / (0.79 * std::log(reynolds) - 1.64);  // of the friction factor
  const double eighth = root * root / 8.0;
  const double two_thirds = std::cbrt(prandtl) * std::cbrt(prandtl);
  return eighth * (reynolds - 1000.0) * prandtl / (1.0 + 12.7 * std::sqrt(eighth) * (two_thirds - 1.0));
}

/// What of Churchill & Bernstein's law follows the Prandtl number.
double share_of_prandtl(double prandtl) {
  const double third = std::cbrt(0.4 / prandtl);
  return 0.62 * std::cbrt(prandtl) / std::sqrt(std::sqrt(1.0 + third * third));
}

/// The law itself.
double across_cylinder(double reynolds, double prandtl_share) {
  // To the power of 5/8.
  const double half = std::sqrt(reynolds / 282000.0), eighth = std::sqrt(std::sqrt(half));
  return 0.3 + prandtl_share * std::sqrt(reynolds) * wide_pow(1.0 + half * eighth, 0.8);
}

}  // namespace

double churchill_bernstein(double reynolds, double prandtl) {
  require_domain(reynolds >= 0.0, "churchill_bernstein", "the Reynolds number must be 0 or more", reynolds);
  require_domain(prandtl > 0.0, "churchill_bernstein", "the Prandtl number must be above 0", prandtl);
  return across_cylinder(reynolds, share_of_prandtl(prandtl));
}

CrossFlow cross_flow(const materials::Fluid& fluid) {
  require_domain(fluid.density > 0.0, "cutter_convection", "the fluid's density must be above 0 kg/m3",
                 fluid.density);
  require_domain(fluid.viscosity > 0.0, "cutter_convection", "the fluid's viscosity must be above 0 Pa s",
                 fluid.viscosity);
  require_domain(fluid.conductivity > 0.0, "cutter_convection",
                 "the fluid's conductivity must be above 0 W/(m K)", fluid.conductivity);
  const double prandtl = fluid.viscosity * fluid.heat_capacity / fluid.conductivity;
  require_domain(prandtl > 0.0, "cutter_convection", "the Prandtl number must be above 0", prandtl);
  return {fluid.density / fluid.viscosity, fluid.conductivity, share_of_prandtl(prandtl)};
}

double cutter_convection(const CrossFlow& flow, double v, double cutter_diameter) {
  require_domain(v >= 0.0, "cutter_convection", "the speed past the cutter must be 0 m/s or more", v);
  require_domain(cutter_diameter > 0.0, "cutter_convection", "the cutter's diameter must be above 0 m",
                 cutter_diameter);
  return across_cylinder(flow.reynolds_per_speed * v * cutter_diameter, flow.prandtl_share) *
         flow.conductivity / cutter_diameter;
}

double cutter_convection(const materials::Fluid& fluid, double v, double cutter_diameter) {
  return cutter_convection(cross_flow(fluid), v, cutter_diameter);
}

double speed_past_cutter(double slot_velocity, double rotary_speed, double r) {
  const double around = two_pi * rotary_speed * r;
  return std::sqrt(slot_velocity * slot_velocity + around * around);
}

double free_convection(const materials::Fluid& fluid, double expansion) {
  constexpr double least = 1e-9;  // of density, viscosity, conductivity and heat capacity, SI
  const double density = at_least(fluid.density, least), conductivity = at_least(fluid.conductivity, least);
  const double diffusivities = at_least(fluid.viscosity, least) / density * conductivity /
                               (density * at_least(fluid.heat_capacity, least));
  return 0.13 * conductivity * std::cbrt(standard_gravity * at_least(expansion, 0.0) / diffusivities);
}

double renewed_share(double renewal, double rotary_speed, double turns) {
  constexpr double least_speed = 1e-6;  // rev/s
  return cubic_step(at_least(renewal, 0.0) * at_least(turns, 0.0) / at_least(rotary_speed, least_speed));
}

double gnielinski(double reynolds, double prandtl) {
  const double held = std::clamp(reynolds, 0.0, 1e8), held_prandtl = std::clamp(prandtl, 0.5, 2000.0);
  if (held <= laminar_to) return laminar_nusselt + 0.0 * held_prandtl;  // a NaN goes through
  if (held >= turbulent_from) return turbulent_nusselt(held, held_prandtl);
  const double share = (held - laminar_to) / (turbulent_from - laminar_to);
  return (1.0 - share) * laminar_nusselt + share * turbulent_nusselt(turbulent_from, held_prandtl);
}

double slot_convection(const materials::Fluid& fluid, double v, double hydraulic_diameter) {
  // Floors far under any fluid's properties: they only keep 0/0 out of trial states.
  constexpr double least_viscosity = 1e-9, least_conductivity = 1e-6;
  const double diameter = std::max(hydraulic_diameter, 1e-4);
  const double viscosity = std::max(fluid.viscosity, least_viscosity);
  const double conductivity = std::max(fluid.conductivity, least_conductivity);
  const double reynolds = fluid.density * std::abs(v) * diameter / viscosity;
  const double prandtl = viscosity * fluid.heat_capacity / conductivity;
  return gnielinski(reynolds, prandtl) * conductivity / diameter;
}

double jet_speed_at(double jet_velocity, double port_diameter, double distance) {
  constexpr double decay = 6.3;
  const double core = decay * std::max(port_diameter, 0.0);
  return distance > core ? jet_velocity * core / distance : jet_velocity + 0.0 * distance;
}

double wall_jet_speed(double jet_velocity, double port_diameter, double distance) {
  const double spread = 1.03 * port_diameter;
  return distance > spread ? jet_velocity * spread / distance : jet_velocity + 0.0 * distance;
}

double packed_bed_conductivity(double rock_conductivity, double fluid_conductivity, double void_share) {
  const double fluid = std::max(fluid_conductivity, 1e-3);
  const double decades = std::log10(std::clamp(rock_conductivity / fluid, 1.0, 6000.0));
  const double exponent = 0.280 - 0.757 * std::log10(std::clamp(void_share, 0.2, 0.6)) - 0.057 * decades;
  return fluid * std::pow(10.0, exponent * decades);
}

double packed_bed_convection(double bed_conductivity, double cutter_diameter) {
  return 2.0 * bed_conductivity / std::max(cutter_diameter, 1e-3);
}

}  // namespace dullcast::thermal
