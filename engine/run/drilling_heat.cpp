// The heat of the drilling system: what friction makes, where it goes, and how the fluid takes it up.
#include <algorithm>
#include <cmath>
#include <limits>

#include "engine/run/drilling_system.hpp"
#include "models/boiling_curve.hpp"
#include "models/convection.hpp"
#include "models/heat.hpp"
#include "models/letters.hpp"
#include "models/pool.hpp"

namespace dullcast {
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
  if (x <= 0.0) return {1.0, 0.0};
  if (x >= 1.0) return {0.0, 0.0};
  return {1.0 - x * x * (3.0 - 2.0 * x), -6.0 * x * (1.0 - x) / boiling_band};
}

double smooth_step(double x) {
  const double y = std::clamp(x, 0.0, 1.0);
  return y * y * (3.0 - 2.0 * y);
}

/// Heat capacity that stays when the water is gone (cuttings, steam), over that of the full water [asm].
constexpr double dry_capacity_share = 0.05;

/// The last hundredth of the water boils away ever more slowly, so that there is never less than none.
constexpr double last_water = 0.01;

/// With less than this of the surfaces wetted one speaks of dry, not of a film.
constexpr double least_wetted = 0.05;

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
  const Stretch& s = *stretch_;
  const double diameter = 2.0 * bit.bit.shape.radius, packing = instant_.slot.packing;
  const double buried =
      packed_bed_convection(s.rock.conductivity, s.fluid.conductivity, packed_void_share, diameter);
  const double wash =
      s.flow_at_bit > 0.0 ? s.jet_wash * std::clamp(instant_.slot.flow / s.flow_at_bit, 0.0, 1.0) : 0.0;
  for (Eigen::Index i = 0; i < layout_.cutters; ++i) {
    const double passing =
        std::hypot(speed_past_cutter(instant_.slot.slot_velocity, s.rotary_speed, bit.bit.radius(i)), wash);
    instant_.convection(i) =
        (1.0 - packing) * cutter_convection(s.fluid, passing, diameter) + packing * buried;
  }
  // The body's walls turn with the fluid in their slots: half their speed is left between the two [asm].
  const double along_walls =
      speed_past_cutter(instant_.slot.slot_velocity, 0.5 * s.rotary_speed, bit.bit.bit_radius);

  const double pressure =
      bottom_hole_pressure(s.string_fluid_density, models_->ground.standing_level, x(layout_.depth()));
  // Trial steps look far below the hole's end, so this deep is no error.
  instant_.boils = s.liquid && pressure < greatest_boiling_pressure;
  instant_.wetted_share = 1.0;
  body_convection_ =
      (1.0 - packing) * slot_convection(s.fluid, along_walls, bit.slot_diameter) + packing * buried;
  bottom_convection_ = instant_.convection.mean();
  if (!instant_.boils) return;
  instant_.water = saturated_water(pressure);
  instant_.critical_flux =
      critical_heat_flux(instant_.water, x(layout_.fluid())) * (1.0 - packed_flux_loss * packing);
  // The cutters stay covered until the water has sunk into the slots, then are bared with it.
  const double in_slots = bit.slots.volume * s.fluid.density / s.fluid_mass;
  const double wetted = smooth_step(x(layout_.water()) / in_slots);
  instant_.wetted_share = wetted;
  body_convection_ = wetted * body_convection_ + (1.0 - wetted) * bit.steam_convection;
  bottom_convection_ = wetted * bottom_convection_ + (1.0 - wetted) * bit.steam_convection;
}

DrillingSystem::SurfaceHeat DrillingSystem::surface_heat(double T_surface, double T_fluid, double h) const {
  if (!instant_.boils) return {h * (T_surface - T_fluid), h, h, BoilingRegime::single_phase};
  const BitModels& bit = models_->bit;
  const BoilingFlux wet = boiling_flux(instant_.water, h, T_surface, T_fluid, bit.boiling_surface_factor,
                                       2.0 * bit.bit.shape.radius, instant_.critical_flux);
  const double share = instant_.wetted_share, dry = (1.0 - share) * bit.steam_convection;
  return {share * wet.out.flux + dry * (T_surface - T_fluid), share * wet.out.slope + dry, share * h + dry,
          wet.regime};
}

