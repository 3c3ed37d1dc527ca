#include "models/thermal/pool.hpp"

#include <algorithm>
#include <cmath>

#include "models/common/bounds.hpp"
#include "models/common/constants.hpp"

namespace dullcast::thermal {
namespace {

/// Saturated humidity and its slope in temperature.
struct Humidity {
  double value = 0.0;  // kg/kg
  double slope = 0.0;  // 1/K
};

Humidity humidity(double T, double pressure) {
  constexpr double mass_ratio = 0.622;    // of water to air
  constexpr double straight_from = 0.95;  // share of the vapour
  const double held_pressure = std::max(pressure, 1e3);
  const materials::PressureAndSlope vapour = materials::held_saturation_pressure(T);
  const double share = vapour.pressure / held_pressure;
  const double held = std::min(share, straight_from), rest = 1.0 - held;
  const double share_slope = mass_ratio / (rest * rest);
  return {mass_ratio * held / rest + share_slope * (share - held),
          share_slope * vapour.slope / held_pressure};
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
  return humidity(T, pressure).value;
}

SurfaceFlux mist_cooling(double mist_water_rate, double air_rate, double T_fluid, double T_inlet,
                         double pressure) {
  const double mist = std::max(mist_water_rate, 0.0), air = std::max(air_rate, 0.0);
  const double warming = T_fluid - T_inlet;
  if (warming <= 0.0 || mist == 0.0 || air == 0.0) return {};
  const Humidity leaving = humidity(T_fluid, pressure);
  const double gain = std::max(leaving.value - humidity(T_inlet, pressure).value, 0.0);
  const double ramp = cubic_step(warming), ramp_slope = cubic_step_slope(warming);  // over the first kelvin
  const double held = air * gain * ramp;
  const double held_slope = air * (leaving.slope * ramp + gain * ramp_slope);

  // a b/(a^4 + b^4)^1/4 by the ratio that is at most 1, so that no power overflows.
  double evaporated = 0.0, share_slope = 1.0;  // kg/s, and d evaporated/d held
  if (held <= mist) {
    const double ratio = held / mist, ratio2 = ratio * ratio, sum = 1.0 + ratio2 * ratio2;
    const double root = std::sqrt(std::sqrt(sum));
    evaporated = held / root;
    share_slope = 1.0 / (sum * root);
  } else {
    const double ratio = mist / held, ratio2 = ratio * ratio, sum = 1.0 + ratio2 * ratio2;
    const double root = std::sqrt(std::sqrt(sum));
    evaporated = mist / root;
    share_slope = ratio2 * ratio2 * ratio / (sum * root);
  }
  const double evaporating_at = std::clamp(T_fluid, celsius_zero, celsius_zero + 100.0);
  const double latent_heat = 2.501e6 - 2361.0 * (evaporating_at - celsius_zero);
  const double latent_slope = evaporating_at == T_fluid ? -2361.0 : 0.0;
  return {evaporated * latent_heat, share_slope * held_slope * latent_heat + evaporated * latent_slope};
}

}  // namespace dullcast::thermal
