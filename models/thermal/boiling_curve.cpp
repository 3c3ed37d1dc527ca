#include "models/thermal/boiling_curve.hpp"

#include <algorithm>
#include <cmath>

#include "models/common/dual.hpp"

namespace dullcast::thermal {
namespace {

/// Surface temperature at which the wetted flux reaches `flux`, from a temperature where it is above it. The
/// wetted flux rises and never bends down, so Newton comes down onto the root without passing it.
double reaches(const Nucleation& wetted, double h, double T_above, double flux) {
  double T = T_above;
  for (int step = 0; step < 50; ++step) {
    const SurfaceFlux wet = wetted_flux(wetted, h, T);
    const double down = (wet.flux - flux) / wet.slope;
    T -= down;
    if (!(down > 1e-9 * T)) break;
  }
  return T;
}

/// A cubic in T between two ends, with their values and slopes.
SurfaceFlux joined(double T, double T_a, const SurfaceFlux& a, double T_b, const SurfaceFlux& b) {
  const double length = T_b - T_a;
  const Dual s = (variable(T) - T_a) / length, left = 1.0 - s;
  const Dual flux = left * left * ((1.0 + 2.0 * s) * a.flux + s * (length * a.slope)) +
                    s * s * ((1.0 + 2.0 * left) * b.flux - left * (length * b.slope));
  return {flux.value, flux.slope};
}

/// The curve from its parts: wetted to `critical_flux`, `beyond` (a law of the surface's temperature) from
/// T_rewet() on, and between them straight in the flux's logarithm; the peak is rounded. `from_peak`: K from
/// the peak up to a surface that is not below where rounding begins.
template <class Rewet, class Beyond>
BoilingFlux curve(const materials::SaturatedWater& water, const Nucleation& wetted, double h,
                  double T_surface, double critical_flux, const Rewet& T_rewet, const Beyond& beyond,
                  double& from_peak) {
  constexpr double least_margin = 1.2, rounded = 0.5;  // 1, K
  BoilingFlux result;
  result.out = wetted_flux(wetted, h, T_surface);
  if (!(T_surface > wetted.boils_from)) return result;
  result.regime = BoilingRegime::nucleate;
  const double single_phase = h * std::max(0.0, water.temperature - wetted.T_fluid);
  const double critical = std::max(critical_flux, least_margin * single_phase);
  const double T_ahead = T_surface + rounded;
  if (!(wetted_flux(wetted, h, T_ahead).flux > critical)) return result;
  const double T_c = reaches(wetted, h, T_ahead, critical);
  const double T_r = std::max(T_rewet(), T_c + least_transition);
  from_peak = T_surface - T_c;
  result.past_film = T_surface - T_r;
  if (T_surface >= T_r) {
    result.out = beyond(T_surface);
    result.regime = BoilingRegime::film;
    return result;
  }
  const double least = beyond(T_r).flux;
  const double fall = std::log(least / critical) / (T_r - T_c);
  const auto falling = [&](double T) {
    const Dual flux = critical * exp(fall * (variable(T) - T_c));
    return SurfaceFlux{flux.value, flux.slope};
  };
  const double T_a = std::max(T_c - rounded, wetted.boils_from), T_b = T_c + rounded;
  if (T_surface >= T_b) {
    result.out = falling(T_surface);
  } else if (T_surface > T_a) {
    result.out = joined(T_surface, T_a, wetted_flux(wetted, h, T_a), T_b, falling(T_b));
  }
  if (T_surface > T_c) {
    result.regime = BoilingRegime::transition;
    result.past_peak = from_peak;
  }
  return result;
}

}  // namespace

BoilingFlux boiling_flux(const materials::SaturatedWater& water, const Nucleation& wetted, double h,
                         double T_surface, double size, double critical_flux) {
  const double T_fluid = wetted.T_fluid;
  double from_peak = far_from_film;
  return curve(
      water, wetted, h, T_surface, critical_flux, [&] { return rewet_temperature(water, T_fluid); },
      [&](double T) { return film_flux(water, T, T_fluid, size, h); }, from_peak);
}

BoilingFlux bed_flux(const materials::SaturatedWater& water, const Nucleation& wetted, double h_bed,
                     double h_dry, double T_surface, double dry_out_flux) {
  const double below = h_bed * std::max(0.0, water.temperature - wetted.T_fluid);
  double from_peak = far_from_film;
  BoilingFlux result = curve(
      water, wetted, h_bed, T_surface, dry_out_flux,
      [&] { return rewet_temperature(water, water.temperature); },
      [&](double T) {
        return SurfaceFlux{below + h_dry * (T - water.temperature), h_dry};
      },
      from_peak);
  if (result.regime == BoilingRegime::transition) result.regime = BoilingRegime::film;
  result.past_film = from_peak;
  return result;
}

}  // namespace dullcast::thermal