void DrillingSystem::share_heats(const State& x) {
  const BitModels& bit = models_->bit;
  const Stretch& s = *stretch_;
  const CutterLoads& loads = instant_.loads;
  const double omega = two_pi * s.rotary_speed, fluid = x(layout_.fluid()), rock = x(layout_.warm());
  instant_.rock_temperature = models_->ground.rock_temperature(x(layout_.depth()));
  instant_.sliding_speed = omega * bit.bit.radius;
  instant_.flat_heat =
      s.resistance.flat_friction * (omega * loads.contact_moment + omega * bit.bit.bit_radius * side_force_);
  instant_.face_heat = bit.chip_speed_share * s.resistance.specific_energy * omega *
                       bit.directions.chip_friction * loads.area_moment;
  for (Eigen::Index i = 0; i < layout_.cutters; ++i) {
    const CutterHeating heating{instant_.flat_heat(i),
                                instant_.face_heat(i),
                                loads.contact_area(i),
                                loads.engaged_width(i),
                                loads.area(i),
                                instant_.sliding_speed(i),
                                bit.chip_speed_share * instant_.sliding_speed(i),
                                bit.bit.back_rake(i)};
    const CutterContacts contacts = cutter_contacts(bit.network, heating, s.rock);
    const double table = layout_.table(x)(i), carbide = layout_.carbide(x)(i);
    const SharedHeat flat =
        share_heat(heating.flat_heat, contacts.flat_spot, contacts.flat_rock, table, rock);
    const SharedHeat face =
        share_heat(heating.face_heat, contacts.face_spot, contacts.face_rock, table, rock);
    instant_.flat_temperature(i) = flat.temperature;
    instant_.flat_into_table(i) = flat.into_table;
    instant_.flat_into_rock(i) = flat.into_rock;
    instant_.face_into_table(i) = face.into_table;
    instant_.face_into_chip(i) = face.into_rock;
    const auto in_series = [](double first, double second) {
      return first + second > 0.0 ? first * second / (first + second) : 0.0;
    };
    ThermalMatrix::Cutter& linear = linear_[static_cast<std::size_t>(i)];
    linear.table_capacity = bit.network.table_mass * diamond_heat_capacity(table);
    linear.flat_to_rock = in_series(contacts.flat_spot, contacts.flat_rock);
    linear.face_to_chip = in_series(contacts.face_spot, contacts.face_rock);
    const double flat_sum = contacts.flat_spot + contacts.flat_rock;
    linear.flat_follows = flat_sum > 0.0 ? contacts.flat_spot / flat_sum : 1.0;
    const SurfaceHeat on_table = surface_heat(table, fluid, instant_.convection(i));
    const SurfaceHeat on_carbide = surface_heat(carbide, fluid, instant_.convection(i));
    instant_.table_flux(i) = on_table.flux;
    instant_.carbide_flux(i) = on_carbide.flux;
    // Where no water is left there is no film either.
    instant_.film(i) =
        on_table.regime == BoilingRegime::film && instant_.wetted_share > least_wetted ? 1.0 : 0.0;
    linear.table_to_fluid = bit.network.table_to_fluid * on_table.surface_slope;
    linear.table_from_fluid = bit.network.table_to_fluid * on_table.fluid_slope;
    linear.carbide_to_fluid = bit.network.carbide_to_fluid * on_carbide.surface_slope;
    linear.carbide_from_fluid = bit.network.carbide_to_fluid * on_carbide.fluid_slope;
  }
}

double DrillingSystem::saturation_at(double z) const {
  const double pressure =
      bottom_hole_pressure(stretch_->string_fluid_density, models_->ground.standing_level, z);
  return pressure < greatest_boiling_pressure ? saturation_temperature(pressure)
                                              : std::numeric_limits<double>::infinity();
}

double DrillingSystem::near_boiling(const State& x) const {
  if (!stretch_->liquid) return -std::numeric_limits<double>::max();
  return x(layout_.fluid()) - (saturation_at(x(layout_.depth())) - boiling_band);
}

