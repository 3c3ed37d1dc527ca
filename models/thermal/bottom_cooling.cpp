#include "models/thermal/bottom_cooling.hpp"

#include <algorithm>
#include <cmath>

#include "models/common/bounds.hpp"
#include "models/thermal/bed_dry_out.hpp"
#include "models/thermal/convection.hpp"

namespace dullcast::thermal {
namespace {

/// What cuttings that bury the cutters let through where they boil.
void find_boiling_bed(const CoolingLaw& law, const BottomConditions& at, Cooling& cooling) {
  constexpr double least_left = 0.02;
  cooling.dry_bed_conductivity =
      packed_bed_conductivity(at.rock_conductivity, cooling.water.vapour_conductivity, law.packed_void_share);
  const double lets_through =
      law.dry_out_factor * bed_dry_out_flux(cooling.water, law.bed_grain, law.packed_void_share);
  const double set_free =
      at.work - at.rock_capacity_rate * at_least(cooling.water.temperature - at.rock_temperature, 0.0);
  cooling.dry_out_flux = lets_through - within(set_free, 0.0, (1.0 - least_left) * lets_through);
}

}  // namespace

void cool_bottom(const CoolingLaw& law, const BottomConditions& at, Cooling& cooling) {
  const double clear = 1.0 - at.packing, bare = 1.0 - at.buried;
  const double renewed = renewed_share(at.renewal, at.rotary_speed, law.renewal_turns);
  const double turning = renewed * at.rotary_speed;
  const double still = (1.0 - renewed) * free_convection(at.fluid, law.still_expansion);
  cooling.buried = at.buried;
  cooling.bed_conductivity =
      packed_bed_conductivity(at.rock_conductivity, at.fluid.conductivity, law.packed_void_share);
  const CrossFlow crossing = cross_flow(at.fluid);
  double beds = 0.0, passing_before = -1.0;
  for (Eigen::Index i = 0; i < law.radius.size(); ++i) {
    const double past = speed_past_cutter(at.slot_velocity, turning, law.radius(i));
    const double passing = std::sqrt(past * past + at.jet_wash * at.jet_wash);
    const double bed = packed_bed_convection(cooling.bed_conductivity, law.cutter_diameter(i));
    beds += bed;
    // Where nothing turns all cutters are passed alike.
    const bool alike =
        i > 0 && passing == passing_before && law.cutter_diameter(i) == law.cutter_diameter(i - 1);
    cooling.bare(i) =
        alike ? cooling.bare(i - 1) : cutter_convection(crossing, passing, law.cutter_diameter(i)) + still;
    passing_before = passing;
    cooling.convection(i) = bare * cooling.bare(i) + at.buried * bed;
  }
  const double along_walls =
      speed_past_cutter(at.slot_velocity, law.wall_speed_share * turning, law.bit_radius);
  cooling.body = clear * (slot_convection(at.fluid, along_walls, law.slot_diameter) + still) +
                 at.packing * beds / static_cast<double>(law.radius.size());
  cooling.bottom = cooling.convection.mean();
  cooling.wetted_share = 1.0;
  // Trial steps look far below the hole's end, so this deep is no error.
  cooling.boils = at.liquid && at.pressure < greatest_boiling_pressure;
  if (!cooling.boils) return;
  cooling.water = materials::saturated_water(at.pressure);
  cooling.nucleation = nucleation(cooling.water, at.temperature, law.boiling_surface_factor);
  cooling.critical_flux = cooling.nucleation.critical_flux;
  cooling.dry_bed_conductivity = cooling.dry_out_flux = 0.0;
  if (at.buried > 0.0) find_boiling_bed(law, at, cooling);
  const double in_slots = law.slot_volume * at.fluid.density / at.full_mass;
  const double wetted = cubic_step(at.water_share / in_slots);
  cooling.wetted_share = wetted;
  cooling.body = wetted * cooling.body + (1.0 - wetted) * law.steam_convection;
  cooling.bottom = wetted * cooling.bottom + (1.0 - wetted) * law.steam_convection;
}

double about_under_film(const Cooling& cooling, double T_surface) {
  constexpr double nearest = -0.5;  // K, where the curves themselves tell
  if (!cooling.boils) return far_from_film;
  const bool in_bed = cooling.buried >= 0.5;
  const double critical = in_bed ? cooling.dry_out_flux : cooling.critical_flux;
  const double peak = cooling.nucleation.boils_from + std::cbrt(critical / cooling.nucleation.strength);
  const double begins = in_bed ? peak
                               : std::max(rewet_temperature(cooling.water, cooling.nucleation.T_fluid),
                                          peak + least_transition);
  return std::clamp(T_surface - begins, far_from_film, nearest);
}

SurfaceHeat surface_heat(const CoolingLaw& law, const Cooling& cooling, Eigen::Index i, double T_surface,
                         double T_fluid) {
  const double h = cooling.convection(i), buried = cooling.buried, bare = 1.0 - buried;
  if (!cooling.boils) return {h * (T_surface - T_fluid), h, h, BoilingRegime::single_phase};
  const double wetted = cooling.wetted_share;
  if (T_surface <= std::max(cooling.water.temperature, T_fluid) && buried == 0.0 && wetted == 1.0) {
    // Most surfaces at most times: the curves begin with this (boiling_curve.cpp).
    return {h * (T_surface - T_fluid), h, h, BoilingRegime::single_phase};
  }
  SurfaceFlux wet;
  BoilingRegime regime = BoilingRegime::single_phase;
  double past_peak = 0.0, past_film = far_from_film;
  const auto add = [&](double share, const BoilingFlux& part) {
    wet.flux += share * part.out.flux;
    wet.slope += share * part.out.slope;
    if (share >= 0.5) {
      regime = part.regime;
      past_film = part.past_film;
    }
    if (part.past_peak > 0.0)
      past_peak = past_peak > 0.0 ? std::min(past_peak, part.past_peak) : part.past_peak;
  };
  const double bed = packed_bed_convection(cooling.bed_conductivity, law.cutter_diameter(i));
  const double dry_bed = packed_bed_convection(cooling.dry_bed_conductivity, law.cutter_diameter(i));
  if (T_surface <= std::max(cooling.water.temperature, T_fluid)) {
    const double h_wet = bare * cooling.bare(i) + buried * bed;
    wet = {h_wet * (T_surface - T_fluid), h_wet};
  } else {
    if (bare > 0.0)
      add(bare, boiling_flux(cooling.water, cooling.nucleation, cooling.bare(i), T_surface,
                             law.cutter_diameter(i), cooling.critical_flux));
    if (buried > 0.0)
      add(buried, bed_flux(cooling.water, cooling.nucleation, bed, dry_bed, T_surface, cooling.dry_out_flux));
  }
  const double dry = (1.0 - wetted) * (bare * law.steam_convection + buried * dry_bed);
  return {wetted * wet.flux + dry * (T_surface - T_fluid),
          wetted * wet.slope + dry,
          wetted * h + dry,
          regime,
          past_peak,
          past_film};
}

}  // namespace dullcast::thermal
