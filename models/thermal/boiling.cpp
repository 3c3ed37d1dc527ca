#include "models/thermal/boiling.hpp"

#include <algorithm>
#include <cmath>

#include "models/common/bounds.hpp"
#include "models/common/constants.hpp"
#include "models/common/domain.hpp"
#include "models/common/dual.hpp"

namespace dullcast::thermal {
namespace {

constexpr double g = standard_gravity;
constexpr double critical_temperature = 647.096;            // K, IAPWS R7-97(2012)
constexpr double stefan_boltzmann = 5.670374419e-8;         // W/(m2 K4), SI 2019
constexpr double film_emissivity = 0.9;                     // [asm]
constexpr double straight_radiation_from = 3000.0;          // K
constexpr double least_film_superheat = 20.0;               // K, see the header
constexpr double vapour_exponent = 3.0 * 1.2 - 1.0 - 1.05;  // of k^3 rho/mu with temperature, see the header
constexpr double berenson_size = 4.529;                     // (0.62/0.425)^4

/// Below saturation, from 0 to the ice point.
double subcooling(const materials::SaturatedWater& water, double T_fluid) {
  return std::clamp(water.temperature - T_fluid, 0.0, water.temperature - celsius_zero);
}

double buoyancy(const materials::SaturatedWater& water) {
  return g * (water.liquid_density - water.vapour_density);
}

double capillary_length(const materials::SaturatedWater& water) {
  return std::sqrt(water.surface_tension / buoyancy(water));
}

template <class Number>
Number fourth_root(const Number& x) {
  using std::sqrt;
  return sqrt(sqrt(x));
}

/// 0.62 (k^3 rho_v (rho_l - rho_v) g/(mu_v D))^1/4: all of Bromley's formula but heat and superheat.
double film_constant(const materials::SaturatedWater& water, double diameter) {
  const double k = water.vapour_conductivity;
  return 0.62 * fourth_root(k * k * k * water.vapour_density * buoyancy(water) /
                            (water.vapour_viscosity * diameter));
}

/// Largest root of x^4 = l x^3 + a^4 for shares with a + l = 1, both at least 0.
double thinned_film_root(double l, double a) {
  const double fourth = a * a * a * a;
  // From x = 1, above the root of a convex function, Newton falls onto it; six steps leave nothing above
  // rounding for any share.
  double x = 1.0;
  for (int step = 0; step < 6; ++step) {
    const double x2 = x * x;
    x -= (x2 * x * (x - l) - fourth) / (x2 * (4.0 * x - 3.0 * l));
  }
  return x;
}

template <class Number>
Number film_radiation(const Number& T_surface, double T_saturation) {
  const double sat2 = T_saturation * T_saturation;
  const auto exchange = [&](const auto& T) {
    return 0.75 * film_emissivity * stefan_boltzmann * (T * T * T * T - sat2 * sat2);
  };
  return straight_past(exchange, T_surface, straight_radiation_from);
}

// The laws of the surface's temperature, each once for value and slope.

template <class Number>
Number wetted(const Nucleation& of, double h, const Number& T_surface) {
  const Number single_phase = std::max(h, 0.0) * (T_surface - of.T_fluid);
  const Number excess = T_surface - of.boils_from;
  if (!(excess > 0.0)) return single_phase;
  const auto nucleate = [&](const auto& superheat) {
    return of.strength * superheat * superheat * superheat;
  };
  return single_phase + straight_past(nucleate, excess, of.straight_from);
}

/// Flux through a film that saturated liquid lies on, radiation aside.
template <class Number>
Number saturated_film(const materials::SaturatedWater& water, const Number& excess, double size) {
  using std::hypot, std::pow;
  const double diameter = std::clamp(size, 1e-4, berenson_size * capillary_length(water));
  const Number warmth = 0.5 * at_most(excess / water.temperature, 8.0);
  const Number heat = water.latent_heat + 0.8 * water.vapour_heat_capacity * excess;
  const Number superheat = hypot(excess, least_film_superheat);
  return film_constant(water, diameter) * pow(1.0 + warmth, 0.25 * vapour_exponent) *
         fourth_root(heat / superheat) * excess;
}

/// The flux q of a film thinned by subcooled liquid, q^4 = q_l q^3 + a^4.
template <class Number>
Number thinned_film(const Number& a, double q_l) {
  const double scale = value_of(a) + q_l;
  const double q = thinned_film_root(q_l / scale, value_of(a) / scale) * scale;
  // The root is found by value; what it follows a by is the balance's own: with s = a/q it reads
  // 1 = q_l/q + s^4, and d(ln q) (4 - 3 q_l/q) = d(s^4) at this q.
  const Number share = a / q, square = share * share, fourth = square * square;
  return q + q / (4.0 - 3.0 * q_l / q) * (fourth - value_of(fourth));
}

template <class Number>
Number under_film(const materials::SaturatedWater& water, const Number& T_surface, double T_fluid,
                  double size, double h_single_phase) {
  const double behind = std::max(h_single_phase, 0.0);
  const Number excess = T_surface - water.temperature;
  if (!(excess > 0.0)) return behind * (T_surface - T_fluid);
  const double carried_off = behind * std::max(water.temperature - T_fluid, 0.0);
  return film_radiation(T_surface, water.temperature) +
         thinned_film(saturated_film(water, excess, size), carried_off);
}

SurfaceFlux flux_and_slope(const Dual& flux) {
  return {flux.value, flux.slope};
}

/// Diamond at 300 C; see the header.
constexpr double wall_heat_capacity = 1290.0;
constexpr double wall_effusivity_squared = 543.0 * 3510.0 * wall_heat_capacity;

}  // namespace

double critical_heat_flux(const materials::SaturatedWater& water, double T_fluid) {
  const double rho_v = water.vapour_density;
  const double saturated =
      0.149 * water.latent_heat * std::sqrt(rho_v) * fourth_root(water.surface_tension * buoyancy(water));
  const double ratio = std::sqrt(water.liquid_density / rho_v);
  return saturated * (1.0 + 0.1 * ratio * std::sqrt(ratio) * water.liquid_heat_capacity *
                                subcooling(water, T_fluid) / water.latent_heat);
}

Nucleation nucleation(const materials::SaturatedWater& water, double T_fluid, double surface_factor) {
  const double prandtl = water.liquid_heat_capacity * water.liquid_viscosity / water.liquid_conductivity;
  const double jakob_per_kelvin =
      water.liquid_heat_capacity / (std::max(surface_factor, 1e-3) * water.latent_heat * prandtl);
  const double strength = water.liquid_viscosity * water.latent_heat / capillary_length(water) *
                          jakob_per_kelvin * jakob_per_kelvin * jakob_per_kelvin;
  const double critical = critical_heat_flux(water, T_fluid);
  return {T_fluid, std::max(T_fluid, water.temperature), strength, std::cbrt(2.0 * critical / strength),
          critical};
}

SurfaceFlux wetted_flux(const Nucleation& nucleation, double h, double T_surface) {
  return flux_and_slope(wetted(nucleation, h, variable(T_surface)));
}

SurfaceFlux wetted_flux(const materials::SaturatedWater& water, double h, double T_surface, double T_fluid,
                        double surface_factor) {
  return wetted_flux(nucleation(water, T_fluid, surface_factor), h, T_surface);
}

double bromley_convection(const materials::SaturatedWater& water, double superheat, double diameter) {
  require_domain(superheat > 0.0, "bromley_convection", "the superheat must be above 0 K", superheat);
  require_domain(diameter > 0.0, "bromley_convection", "the diameter must be above 0 m", diameter);
  const double heat = water.latent_heat + 0.8 * water.vapour_heat_capacity * superheat;
  return film_constant(water, diameter) * fourth_root(heat / superheat);
}

SurfaceFlux film_flux(const materials::SaturatedWater& water, double T_surface, double T_fluid, double size,
                      double h_single_phase) {
  return flux_and_slope(under_film(water, variable(T_surface), T_fluid, size, h_single_phase));
}

double rewet_temperature(const materials::SaturatedWater& water, double T_fluid) {
  const double T_saturation = water.temperature;
  const double rho_l = water.liquid_density, rho_v = water.vapour_density;
  const double weight = buoyancy(water), below = subcooling(water, T_fluid);
  const double share = std::cbrt(weight / (rho_l + rho_v));
  const double berenson = 0.127 * rho_v * water.latent_heat / water.vapour_conductivity * share * share *
                          capillary_length(water) * std::cbrt(water.vapour_viscosity / weight);
  const double effusivity_ratio =
      std::sqrt(water.liquid_conductivity * rho_l * water.liquid_heat_capacity / wall_effusivity_squared);
  const double henry =
      berenson + 0.42 * (berenson + below) *
                     std::pow(effusivity_ratio * water.latent_heat / (wall_heat_capacity * berenson), 0.6);
  const double reduced = T_saturation / critical_temperature;
  const double reduced4 = reduced * reduced * reduced * reduced;
  const double superheat_limit = critical_temperature * (0.905 + 0.095 * reduced4 * reduced4) - T_saturation;
  const double nucleation = superheat_limit + (superheat_limit + below) * effusivity_ratio;
  const double ratio = henry / nucleation, ratio4 = ratio * ratio * ratio * ratio;
  return T_saturation + henry / fourth_root(1.0 + ratio4);
}

}  // namespace dullcast::thermal
