#include "engine/simulation/drilling_system.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "models/hydraulics/hydrostatics.hpp"

namespace dullcast::simulation {

DrillingSystem::DrillingSystem(const RunModels& models)
    : models_(&models),
      layout_(models.bit.bit.count()),
      profile_(*models.bit.unworn),
      heat_(layout_.cutters),
      matrix_(layout_),
      error_scale_(layout_.error_scales()) {
  const Eigen::Index n = layout_.cutters;
  now_.resize(n);
  touches_.resize(static_cast<std::size_t>(filled_up(static_cast<int>(n)) / wide_block));
  for (Eigen::ArrayXd* field : {&worn_, &leached_share_, &carbide_share_, &memory_.rubbing_worn,
                                &memory_.found_worn, &memory_.found_carbide, &memory_.by_carbide})
    field->setZero(n);
  memory_.rubbing = models.bit.unworn_rubbing;
  memory_.rubbing_known = true;
  most_worn_ = wear::greatest_worn_share * geometry::cutter_radii(models.bit.bit);
  for (wear::Flags* flags : {&ruined_, &lost_}) flags->setConstant(n, false);
}

void DrillingSystem::enter(const DrillingInterval& interval) {
  interval_ = &interval;
  // What was guessed and found before does not matter from here on, to the last bit.
  memory_.forget();
  matrix_.forget();
  now_.sliding_speed = two_pi * interval.rotary_speed * models_->bit.bit.radius;
  // The skin at rest: receding faster it is thinner and quicker, but then it is quick either way, and a
  // capacity that stays the same over an interval keeps the ledger exact.
  const BitModels& bit = models_->bit;
  warm_capacity_ = thermal::warm_rock(interval.rock, bit.bottom_heat.hole_area, 0.0,
                                      interval.rotary_speed * bit.bit.blades, bit.bottom_heat.warm_skin_depth)
                       .capacity;
}

double DrillingSystem::weight_at(double z) const {
  return scenario::weight_on_bit(interval_->settings, models_->ground.string, interval_->fluid.density, z);
}

double DrillingSystem::pressure_at(double z) const {
  const double level =
      hydraulics::fluid_level(interval_->liquid, interval_->flow_at_bit, models_->ground.standing_level);
  return hydraulics::bottom_hole_pressure(interval_->fluid.density, level, z);
}

double DrillingSystem::near_boiling(const State& x) const {
  if (!interval_->liquid) return -std::numeric_limits<double>::max();
  return thermal::past_boiling_onset(x(layout_.fluid()), pressure_at(x(layout_.depth())));
}

void DrillingSystem::operator()(const State& x, State& dxdt, double /*t*/) {
  find_fast_rates(x, dxdt);
  find_slow_rates(x, dxdt);
}

void DrillingSystem::find_fast_rates(const State& x, State& dxdt) {
  ++evaluations_;
  find_forces(x);
  find_cooling(x);
  balance_heat(x);
  put_heat_rates(x, dxdt);
}

void DrillingSystem::find_slow_rates(const State& x, State& dxdt) {
  dxdt(layout_.depth()) = now_.rate_of_penetration;
  put_wear_rates(x, dxdt);
  put_body_rates(x, dxdt);
  dxdt(layout_.spent()) = now_.power;
  dxdt(layout_.carried()) = heat_.into(thermal::Sink::carried_off) + now_.water.carried;
  dxdt(layout_.left_in_rock()) = heat_.into(thermal::Sink::left_in_rock);
}

/// What the bit cuts under its weight, how its cuttings leave, and who carries it sideways.
void DrillingSystem::find_forces(const State& x) {
  const BitModels& bit = models_->bit;
  const DrillingInterval& s = *interval_;
  worn_ = lost_.select(most_worn_, layout_.worn(x).max(0.0).min(most_worn_));
  wear::leached_shares(bit.wear, worn_, leached_share_);
  wear::carbide_shares(bit.wear.abrasion, layout_.settled(x), leached_share_, ruined_, carbide_share_);
  now_.resistance = s.resistance;
  // What packs and how fast the annulus rises do not depend on what is lifted, which the cut decides.
  const hydraulics::Solids solids{x(layout_.solids()), x(layout_.plug())};
  const hydraulics::SlotFlow slots =
      hydraulics::slot_flow(bit.cleaning.slots, s.fluid, s.flow_at_bit, solids.fraction, 1.0);
  now_.bed = hydraulics::bed_round_cutters(bit.cleaning, s.fluid, s.rock.density, slots, solids.fraction);
  now_.resistance.drilling_efficiency *=
      hydraulics::regrinding_efficiency(bit.cleaning, now_.bed.buried, solids.plug);
  now_.weight_asked = weight_at(x(layout_.depth()));
  if (!forces_held_ &&
      cutting::sit_on_bottom(
          bit.mechanics,
          {worn_, carbide_share_, now_.resistance, now_.weight_asked, s.most_depth_of_cut,
           std::max(0.0, x(layout_.eroded()) + x(layout_.blade_wear())), x(layout_.pad_wear())},
          profile_, memory_, now_.forces, force_tolerance_)) {
    cutting::press_on_wall(bit.mechanics, bit.bit, now_.resistance, x(layout_.pad_wear()), lost_,
                           now_.forces);
    cutting::friction_heat(bit.mechanics, now_.forces, s.resistance, s.rotary_speed, bit.bit.bit_radius,
                           bit.chip_heat, s.rock.density * s.rock.heat_capacity, now_.friction);
    thermal::touch_rock(bit.cutter_heat, s.rock, cutting_heat(), touches_);
  }
  const cutting::Balance& balance = now_.forces.balance;
  now_.rate_of_penetration = balance.depth_of_cut * s.rotary_speed;
  now_.torque = now_.forces.torque();
  now_.power = balance.weight * now_.rate_of_penetration + now_.torque * two_pi * s.rotary_speed;
  now_.bottom =
      hydraulics::bottom_flow(bit.cleaning, s.fluid, s.flow_at_bit, s.rock.density, solids,
                              slots.annulus_velocity, balance.depth_of_cut, two_pi * s.rotary_speed);
  now_.solids = hydraulics::solids_rates(bit.cleaning, now_.bottom, solids, now_.rate_of_penetration,
                                         x(layout_.depth()));
}

void DrillingSystem::settle_slots(State& x) const {
  const DrillingInterval& s = *interval_;
  const hydraulics::Solids settled =
      hydraulics::settled_solids(models_->bit.cleaning, s.fluid, s.flow_at_bit, s.rock.density,
                                 {x(layout_.solids()), x(layout_.plug())}, now_.bottom.slot.annulus_velocity,
                                 now_.forces.balance.depth_of_cut, s.rotary_speed, x(layout_.depth()));
  x(layout_.solids()) = settled.fraction;
  x(layout_.plug()) = settled.plug;
}

void DrillingSystem::find_cooling(const State& x) {
  const DrillingInterval& s = *interval_;
  const hydraulics::SlotFlow& slot = now_.bottom.slot;
  now_.rock_temperature = models_->ground.rock_temperature(x(layout_.depth()));
  thermal::BottomConditions at;
  at.fluid = s.fluid;
  at.liquid = s.liquid;
  at.pressure = pressure_at(x(layout_.depth()));
  at.temperature = x(layout_.fluid());
  at.water_share = x(layout_.water());
  at.full_mass = s.fluid_mass;
  at.slot_velocity = slot.slot_velocity;
  at.packing = slot.packing;
  at.buried = now_.bed.buried;
  at.work = now_.power / models_->bit.bottom_heat.hole_area;
  at.rock_capacity_rate = s.rock.density * s.rock.heat_capacity * now_.rate_of_penetration;
  at.rock_temperature = now_.rock_temperature;
  at.renewal = now_.bottom.renewal;
  at.rotary_speed = s.rotary_speed;
  at.jet_wash = s.flow_at_bit > 0.0 ? s.jet_wash * std::clamp(slot.flow / s.flow_at_bit, 0.0, 1.0) : 0.0;
  at.rock_conductivity = s.rock.conductivity;
  thermal::cool_bottom(models_->bit.cooling, at, now_.cooling);
}

thermal::CuttingHeat DrillingSystem::cutting_heat() const {
  return {now_.friction.flat,     now_.friction.face, now_.forces.contact_area, now_.forces.contact_width,
          now_.forces.loads.area, now_.sliding_speed, now_.friction.rock_rise,  now_.friction.crushed};
}

/// Blades rub where they bear, the pads that face the side force on the wall.
thermal::RubbingHeat DrillingSystem::rubbing_heat(const thermal::SharedTemperatures& T) const {
  const BitModels& bit = models_->bit;
  const cutting::BitForces& forces = now_.forces;
  const double omega = two_pi * interval_->rotary_speed, friction = bit.mechanics.blade_friction;
  const double R = bit.bit.bit_radius, k = bit.materials.front().body_conductivity;
  const double count = std::max(bit.bit.blades, 1);
  const thermal::RubbingFaces blades{friction * omega * forces.balance.blade_moment, count,
                                     bit.body_wear.blade_area / count, bit.mechanics.blade_thickness,
                                     omega * forces.rubbing.contact_radius};
  const thermal::RubbingFaces pads{friction * omega * R * forces.pad_force, 1.0, bit.body_wear.pad_area,
                                   bit.pad_width, omega * R};
  const auto heat_of = [&](const thermal::RubbingFaces& faces) {
    return thermal::rubbing_heat(faces, k, interval_->rock, bit.cutter_heat.softening, T.body, T.warm_rock);
  };
  const thermal::RubbingHeat of_blades = heat_of(blades), of_pads = heat_of(pads);
  return {of_blades.into_body + of_pads.into_body, of_blades.into_rock + of_pads.into_rock,
          of_blades.unmade + of_pads.unmade};
}

/// Every flow of heat, written down once; then what surplus heat does to the water.
void DrillingSystem::balance_heat(const State& x) {
  const BitModels& bit = models_->bit;
  const DrillingInterval& s = *interval_;
  const hydraulics::SlotFlow& slot = now_.bottom.slot;
  const double water = x(layout_.water()),
               flow_capacity = s.fluid.density * s.fluid.heat_capacity * slot.flow;

  const thermal::SharedTemperatures shared{x(layout_.body()), x(layout_.fluid()), x(layout_.warm())};
  heat_.clear();
  const thermal::RubbingHeat rubbing = rubbing_heat(shared);
  take_back(rubbing.unmade);
  thermal::BottomHeatDemand demand;
  demand.power = now_.power;
  demand.rubbing_into_body = rubbing.into_body;
  demand.rubbing_into_rock = s.liquid ? 0.0 : rubbing.into_rock;
  demand.warm_rock = thermal::warm_rock(s.rock, bit.bottom_heat.hole_area, now_.rate_of_penetration,
                                        s.rotary_speed * bit.bit.blades, bit.bottom_heat.warm_skin_depth);
  demand.water_share = s.liquid ? water : 1.0;
  demand.flow_capacity = flow_capacity;
  demand.fluid_to_wall = bit.wall_conductance;
  demand.mist_rate = s.mist_rate;
  demand.gas_rate = s.gas_rate;
  demand.inlet_temperature = models_->ground.inlet_temperature;
  demand.rock_temperature = now_.rock_temperature;
  thermal::exchange_bottom_heat(bit.bottom_heat, now_.cooling, demand, shared, heat_);
  thermal::exchange_cutter_heat(bit.cutter_heat, bit.cooling, now_.cooling, touches_, cutting_heat(),
                                layout_.parts(x), shared, heat_, now_.heats);
  take_back(now_.heats.unmade.sum());

  thermal::BottomWater bottom;
  bottom.temperature = shared.fluid;
  bottom.share = water;
  bottom.full_capacity = s.fluid_capacity;
  bottom.full_mass = s.fluid_mass;
  bottom.heat_capacity = s.fluid.heat_capacity;
  bottom.liquid = s.liquid;
  bottom.boils = now_.cooling.boils;
  bottom.saturation = now_.cooling.water;
  bottom.inlet_temperature = models_->ground.inlet_temperature;
  bottom.pumped = s.fluid.density * slot.flow;
  bottom.below_level = x(layout_.depth()) - models_->ground.standing_level;
  bottom.packing = slot.packing;
  now_.water = thermal::bottom_water_rates(bit.bottom_water, bottom, heat_.into(thermal::fluid_store));
}

void DrillingSystem::put_heat_rates(const State& x, State& dxdt) const {
  const BitModels& bit = models_->bit;
  auto part_rates = layout_.parts(dxdt);
  for (Eigen::Index i = 0; i < layout_.cutters; ++i) {
    part_rates.row(i) = (heat_.into_parts(i) / now_.heats.capacity[static_cast<std::size_t>(i)]).transpose();
  }
  layout_.settled(dxdt) = (now_.heats.flat_temperature - layout_.settled(x)) / bit.settling_time;
  dxdt(layout_.body()) = heat_.into(thermal::body_store) / bit.bottom_heat.body_capacity;
  dxdt(layout_.fluid()) = now_.water.temperature;
  dxdt(layout_.warm()) = heat_.into(thermal::warm_rock_store) / warm_capacity_;
  dxdt(layout_.water()) = now_.water.share;
  dxdt(layout_.solids()) = now_.solids.rate.fraction;
  dxdt(layout_.plug()) = now_.solids.rate.plug;
}

void DrillingSystem::put_wear_rates(const State& x, State& dxdt) {
  const BitModels& bit = models_->bit;
  const cutting::CutterLoads& loads = now_.forces.loads;
  now_.contact_strength = interval_->resistance.contact_strength * loads.speed_strength;
  now_.specific_energy = interval_->resistance.specific_energy * loads.cut_strength;
  const wear::FlatLoads flats{worn_,
                              leached_share_,
                              loads.flat_mobilised,
                              now_.forces.whole_flat,
                              now_.forces.contact_area,
                              now_.forces.side_force,
                              now_.heats.flat_temperature,
                              now_.heats.flat_into_table,
                              now_.sliding_speed,
                              now_.contact_strength,
                              now_.specific_energy,
                              loads.area,
                              loads.diamond_area,
                              interval_->wear_coefficient_cold};
  wear::worn_height_rates(bit.wear, flats, ruined_, lost_, layout_.worn(dxdt).matrix().array());
  wear::heat_damage_rates(bit.wear, flats, ruined_, lost_, layout_.damage(dxdt).matrix().array());
  failure::edge_hazard_rates(bit.edges, {worn_, now_.heats.flat_temperature, layout_.damage(x), lost_},
                             now_.edge_cuts(), interval_->edge_ground, now_.chip_hazard_rate);
  layout_.chip_hazard(dxdt) = now_.chip_hazard_rate;
}

void DrillingSystem::put_body_rates(const State& x, State& dxdt) const {
  const BitModels& bit = models_->bit;
  const DrillingInterval& s = *interval_;
  wear::BodyLoads loads;
  loads.grain_speed = wear::grain_speed(now_.bottom.slot.slot_velocity, s.fluid.density, s.rock.density,
                                        now_.bottom.cuttings_size, 2.0 * bit.bit.bit_radius);
  loads.solids_fraction = x(layout_.solids());
  loads.rubbing_coefficient = s.rubbing_coefficient;
  loads.blade_weight = now_.forces.balance.blade_weight;
  loads.rubbing_radius = now_.forces.rubbing.contact_radius;
  loads.pad_force = now_.forces.pad_force;
  loads.rotary_speed = s.rotary_speed;
  const wear::BodyWearRates rates = wear::body_wear_rates(bit.body_wear, loads);
  dxdt(layout_.eroded()) = rates.eroded;
  dxdt(layout_.blade_wear()) = rates.blade;
  dxdt(layout_.pad_wear()) = rates.pad;
}

double DrillingSystem::longest_step(const State& slope) const {
  constexpr double seen_moving = 5.0, peak_seen = 0.5;  // K
  double most = std::numeric_limits<double>::infinity();
  if (!heat_.any_falls()) return most;
  const auto rates = layout_.parts(slope);
  for (Eigen::Index i = 0; i < layout_.cutters; ++i) {
    for (Eigen::Index k = 0; k < thermal::cutter_parts; ++k) {
      const double rate = rates(i, k);
      if (!(heat_.falling(i)(k) > 0.0) || rate == 0.0) continue;
      const double seen =
          rate < 0.0 ? std::clamp(heat_.from_peak(i)(k), peak_seen, seen_moving) : seen_moving;
      most = std::min(most, seen / std::abs(rate));
    }
  }
  return most;
}

void DrillingSystem::linearise() {
  const BitModels& bit = models_->bit;
  matrix_.linearise(
      heat_, {now_.heats.capacity, now_.heats.flat_follows, bit.settling_time,
              1.0 / bit.bottom_heat.body_capacity, 1.0 / warm_capacity_, now_.water, now_.solids.decay});
}

double DrillingSystem::stored_heat(const State& x, double T_zero) const {
  const BitModels& bit = models_->bit;
  const double water = std::max(x(layout_.water()), 0.0) + bit.bottom_water.dry_capacity_share;
  return thermal::heat_in_cutters(bit.cutter_heat, layout_.parts(x), T_zero) +
         bit.bottom_heat.body_capacity * (x(layout_.body()) - T_zero) +
         warm_capacity_ * (x(layout_.warm()) - T_zero) +
         interval_->fluid_capacity * water * (x(layout_.fluid()) - T_zero);
}

}  // namespace dullcast::simulation
