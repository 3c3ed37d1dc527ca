#include "models/thermal/boiling_curve.hpp"

#include <algorithm>
#include <cmath>

#include "models/common/dual.hpp"

namespace dullcast::thermal {
namespace {

/// Surface temperature at which the wetted flux reaches `flux`, from a temperature where it is above it. The
/// wetted flux rises and never bends down, so Newton comes down onto the root without passing it.
double reaches(const materials::SaturatedWater& water, double h, double T_above, double T_fluid,
               double surface_factor, double flux) {
  double T = T_above;
  for (int step = 0; step < 50; ++step) {
    const SurfaceFlux wet = wetted_flux(water, h, T, T_fluid, surface_factor);
    const double down = (wet.flux - flux) / wet.slope;
    T -= down;
    if (!(down > 1e-9 * T)) break;
  }
  return T;
}

/// The curve from its parts: wetted to `critical_flux`, `beyond` (a law of the surface's temperature) from
/// T_rewet() on, and between them straight in the flux's logarithm.
template <class Rewet, class Beyond>
BoilingFlux curve(const materials::SaturatedWater& water, double h, double T_surface, double T_fluid,
                  double surface_factor, double critical_flux, const Rewet& T_rewet, const Beyond& beyond) {
  constexpr double least_margin = 1.2, least_span = 10.0;  // K
  BoilingFlux result;
  result.out = wetted_flux(water, h, T_surface, T_fluid, surface_factor);
  if (!(T_surface > std::max(water.temperature, T_fluid))) return result;
  result.regime = BoilingRegime::nucleate;
  const double single_phase = h * std::max(0.0, water.temperature - T_fluid);
  const double critical = std::max(critical_flux, least_margin * single_phase);
  if (!(result.out.flux > critical)) return result;

  const double T_c = reaches(water, h, T_surface, T_fluid, surface_factor, critical);
  const double T_r = std::max(T_rewet(), T_c + least_span);
  if (T_surface >= T_r) {
    result.out = beyond(T_surface);
    result.regime = BoilingRegime::film;
    return result;
  }
  const double least = beyond(T_r).flux;
  const double fall = std::log(least / critical) / (T_r - T_c);
  const Dual flux = critical * exp(fall * (variable(T_surface) - T_c));
  result.out = {flux.value, flux.slope};
  result.regime = BoilingRegime::transition;
  return result;
}

}  // namespace

BoilingFlux boiling_flux(const materials::SaturatedWater& water, double h, double T_surface, double T_fluid,
                         double surface_factor, double size, double critical_flux) {
  return curve(
      water, h, T_surface, T_fluid, surface_factor, critical_flux,
      [&] { return rewet_temperature(water, T_fluid); },
      [&](double T) { return film_flux(water, T, T_fluid, size, h); });
}

BoilingFlux bed_flux(const materials::SaturatedWater& water, double h_bed, double h_dry, double T_surface,
                     double T_fluid, double surface_factor, double dry_out_flux) {
  const double below = h_bed * std::max(0.0, water.temperature - T_fluid);
  BoilingFlux result = curve(
      water, h_bed, T_surface, T_fluid, surface_factor, dry_out_flux,
      [&] { return rewet_temperature(water, water.temperature); },
      [&](double T) {
        return SurfaceFlux{below + h_dry * (T - water.temperature), h_dry};
      });
  if (result.regime == BoilingRegime::transition) result.regime = BoilingRegime::film;
  return result;
}

}  // namespace dullcast::thermal
