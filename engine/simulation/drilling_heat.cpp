// The heat of the drilling system: what friction makes, where it goes, and how the fluid takes it up.
#include <algorithm>
#include <cmath>

#include "engine/simulation/drilling_system.hpp"
#include "models/common/constants.hpp"
#include "models/thermal/boiling_curve.hpp"
#include "models/thermal/heat.hpp"
#include "models/thermal/pool.hpp"

namespace dullcast::simulation {
namespace {

/// With less than this of the surfaces wetted one speaks of dry, not of a film.
constexpr double least_wetted = 0.05;

}  // namespace

void DrillingSystem::share_heats(const State& x) {
  const BitModels& bit = models_->bit;
  const DrillingInterval& s = *interval_;
  const cutting::CutterLoads& loads = evaluation_.loads;
  const double omega = two_pi * s.rotary_speed, fluid = x(layout_.fluid()), rock = x(layout_.warm());
  evaluation_.rock_temperature = models_->ground.rock_temperature(x(layout_.depth()));
  evaluation_.sliding_speed = omega * bit.bit.radius;
  evaluation_.flat_heat =
      s.resistance.flat_friction * (omega * loads.contact_moment + omega * bit.bit.bit_radius * side_force_);
  evaluation_.face_heat = bit.chip_speed_share * s.resistance.specific_energy * omega *
                          bit.directions.chip_friction * loads.area_moment;
  for (Eigen::Index i = 0; i < layout_.cutters; ++i) {
    const thermal::CutterHeating heating{evaluation_.flat_heat(i),
                                         evaluation_.face_heat(i),
                                         loads.contact_area(i),
                                         loads.engaged_width(i),
                                         loads.area(i),
                                         evaluation_.sliding_speed(i),
                                         bit.chip_speed_share * evaluation_.sliding_speed(i),
                                         bit.bit.back_rake(i)};
    const thermal::CutterContacts contacts = thermal::cutter_contacts(bit.network, heating, s.rock);
    const thermal::PartArray parts = layout_.parts(x, i);
    const double table = parts(thermal::table_near);
    const thermal::SharedHeat flat =
        thermal::share_heat(heating.flat_heat, contacts.flat_spot, contacts.flat_rock, table, rock);
    const thermal::SharedHeat face =
        thermal::share_heat(heating.face_heat, contacts.face_spot, contacts.face_rock, table, rock);
    evaluation_.flat_temperature(i) = flat.temperature;
    evaluation_.flat_into_table(i) = flat.into_table;
    evaluation_.flat_into_rock(i) = flat.into_rock;
    evaluation_.face_into_table(i) = face.into_table;
    evaluation_.face_into_chip(i) = face.into_rock;
    const auto in_series = [](double first, double second) {
      return first + second > 0.0 ? first * second / (first + second) : 0.0;
    };
    ThermalMatrix::Cutter& linear = linear_[static_cast<std::size_t>(i)];
    // As a whole, since a wild temperature throws.
    linear.capacity = thermal::PartArray(
        bit.network.table_mass(0) * thermal::diamond_heat_capacity(table),
        bit.network.table_mass(1) * thermal::diamond_heat_capacity(parts(thermal::table_rest)),
        bit.network.carbide_capacity(0), bit.network.carbide_capacity(1));
    linear.links = thermal::cutter_links(bit.network, {heating.contact_area, heating.engaged_width});
    linear.flat_to_rock = in_series(contacts.flat_spot, contacts.flat_rock);
    linear.face_to_chip = in_series(contacts.face_spot, contacts.face_rock);
    const double flat_sum = contacts.flat_spot + contacts.flat_rock;
    linear.flat_follows = flat_sum > 0.0 ? contacts.flat_spot / flat_sum : 1.0;
    thermal::PartArray& lost = to_fluid_[static_cast<std::size_t>(i)];
    for (Eigen::Index k = 0; k < thermal::cutter_parts; ++k) {
      const SurfaceHeat surface = surface_heat(parts(k), fluid, evaluation_.convection(i));
      const double area = linear.links.fluid_area(k);
      lost(k) = area * surface.flux;
      linear.to_fluid(k) = area * surface.surface_slope;
      linear.from_fluid(k) = area * surface.fluid_slope;
      if (k == thermal::table_near) {
        evaluation_.table_flux(i) = surface.flux;
        // Where no water is left there is no film either.
        evaluation_.film(i) =
            surface.regime == thermal::BoilingRegime::film && evaluation_.wetted_share > least_wetted ? 1.0
                                                                                                      : 0.0;
      }
      if (k == thermal::carbide_near) evaluation_.carbide_flux(i) = surface.flux;
    }
  }
}

void DrillingSystem::heat_rates(const State& x, State& dxdt) {
  const BitModels& bit = models_->bit;
  const thermal::CutterNetwork& n = bit.network;
  const DrillingInterval& s = *interval_;
  const double body = x(layout_.body()), fluid = x(layout_.fluid()), warm = x(layout_.warm());
  const double rock = evaluation_.rock_temperature, inlet = models_->ground.inlet_temperature;
  auto settled_rate = layout_.settled(dxdt);

  warm_ = thermal::warm_rock(s.rock, bit.hole_area, evaluation_.rate_of_penetration,
                             s.rotary_speed * bit.bit.blades, warm_depth);
  hole_.body_to_fluid = body_convection_ * bit.body_wetted_area;
  hole_.warm_to_fluid = bottom_convection_ * bit.hole_area;
  hole_.warm_by_cuttings = warm_.to_cuttings;
  hole_.warm_to_rock = warm_.to_rock;
  hole_.warm_capacity = warm_capacity_;

  const double bottom_to_fluid = hole_.warm_to_fluid * (warm - fluid);
  const double with_cuttings = warm_.to_cuttings * (warm - rock);
  double into_body = hole_.body_to_fluid * (fluid - body);
  double into_fluid = evaluation_.power - into_body + bottom_to_fluid + with_cuttings;
  double into_warm = -bottom_to_fluid - with_cuttings - warm_.to_rock * (warm - rock);
  for (Eigen::Index i = 0; i < layout_.cutters; ++i) {
    const double friction_in = evaluation_.flat_into_table(i) + evaluation_.face_into_table(i);
    const ThermalMatrix::Cutter& linear = linear_[static_cast<std::size_t>(i)];
    const thermal::PartArray parts = layout_.parts(x, i);
    const thermal::PartArray& to_fluid = to_fluid_[static_cast<std::size_t>(i)];
    const thermal::PartArray to_body = n.to_body * (parts - body);
    const thermal::CutterLinks& links = linear.links;
    const double in_table = links.tables * (parts(thermal::table_near) - parts(thermal::table_rest));
    const double in_front = links.fronts * (parts(thermal::table_near) - parts(thermal::carbide_near));
    const double in_rest = links.rests * (parts(thermal::table_rest) - parts(thermal::carbide_rest));
    const double in_carbide = links.carbides * (parts(thermal::carbide_near) - parts(thermal::carbide_rest));
    const thermal::PartArray inside(friction_in - in_table - in_front, in_table - in_rest,
                                    in_front - in_carbide, in_rest + in_carbide);
    const thermal::PartArray rates = (inside - to_fluid - to_body) / linear.capacity;
    for (Eigen::Index k = 0; k < thermal::cutter_parts; ++k) dxdt(k * layout_.cutters + i) = rates(k);
    settled_rate(i) = (evaluation_.flat_temperature(i) - layout_.settled(x)(i)) / settling_time;
    into_body += to_body.sum();
    into_warm += evaluation_.flat_into_rock(i);
    // Work that is neither in a cutter nor left in the rock leaves with cuttings and fluid.
    into_fluid += to_fluid.sum() - friction_in - evaluation_.flat_into_rock(i);
  }
  // Fluid, wall and the cuttings that leave at the fluid's temperature; mist takes up its latent heat.
  const double flow_capacity = s.fluid.density * s.fluid.heat_capacity * evaluation_.slot.flow;
  const thermal::SurfaceFlux mist =
      s.mist_rate > 0.0 ? thermal::mist_cooling(s.mist_rate, s.gas_rate, fluid, inlet, standard_atmosphere)
                        : thermal::SurfaceFlux{};
  hole_.carried = flow_capacity + s.fluid_to_wall + warm_.to_cuttings + mist.slope;
  const double to_ground = s.fluid_to_wall * (fluid - rock) + warm_.to_cuttings * (fluid - rock) + mist.flux;
  const double surplus = into_fluid - flow_capacity * (fluid - inlet) - to_ground;
  dxdt(layout_.body()) = into_body / bit.body_capacity;
  dxdt(layout_.warm()) = into_warm / warm_capacity_;
  dxdt(layout_.spent()) = evaluation_.power;
  dxdt(layout_.carried()) = to_ground;
  dxdt(layout_.left_in_rock()) = warm_.to_rock * (warm - rock);
  water_rates(x, surplus, flow_capacity, dxdt);
}

double DrillingSystem::stored_heat(const State& x, double T_zero) const {
  const BitModels& bit = models_->bit;
  const thermal::CutterNetwork& n = bit.network;
  const double water = std::max(x(layout_.water()), 0.0) + dry_capacity_share;
  double heat = bit.body_capacity * (x(layout_.body()) - T_zero) +
                warm_capacity_ * (x(layout_.warm()) - T_zero) +
                interval_->fluid_capacity * water * (x(layout_.fluid()) - T_zero);
  // The table's heat capacity is integrated by trapezoids of a kelvin, far finer than its curve.
  const auto diamond_heat = [T_zero](double T) {
    const double rise = T - T_zero;
    const int slices = 1 + static_cast<int>(std::abs(rise));
    double sum =
        0.5 * (thermal::diamond_heat_capacity(T_zero) + thermal::diamond_heat_capacity(T_zero + rise));
    for (int k = 1; k < slices; ++k) sum += thermal::diamond_heat_capacity(T_zero + rise * k / slices);
    return sum * rise / slices;
  };
  for (Eigen::Index i = 0; i < layout_.cutters; ++i) {
    const thermal::PartArray parts = layout_.parts(x, i);
    heat += n.table_mass(0) * diamond_heat(parts(thermal::table_near)) +
            n.table_mass(1) * diamond_heat(parts(thermal::table_rest)) +
            (n.carbide_capacity * (parts.tail<2>() - T_zero)).sum();
  }
  return heat;
}

}  // namespace dullcast::simulation
