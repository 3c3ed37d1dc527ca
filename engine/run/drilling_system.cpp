#include "engine/run/drilling_system.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "models/heat.hpp"
#include "models/letters.hpp"

namespace dullcast {
namespace {

/// The share of load on carbide follows the flat's temperature with this lag: the time in which the diamond
/// next to a flat warms, and the shortest time that the network resolves. It unties "force makes heat" from
/// "heat shares force" within one evaluation [asm].
constexpr double settling_time = 0.05;  // s

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

/// Water does not boil at or above this pressure [pub: IAPWS R7-97(2012)].
constexpr double critical_pressure = 22.064e6;  // Pa

/// Worn heights are kept where outlines exist.
constexpr double greatest_worn_share = 1.9;  // of the cutter's radius

}  // namespace

DrillingSystem::DrillingSystem(const RunModels& models)
    : models_(&models),
      layout_{models.bit.bit.count()},
      profile_(models.bit.bit, models.bit.edge, usual_spacing(models.bit.bit.shape)),
      matrix_(layout_),
      linear_(static_cast<std::size_t>(layout_.cutters)) {
  const Eigen::Index n = layout_.cutters;
  instant_.loads.resize(n);
  for (auto* field :
       {&instant_.flat_heat, &instant_.face_heat, &instant_.flat_temperature, &instant_.flat_into_table,
        &instant_.face_into_table, &instant_.flat_into_rock, &instant_.face_into_chip,
        &instant_.sliding_speed, &worn_, &rubbing_worn_, &carbide_share_}) {
    field->setZero(n);
  }
  ruined_.setConstant(n, false);
  error_scale_.setConstant(layout_.size(), 100.0);
  layout_.settled(error_scale_) = 1000.0;
  layout_.worn(error_scale_) = 1e-3;
  layout_.damage(error_scale_) = 1.0;
  error_scale_(layout_.depth()) = 1.0;
  for (const Eigen::Index energy : {layout_.spent(), layout_.carried(), layout_.left_in_rock()}) {
    error_scale_(energy) = std::numeric_limits<double>::infinity();
  }
}

void DrillingSystem::enter(const Stretch& stretch) {
  stretch_ = &stretch;
}

double DrillingSystem::weight_at(double z) const {
  if (stretch_->weight_stated) return stretch_->stated_weight;
  return weight_on_bit(stretch_->pull_down,
                       buoyed_string_weight(models_->ground.string, z, stretch_->string_fluid_density),
                       stretch_->holdback);
}

void DrillingSystem::operator()(const State& x, State& dxdt, double /*t*/) {
  ++evaluations_;
  balance_forces(x);
  share_heats(x);
  dxdt(layout_.depth()) = instant_.rate_of_penetration;
  wear_rates(dxdt);
  heat_rates(x, dxdt);
}

void DrillingSystem::balance_forces(const State& x) {
  const BitModels& bit = models_->bit;
  const Stretch& s = *stretch_;
  worn_ = layout_.worn(x).max(0.0).min(greatest_worn_share * bit.bit.shape.radius);
  for (Eigen::Index i = 0; i < layout_.cutters; ++i) {
    carbide_share_(i) = carbide_pressure_share(bit.abrasion, layout_.settled(x)(i), ruined_(i));
  }
  profile_.update(worn_);
  instant_.weight_asked = weight_at(x(layout_.depth()));
  const auto balance_now = [&] {
    instant_.balance = balance_weight(profile_, s.resistance, bit.directions, carbide_share_,
                                      instant_.weight_asked, s.most_depth_of_cut, instant_.rubbing,
                                      instant_.balance.depth_of_cut, instant_.balance.force_slope);
  };
  const bool old_limit_will_do = rubbing_is_far();
  if (!old_limit_will_do) find_rubbing();
  balance_now();
  // A softer rock or more weight may have brought the blades near after all.
  if (old_limit_will_do && !rubbing_is_far()) {
    find_rubbing();
    balance_now();
  }
  const Balance& balance = instant_.balance;
  cutter_loads(profile_, s.resistance, carbide_share_, balance.depth_of_cut, instant_.loads);
  instant_.torque = cutter_torque(instant_.loads, s.resistance) +
                    bit.blade_friction * balance.blade_weight * instant_.rubbing.contact_radius;
  instant_.rate_of_penetration = balance.depth_of_cut * s.rotary_speed;
  instant_.power = balance.weight * instant_.rate_of_penetration + instant_.torque * two_pi * s.rotary_speed;
}

bool DrillingSystem::rubbing_is_far() const {
  // The limit moves by no more than a few times the wear since it was found. Far below it an old value
  // serves, and the answer (no blade bears) is the same to the last bit.
  constexpr double little_wear = 1e-5;  // m
  return rubbing_known_ && instant_.balance.depth_of_cut <= 0.5 * instant_.rubbing.depth_of_cut &&
         (worn_ - rubbing_worn_).abs().maxCoeff() < little_wear;
}

void DrillingSystem::find_rubbing() {
  instant_.rubbing = rubbing_limit(profile_, models_->bit.surfaces);
  rubbing_worn_ = worn_;
  rubbing_known_ = true;
}

void DrillingSystem::share_heats(const State& x) {
  const BitModels& bit = models_->bit;
  const Stretch& s = *stretch_;
  const CutterLoads& loads = instant_.loads;
  const double omega = two_pi * s.rotary_speed;
  instant_.rock_temperature = models_->ground.rock_temperature(x(layout_.depth()));
  instant_.sliding_speed = omega * bit.bit.radius;
  instant_.flat_heat = s.resistance.flat_friction * omega * loads.contact_moment;
  instant_.face_heat = bit.chip_speed_share * s.resistance.specific_energy * omega *
                       bit.directions.chip_friction * loads.area_moment;
  for (Eigen::Index i = 0; i < layout_.cutters; ++i) {
    const CutterNetwork& network = s.networks[static_cast<std::size_t>(i)];
    const CutterHeating heating{instant_.flat_heat(i),
                                instant_.face_heat(i),
                                loads.contact_area(i),
                                loads.engaged_width(i),
                                loads.area(i),
                                instant_.sliding_speed(i),
                                bit.chip_speed_share * instant_.sliding_speed(i),
                                bit.bit.back_rake(i)};
    const CutterContacts contacts = cutter_contacts(network, heating, s.rock);
    const double table = layout_.table(x)(i);
    const SharedHeat flat = share_heat(heating.flat_heat, contacts.flat_spot, contacts.flat_rock, table,
                                       instant_.rock_temperature);
    const SharedHeat face = share_heat(heating.face_heat, contacts.face_spot, contacts.face_rock, table,
                                       instant_.rock_temperature);
    instant_.flat_temperature(i) = flat.temperature;
    instant_.flat_into_table(i) = flat.into_table;
    instant_.flat_into_rock(i) = flat.into_rock;
    instant_.face_into_table(i) = face.into_table;
    instant_.face_into_chip(i) = face.into_rock;
    const auto in_series = [](double first, double second) {
      return first + second > 0.0 ? first * second / (first + second) : 0.0;
    };
    ThermalMatrix::Cutter& linear = linear_[static_cast<std::size_t>(i)];
    linear.table_capacity = network.table_mass * diamond_heat_capacity(table);
    linear.flat_to_rock = in_series(contacts.flat_spot, contacts.flat_rock);
    linear.face_to_chip = in_series(contacts.face_spot, contacts.face_rock);
    const double flat_sum = contacts.flat_spot + contacts.flat_rock;
    linear.flat_follows = flat_sum > 0.0 ? contacts.flat_spot / flat_sum : 1.0;
  }
}

double DrillingSystem::saturation_at(double z) const {
  const double pressure =
      bottom_hole_pressure(stretch_->string_fluid_density, models_->ground.standing_level, z);
  // Trial steps look far below the hole's end, so this deep is no error.
  return pressure < critical_pressure ? saturation_temperature(pressure)
                                      : std::numeric_limits<double>::infinity();
}

double DrillingSystem::near_boiling(const State& x) const {
  if (!stretch_->can_boil) return -std::numeric_limits<double>::max();
  return x(layout_.fluid()) - (saturation_at(x(layout_.depth())) - boiling_band);
}

void DrillingSystem::heat_rates(const State& x, State& dxdt) {
  const Stretch& s = *stretch_;
  const double body = x(layout_.body()), fluid = x(layout_.fluid());
  const auto table = layout_.table(x), carbide = layout_.carbide(x);
  auto table_rate = layout_.table(dxdt), carbide_rate = layout_.carbide(dxdt),
       settled_rate = layout_.settled(dxdt);
  double into_body = s.body_to_fluid * (fluid - body);
  double into_fluid = instant_.power - into_body;
  double into_rock = 0.0;
  for (Eigen::Index i = 0; i < layout_.cutters; ++i) {
    const CutterNetwork& n = s.networks[static_cast<std::size_t>(i)];
    const double friction_in = instant_.flat_into_table(i) + instant_.face_into_table(i);
    const double to_carbide = n.table_to_carbide * (table(i) - carbide(i));
    const double to_fluid = n.table_to_fluid * (table(i) - fluid),
                 to_fluid_behind = n.carbide_to_fluid * (carbide(i) - fluid);
    const double to_body = n.table_to_body * (table(i) - body),
                 to_body_behind = n.carbide_to_body * (carbide(i) - body);
    table_rate(i) =
        (friction_in - to_carbide - to_fluid - to_body) / linear_[static_cast<std::size_t>(i)].table_capacity;
    carbide_rate(i) = (to_carbide - to_fluid_behind - to_body_behind) / n.carbide_capacity;
    settled_rate(i) = (instant_.flat_temperature(i) - layout_.settled(x)(i)) / settling_time;
    into_body += to_body + to_body_behind;
    into_rock += instant_.flat_into_rock(i);
    // Work that is neither in a cutter nor left in the rock leaves with cuttings and fluid.
    into_fluid += to_fluid + to_fluid_behind - friction_in - instant_.flat_into_rock(i);
  }
  const double carried = s.fluid_flow_capacity * (fluid - models_->ground.inlet_temperature) +
                         s.fluid_to_wall * (fluid - instant_.rock_temperature);
  const double surplus = into_fluid - carried;
  kept_share_ = 1.0;
  boiling_slope_ = 0.0;
  if (s.can_boil && surplus > 0.0) {
    const KeptShare kept = kept_share(fluid, saturation_at(x(layout_.depth())));
    kept_share_ = kept.value;
    boiling_slope_ = -surplus * kept.slope / s.fluid_capacity;
  }
  dxdt(layout_.body()) = into_body / models_->bit.body_capacity;
  dxdt(layout_.fluid()) = kept_share_ * surplus / s.fluid_capacity;
  dxdt(layout_.spent()) = instant_.power;
  dxdt(layout_.carried()) = carried + (1.0 - kept_share_) * surplus;
  dxdt(layout_.left_in_rock()) = into_rock;
}

void DrillingSystem::wear_rates(State& dxdt) {
  const BitModels& bit = models_->bit;
  const Stretch& s = *stretch_;
  const CutterLoads& loads = instant_.loads;
  auto worn_rate = layout_.worn(dxdt), damage_rate = layout_.damage(dxdt);
  for (Eigen::Index i = 0; i < layout_.cutters; ++i) {
    const double T_w = instant_.flat_temperature(i);
    const double acceleration =
        ruined_(i) ? bit.abrasion.carbide_ratio : heat_acceleration(bit.abrasion, T_w);
    const double whole_flat = profile_.flat_weight_total()(i);
    const double mobilisation = whole_flat > 0.0 ? loads.flat_mobilised(i) / whole_flat : 0.0;
    const bool can_wear = worn_(i) < greatest_worn_share * bit.bit.shape.radius;
    worn_rate(i) =
        can_wear ? worn_height_rate(s.wear_coefficient_cold * acceleration, s.resistance.contact_strength,
                                    mobilisation, instant_.sliding_speed(i), bit.bit.back_rake(i))
                 : 0.0;
    const double flux =
        loads.contact_area(i) > 0.0 ? instant_.flat_into_table(i) / loads.contact_area(i) : 0.0;
    // A ruined table cannot be ruined further; the integral stops so that it stays readable.
    damage_rate(i) = ruined_(i) ? 0.0
                                : table_damage_rate(bit.damage, T_w, flux, bit.bit.shape.leach_depth,
                                                    bit.materials.table_conductivity);
  }
}

void DrillingSystem::linearise() {
  matrix_.linearise(*stretch_, models_->bit, linear_, std::max(kept_share_, 1e-6), boiling_slope_,
                    settling_time);
}

double DrillingSystem::stored_heat(const State& x, double T_zero) const {
  double heat = models_->bit.body_capacity * (x(layout_.body()) - T_zero) +
                stretch_->fluid_capacity * (x(layout_.fluid()) - T_zero);
  for (Eigen::Index i = 0; i < layout_.cutters; ++i) {
    const CutterNetwork& n = stretch_->networks[static_cast<std::size_t>(i)];
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