void DrillingSystem::heat_rates(const State& x, State& dxdt) {
  const BitModels& bit = models_->bit;
  const CutterNetwork& n = bit.network;
  const Stretch& s = *stretch_;
  const double body = x(layout_.body()), fluid = x(layout_.fluid()), warm = x(layout_.warm());
  const double rock = instant_.rock_temperature, inlet = models_->ground.inlet_temperature;
  const auto table = layout_.table(x), carbide = layout_.carbide(x);
  auto table_rate = layout_.table(dxdt), carbide_rate = layout_.carbide(dxdt),
       settled_rate = layout_.settled(dxdt);

  warm_ = warm_rock(s.rock, bottom_area(), instant_.rate_of_penetration, s.rotary_speed * bit.bit.blades,
                    warm_depth);
  hole_.body_to_fluid = body_convection_ * bit.body_wetted_area;
  hole_.warm_to_fluid = bottom_convection_ * bottom_area();
  hole_.warm_by_cuttings = warm_.to_cuttings;
  hole_.warm_to_rock = warm_.to_rock;
  hole_.warm_capacity = warm_capacity_;

  const double bottom_to_fluid = hole_.warm_to_fluid * (warm - fluid);
  const double with_cuttings = warm_.to_cuttings * (warm - rock);
  double into_body = hole_.body_to_fluid * (fluid - body);
  double into_fluid = instant_.power - into_body + bottom_to_fluid + with_cuttings;
  double into_warm = -bottom_to_fluid - with_cuttings - warm_.to_rock * (warm - rock);
  for (Eigen::Index i = 0; i < layout_.cutters; ++i) {
    const double friction_in = instant_.flat_into_table(i) + instant_.face_into_table(i);
    const double to_carbide = n.table_to_carbide * (table(i) - carbide(i));
    const double to_fluid = n.table_to_fluid * instant_.table_flux(i),
                 to_fluid_behind = n.carbide_to_fluid * instant_.carbide_flux(i);
    const double to_body = n.table_to_body * (table(i) - body),
                 to_body_behind = n.carbide_to_body * (carbide(i) - body);
    table_rate(i) =
        (friction_in - to_carbide - to_fluid - to_body) / linear_[static_cast<std::size_t>(i)].table_capacity;
    carbide_rate(i) = (to_carbide - to_fluid_behind - to_body_behind) / n.carbide_capacity;
    settled_rate(i) = (instant_.flat_temperature(i) - layout_.settled(x)(i)) / settling_time;
    into_body += to_body + to_body_behind;
    into_warm += instant_.flat_into_rock(i);
    // Work that is neither in a cutter nor left in the rock leaves with cuttings and fluid.
    into_fluid += to_fluid + to_fluid_behind - friction_in - instant_.flat_into_rock(i);
  }
  // Fluid, wall and the cuttings that leave at the fluid's temperature; mist takes up its latent heat.
  const double flow_capacity = s.fluid.density * s.fluid.heat_capacity * instant_.slot.flow;
  const SurfaceFlux mist = s.mist_rate > 0.0
                               ? mist_cooling(s.mist_rate, s.gas_rate, fluid, inlet, standard_atmosphere)
                               : SurfaceFlux{};
  hole_.carried = flow_capacity + s.fluid_to_wall + warm_.to_cuttings + mist.slope;
  const double to_ground = s.fluid_to_wall * (fluid - rock) + warm_.to_cuttings * (fluid - rock) + mist.flux;
  const double surplus = into_fluid - flow_capacity * (fluid - inlet) - to_ground;
  dxdt(layout_.body()) = into_body / bit.body_capacity;
  dxdt(layout_.warm()) = into_warm / warm_capacity_;
  dxdt(layout_.spent()) = instant_.power;
  dxdt(layout_.carried()) = to_ground;
  dxdt(layout_.left_in_rock()) = warm_.to_rock * (warm - rock);
  water_rates(x, surplus, flow_capacity, dxdt);
}

