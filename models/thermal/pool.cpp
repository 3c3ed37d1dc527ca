#include "models/thermal/pool.hpp"

#include <algorithm>
#include <cmath>

#include "models/common/bounds.hpp"
#include "models/common/constants.hpp"
#include "models/common/dual.hpp"

namespace dullcast::thermal {
namespace {

constexpr double mass_ratio = 0.622;  // of water to air

template <class Number>
Number humidity(const Number& T, double pressure) {
  constexpr double straight_from = 0.95;  // share of the vapour
  const Number share = materials::held_saturation_pressure_of(T) / std::max(pressure, 1e3);
  return straight_past([](const auto& x) { return mass_ratio * x / (1.0 - x); }, share, straight_from);
}

/// a b/(a^4 + b^4)^1/4 of two above 0, by the ratio that is at most 1, so that no power overflows.
template <class Number>
Number smooth_lesser(const Number& a, double b) {
  using std::sqrt;
  const bool less = a <= b;
  const Number ratio = less ? a / b : b / a, square = ratio * ratio;
  return (less ? a : Number(b)) / sqrt(sqrt(1.0 + square * square));
}

/// Of the water that evaporates at T, J/kg.
template <class Number>
Number latent_heat_at(const Number& T) {
  return 2.501e6 - 2361.0 * (within(T, celsius_zero, celsius_zero + 100.0) - celsius_zero);
}

template <class Number>
Number mist_heat(double mist, double air, const Number& T_fluid, double T_inlet, double pressure) {
  const Number gain = at_least(humidity(T_fluid, pressure) - humidity(T_inlet, pressure), 0.0);
  const Number held = air * gain * cubic_step(T_fluid - T_inlet);  // over the first kelvin
  return smooth_lesser(held, mist) * latent_heat_at(T_fluid);
}

}  // namespace

double evaporation_rate(double surplus_heat, double latent_heat) {
  return std::max(surplus_heat, 0.0) / std::max(latent_heat, 1e3);
}

double flooding_steam_rate(const materials::SaturatedWater& water, double open_area,
                           double hydraulic_diameter) {
  constexpr double wallis_constant = 0.725;
  const double scale = std::sqrt(standard_gravity * std::max(hydraulic_diameter, 0.0) *
                                 (water.liquid_density - water.vapour_density));
  const double roots = std::pow(water.vapour_density, -0.25) + std::pow(water.liquid_density, -0.25);
  return std::max(open_area, 0.0) * wallis_constant * wallis_constant * scale / (roots * roots);
}

double saturated_humidity(double T, double pressure) {
  return humidity(T, pressure);
}

SurfaceFlux mist_cooling(double mist_water_rate, double air_rate, double T_fluid, double T_inlet,
                         double pressure) {
  const double mist = std::max(mist_water_rate, 0.0), air = std::max(air_rate, 0.0);
  if (T_fluid <= T_inlet || mist == 0.0 || air == 0.0) return {};
  const Dual heat = mist_heat(mist, air, variable(T_fluid), T_inlet, pressure);
  return {heat.value, heat.slope};
}

}  // namespace dullcast::thermal
