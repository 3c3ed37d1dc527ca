#include "models/thermal/bottom_cooling.hpp"

#include <cmath>

#include "models/common/bounds.hpp"
#include "models/thermal/convection.hpp"

namespace dullcast::thermal {

void cool_bottom(const CoolingLaw& law, const BottomConditions& at, Cooling& cooling) {
  const double clear = 1.0 - at.packing;
  const double buried = packed_bed_convection(at.rock_conductivity, at.fluid.conductivity,
                                              law.packed_void_share, law.cutter_diameter);
  for (Eigen::Index i = 0; i < law.radius.size(); ++i) {
    const double passing =
        std::hypot(speed_past_cutter(at.slot_velocity, at.rotary_speed, law.radius(i)), at.jet_wash);
    cooling.convection(i) =
        clear * cutter_convection(at.fluid, passing, law.cutter_diameter) + at.packing * buried;
  }
  const double along_walls =
      speed_past_cutter(at.slot_velocity, law.wall_speed_share * at.rotary_speed, law.bit_radius);
  cooling.body = clear * slot_convection(at.fluid, along_walls, law.slot_diameter) + at.packing * buried;
  cooling.bottom = cooling.convection.mean();
  cooling.wetted_share = 1.0;
  // Trial steps look far below the hole's end, so this deep is no error.
  cooling.boils = at.liquid && at.pressure < greatest_boiling_pressure;
  if (!cooling.boils) return;
  cooling.water = materials::saturated_water(at.pressure);
  cooling.critical_flux =
      critical_heat_flux(cooling.water, at.temperature) * (1.0 - law.packed_flux_loss * at.packing);
  const double in_slots = law.slot_volume * at.fluid.density / at.full_mass;
  const double wetted = cubic_step(at.water_share / in_slots);
  cooling.wetted_share = wetted;
  cooling.body = wetted * cooling.body + (1.0 - wetted) * law.steam_convection;
  cooling.bottom = wetted * cooling.bottom + (1.0 - wetted) * law.steam_convection;
}

SurfaceHeat surface_heat(const CoolingLaw& law, const Cooling& cooling, double T_surface, double T_fluid,
                         double h) {
  if (!cooling.boils) return {h * (T_surface - T_fluid), h, h, BoilingRegime::single_phase};
  const BoilingFlux wet = boiling_flux(cooling.water, h, T_surface, T_fluid, law.boiling_surface_factor,
                                       law.cutter_diameter, cooling.critical_flux);
  const double share = cooling.wetted_share, dry = (1.0 - share) * law.steam_convection;
  return {share * wet.out.flux + dry * (T_surface - T_fluid), share * wet.out.slope + dry, share * h + dry,
          wet.regime};
}

}  // namespace dullcast::thermal