/// The bottom-hole fluid's temperature and amount. Surplus heat warms it, M c dT/dt = surplus, until at
/// saturation it makes steam instead, h_fg dM/dt = -surplus. What the pump or standing water brings in fills
/// it up again. Water that leaves takes its warmth along.
void DrillingSystem::water_rates(const State& x, double surplus, double flow_capacity, State& dxdt) {
  const Stretch& s = *stretch_;
  const double fluid = x(layout_.fluid()), inlet = models_->ground.inlet_temperature;
  const double water = x(layout_.water()), z = x(layout_.depth());
  const double capacity = s.fluid_capacity * (std::max(water, 0.0) + dry_capacity_share);
  double kept = 1.0;
  hole_.boiling_slope = 0.0;
  instant_.steam_rate = 0.0;
  if (instant_.boils && surplus > 0.0) {
    const KeptShare share = kept_share(fluid, instant_.water.temperature);
    const double there = std::max(water, 0.0) / (std::max(water, 0.0) + last_water);
    kept = 1.0 - (1.0 - share.value) * there;
    hole_.boiling_slope = -surplus * share.slope * there / capacity;
    instant_.steam_rate = (1.0 - kept) * surplus / instant_.water.latent_heat;
  }
  // Water past saturation flashes.
  double flash = 0.0;  // W
  if (instant_.boils && fluid > instant_.water.temperature) {
    const double per_kelvin = s.fluid_capacity * std::max(water, 0.0) / flash_time;
    flash = per_kelvin * (fluid - instant_.water.temperature);
    hole_.boiling_slope += per_kelvin / capacity;
    instant_.steam_rate += flash / instant_.water.latent_heat;
  }
  // 1/s: the pump fills what is missing; standing water falls back as fast as steam in an open annulus, or in
  // the pores of packed cuttings, lets it.
  double filling = 0.0, fall_back = 0.0, fall_back_slope = 0.0;
  const double missing = 1.0 - water;
  if (s.liquid) {
    filling = s.fluid.density * instant_.slot.flow / s.fluid_mass;
    if (instant_.boils && missing > 0.0) {
      const double covered = smooth_step((z - models_->ground.standing_level) / level_band);
      const double most = (1.0 - packed_pores_loss * instant_.slot.packing) *
                          flooding_steam_rate(instant_.water, models_->bit.slots.annulus_area,
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
  const double leaves_with_steam = s.fluid.heat_capacity * (fluid - inlet) * instant_.steam_rate;
  dxdt(layout_.fluid()) = (kept * surplus - flash - falls_back) / capacity;
  dxdt(layout_.water()) = s.liquid ? filling * missing + fall_back - instant_.steam_rate / s.fluid_mass : 0.0;
  dxdt(layout_.carried()) += (s.liquid ? water : 1.0) * flow_capacity * (fluid - inlet) +
                             (1.0 - kept) * surplus + flash + leaves_with_steam;
  hole_.ledger = hole_.carried - (s.liquid ? missing : 0.0) * flow_capacity;
  hole_.fluid_capacity = capacity / std::max(kept, 1e-6);
  hole_.water_rate = filling + fall_back_slope;
  hole_.plug_rate = instant_.plug.flushed_slope;
  // Slots that choke under a pressure limit let less out the fuller they are; the step then stands alone.
  const double carried_slope = instant_.slot.out_slope - instant_.slot.overflow_slope;
  hole_.solids_rate =
      std::max(0.0, instant_.slot.overflow_slope + (1.0 - instant_.plug.blocks) * carried_slope);
}

double DrillingSystem::stored_heat(const State& x, double T_zero) const {
  const BitModels& bit = models_->bit;
  const CutterNetwork& n = bit.network;
  const double water = std::max(x(layout_.water()), 0.0) + dry_capacity_share;
  double heat = bit.body_capacity * (x(layout_.body()) - T_zero) +
                warm_capacity_ * (x(layout_.warm()) - T_zero) +
                stretch_->fluid_capacity * water * (x(layout_.fluid()) - T_zero);
  for (Eigen::Index i = 0; i < layout_.cutters; ++i) {
    heat += n.carbide_capacity * (layout_.carbide(x)(i) - T_zero);
    // The table's heat capacity is integrated by trapezoids of a kelvin, far finer than its curve.
    const double rise = layout_.table(x)(i) - T_zero;
    const int slices = 1 + static_cast<int>(std::abs(rise));
    double sum = 0.5 * (diamond_heat_capacity(T_zero) + diamond_heat_capacity(T_zero + rise));
    for (int k = 1; k < slices; ++k) sum += diamond_heat_capacity(T_zero + rise * k / slices);
    heat += n.table_mass * sum * rise / slices;
  }
  return heat;
}

}  // namespace dullcast
