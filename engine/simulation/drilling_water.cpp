// The water of the drilling system: how it cools, boils, runs dry and comes back.
#include <algorithm>
#include <cmath>
#include <limits>

#include "engine/simulation/drilling_system.hpp"
#include "models/common/bounds.hpp"
#include "models/common/constants.hpp"
#include "models/hydraulics/hydrostatics.hpp"
#include "models/thermal/boiling_curve.hpp"
#include "models/thermal/convection.hpp"
#include "models/thermal/pool.hpp"

namespace dullcast::simulation {
namespace {

/// Boiling sets in over this band below saturation: there, surplus heat goes over from warming the fluid to
/// making steam. A band and not a corner, so that the step may stay long [asm].
constexpr double boiling_band = 2.0;  // K

/// Share of surplus heat that still warms a fluid this far below saturation: 1 before the band, 0 at its end.
struct KeptShare {
  double value = 1.0;
  double slope = 0.0;  // 1/K, d value/dT
};
KeptShare kept_share(double T, double saturation) {
  const double x = (T - (saturation - boiling_band)) / boiling_band;
  return {1.0 - cubic_step(x), -cubic_step_slope(x) / boiling_band};
}

/// The last hundredth of the water boils away ever more slowly, so that there is never less than none.
constexpr double last_water = 0.01;

/// Standing water falls back on the bit as fast as steam lets it, in about this time [asm].
constexpr double fall_back_time = 5.0;  // s

/// Water hotter than it can be boils itself cool in about this time [asm].
constexpr double flash_time = 1.0;  // s

/// Within this depth below the standing level water begins to cover the bit.
constexpr double level_band = 0.5;  // m

/// A bed of cuttings takes this share of the critical flux away when it packs: steam clogs its pores [asm].
constexpr double packed_flux_loss = 0.9;

/// Saturated properties are known below this; nothing boils above the critical pressure of 22.064 MPa anyway.
constexpr double greatest_boiling_pressure = 20e6;  // Pa

/// Packed cuttings take this share of the steam's and the water's room away: a bed of half-millimetre grains
/// dries out at a few hundred kW/m2 (Lipinski 1984, from memory), an open annulus only at tens of MW/m2.
constexpr double packed_pores_loss = 0.985;

/// Void share of packed cuttings, for conduction through them.
constexpr double packed_void_share = 0.4;

}  // namespace

void DrillingSystem::find_cooling(const State& x) {
  const BitModels& bit = models_->bit;
  const DrillingInterval& s = *interval_;
  const double diameter = 2.0 * bit.bit.shape.radius, packing = evaluation_.slot.packing;
  const double buried =
      thermal::packed_bed_convection(s.rock.conductivity, s.fluid.conductivity, packed_void_share, diameter);
  const double wash =
      s.flow_at_bit > 0.0 ? s.jet_wash * std::clamp(evaluation_.slot.flow / s.flow_at_bit, 0.0, 1.0) : 0.0;
  for (Eigen::Index i = 0; i < layout_.cutters; ++i) {
    const double passing = std::hypot(
        thermal::speed_past_cutter(evaluation_.slot.slot_velocity, s.rotary_speed, bit.bit.radius(i)), wash);
    evaluation_.convection(i) =
        (1.0 - packing) * thermal::cutter_convection(s.fluid, passing, diameter) + packing * buried;
  }
  // The body's walls turn with the fluid in their slots: half their speed is left between the two [asm].
  const double along_walls =
      thermal::speed_past_cutter(evaluation_.slot.slot_velocity, 0.5 * s.rotary_speed, bit.bit.bit_radius);

  const double pressure = hydraulics::bottom_hole_pressure(
      s.string_fluid_density, models_->ground.standing_level, x(layout_.depth()));
  // Trial steps look far below the hole's end, so this deep is no error.
  evaluation_.boils = s.liquid && pressure < greatest_boiling_pressure;
  evaluation_.wetted_share = 1.0;
  body_convection_ =
      (1.0 - packing) * thermal::slot_convection(s.fluid, along_walls, bit.slot_diameter) + packing * buried;
  bottom_convection_ = evaluation_.convection.mean();
  if (!evaluation_.boils) return;
  evaluation_.water = materials::saturated_water(pressure);
  evaluation_.critical_flux =
      thermal::critical_heat_flux(evaluation_.water, x(layout_.fluid())) * (1.0 - packed_flux_loss * packing);
  // The cutters stay covered until the water has sunk into the slots, then are bared with it.
  const double in_slots = bit.slots.volume * s.fluid.density / s.fluid_mass;
  const double wetted = cubic_step(x(layout_.water()) / in_slots);
  evaluation_.wetted_share = wetted;
  body_convection_ = wetted * body_convection_ + (1.0 - wetted) * bit.steam_convection;
  bottom_convection_ = wetted * bottom_convection_ + (1.0 - wetted) * bit.steam_convection;
}

DrillingSystem::SurfaceHeat DrillingSystem::surface_heat(double T_surface, double T_fluid, double h) const {
  if (!evaluation_.boils) return {h * (T_surface - T_fluid), h, h, thermal::BoilingRegime::single_phase};
  const BitModels& bit = models_->bit;
  const thermal::BoilingFlux wet =
      thermal::boiling_flux(evaluation_.water, h, T_surface, T_fluid, bit.boiling_surface_factor,
                            2.0 * bit.bit.shape.radius, evaluation_.critical_flux);
  const double share = evaluation_.wetted_share, dry = (1.0 - share) * bit.steam_convection;
  return {share * wet.out.flux + dry * (T_surface - T_fluid), share * wet.out.slope + dry, share * h + dry,
          wet.regime};
}

double DrillingSystem::saturation_at(double z) const {
  const double pressure =
      hydraulics::bottom_hole_pressure(interval_->string_fluid_density, models_->ground.standing_level, z);
  return pressure < greatest_boiling_pressure ? materials::saturation_temperature(pressure)
                                              : std::numeric_limits<double>::infinity();
}

double DrillingSystem::near_boiling(const State& x) const {
  if (!interval_->liquid) return -std::numeric_limits<double>::max();
  return x(layout_.fluid()) - (saturation_at(x(layout_.depth())) - boiling_band);
}

/// The bottom-hole fluid's temperature and amount. Surplus heat warms it, M c dT/dt = surplus, until at
/// saturation it makes steam instead, h_fg dM/dt = -surplus. What the pump or standing water brings in fills
/// it up again. Water that leaves takes its warmth along.
void DrillingSystem::water_rates(const State& x, double surplus, double flow_capacity, State& dxdt) {
  const DrillingInterval& s = *interval_;
  const double fluid = x(layout_.fluid()), inlet = models_->ground.inlet_temperature;
  const double water = x(layout_.water()), z = x(layout_.depth());
  const double capacity = s.fluid_capacity * (std::max(water, 0.0) + dry_capacity_share);
  double kept = 1.0, steam_slope = 0.0;  // kg/s by the share of water that is there
  hole_.boiling_slope = 0.0;
  evaluation_.steam_rate = 0.0;
  if (evaluation_.boils && surplus > 0.0) {
    const KeptShare share = kept_share(fluid, evaluation_.water.temperature);
    const double there = std::max(water, 0.0) / (std::max(water, 0.0) + last_water);
    kept = 1.0 - (1.0 - share.value) * there;
    hole_.boiling_slope = -surplus * share.slope * there / capacity;
    evaluation_.steam_rate = (1.0 - kept) * surplus / evaluation_.water.latent_heat;
    if (water > 0.0) {
      steam_slope = (1.0 - share.value) * surplus / evaluation_.water.latent_heat * last_water /
                    ((water + last_water) * (water + last_water));
    }
  }
  // Water past saturation flashes.
  double flash = 0.0;  // W
  if (evaluation_.boils && fluid > evaluation_.water.temperature) {
    const double per_kelvin = s.fluid_capacity * std::max(water, 0.0) / flash_time;
    flash = per_kelvin * (fluid - evaluation_.water.temperature);
    hole_.boiling_slope += per_kelvin / capacity;
    evaluation_.steam_rate += flash / evaluation_.water.latent_heat;
    if (water > 0.0) steam_slope += flash / water / evaluation_.water.latent_heat;
  }
  // 1/s: the pump fills what is missing; standing water falls back as fast as steam in an open annulus, or in
  // the pores of packed cuttings, lets it.
  double filling = 0.0, fall_back = 0.0, fall_back_slope = 0.0;
  const double missing = 1.0 - water;
  if (s.liquid) {
    filling = s.fluid.density * evaluation_.slot.flow / s.fluid_mass;
    if (evaluation_.boils && missing > 0.0) {
      const double covered = cubic_step((z - models_->ground.standing_level) / level_band);
      const double most = (1.0 - packed_pores_loss * evaluation_.slot.packing) *
                          thermal::flooding_steam_rate(evaluation_.water, models_->bit.slots.annulus_area,
                                                       models_->bit.annulus_diameter) /
                          s.fluid_mass;
      const double freely = missing / fall_back_time, share = most / (most + freely);
      fall_back = covered * share * freely;
      fall_back_slope = covered * share * share / fall_back_time;
    }
  }
  // The pump's stream mixes in whole; of what passes, (1 - water) stays. Standing water falls back cold.
  const double falls_back = s.fluid_capacity * fall_back * (fluid - inlet);
  hole_.boiling_slope += s.fluid_capacity * fall_back / capacity;
  const double leaves_with_steam = s.fluid.heat_capacity * (fluid - inlet) * evaluation_.steam_rate;
  dxdt(layout_.fluid()) = (kept * surplus - flash - falls_back) / capacity;
  dxdt(layout_.water()) =
      s.liquid ? filling * missing + fall_back - evaluation_.steam_rate / s.fluid_mass : 0.0;
  dxdt(layout_.carried()) += (s.liquid ? water : 1.0) * flow_capacity * (fluid - inlet) +
                             (1.0 - kept) * surplus + flash + leaves_with_steam;
  hole_.ledger = hole_.carried - (s.liquid ? missing : 0.0) * flow_capacity;
  hole_.fluid_capacity = capacity / std::max(kept, 1e-6);
  // The last water boils off in a fraction of a second: held here, or the step would stay as short.
  hole_.water_rate = filling + fall_back_slope + steam_slope / s.fluid_mass;
  hole_.plug_rate = evaluation_.plug.flushed_slope;
  // Slots that choke under a pressure limit let less out the fuller they are; the step then stands alone.
  const double carried_slope = evaluation_.slot.out_slope - evaluation_.slot.overflow_slope;
  hole_.solids_rate =
      std::max(0.0, evaluation_.slot.overflow_slope + (1.0 - evaluation_.plug.blocks) * carried_slope);
}

}  // namespace dullcast::simulation
