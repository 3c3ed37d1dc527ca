#include "engine/run/drilling_system.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "models/letters.hpp"
#include "models/outline.hpp"

namespace dullcast {
namespace {

/// Worn heights are kept where outlines exist. A lost cutter's stub stands there: far below its neighbours,
/// it meets rock only where they leave some.
constexpr double greatest_worn_share = 1.9;  // of the cutter's radius

/// Pads that stand back from the wall by a few times this leave the side force to the gauge cutters [asm].
constexpr double pad_seating = 1e-4;  // m

/// Contacts are taken no smaller than this where a side force presses them.
constexpr double least_contact_area = 1e-7;  // m2

}  // namespace

DrillingSystem::DrillingSystem(const RunModels& models)
    : models_(&models),
      layout_{models.bit.bit.count()},
      profile_(models.bit.bit, models.bit.edge, usual_spacing(models.bit.bit.shape)),
      surfaces_(models.bit.surfaces),
      matrix_(layout_),
      linear_(static_cast<std::size_t>(layout_.cutters)),
      to_fluid_(static_cast<std::size_t>(layout_.cutters), PartArray::Zero()) {
  const Eigen::Index n = layout_.cutters;
  instant_.loads.resize(n);
  for (auto* field : {&instant_.flat_heat,
                      &instant_.face_heat,
                      &instant_.flat_temperature,
                      &instant_.flat_into_table,
                      &instant_.face_into_table,
                      &instant_.flat_into_rock,
                      &instant_.face_into_chip,
                      &instant_.sliding_speed,
                      &instant_.tangential_force,
                      &instant_.normal_force,
                      &instant_.radial_force,
                      &instant_.convection,
                      &instant_.film,
                      &instant_.table_flux,
                      &instant_.carbide_flux,
                      &instant_.chip_hazard_rate,
                      &worn_,
                      &rubbing_worn_,
                      &carbide_share_,
                      &gauge_share_,
                      &side_force_}) {
    field->setZero(n);
  }
  for (Flags* flags : {&ruined_, &lost_}) flags->setConstant(n, false);
  gauge_share_ = gauge_cutters(models.bit.bit).cast<double>();
  for (Eigen::Index i = 0; i < n; ++i)
    unworn_reach_ = std::max(unworn_reach_, make_outline(models.bit.bit, i, 0.0).reach_outer);
  error_scale_.setConstant(layout_.size(), 100.0);
  layout_.settled(error_scale_) = 1000.0;
  error_scale_(layout_.water()) = error_scale_(layout_.solids()) = 0.1;
  error_scale_(layout_.plug()) = 1.0;
  layout_.worn(error_scale_) = 1e-3;
  layout_.damage(error_scale_) = 1.0;
  layout_.chip_hazard(error_scale_) = 1.0;
  error_scale_(layout_.depth()) = 1.0;
  for (const Eigen::Index wear : {layout_.eroded(), layout_.blade_wear(), layout_.pad_wear()})
    error_scale_(wear) = 1e-3;
  for (const Eigen::Index energy : {layout_.spent(), layout_.carried(), layout_.left_in_rock()})
    error_scale_(energy) = std::numeric_limits<double>::infinity();
}

void DrillingSystem::enter(const Stretch& stretch) {
  stretch_ = &stretch;
  resistance_ = stretch.resistance;
  // What was guessed and found before does not matter from here on, to the last bit.
  instant_.balance = {};
  rubbing_known_ = false;
  // The skin at rest: receding faster it is thinner and quicker, but then it is quick either way, and a
  // capacity that stays the same over a stretch keeps the ledger exact.
  warm_capacity_ = warm_rock(stretch.rock, models_->bit.hole_area, 0.0,
                             stretch.rotary_speed * models_->bit.bit.blades, warm_depth)
                       .capacity;
}

void DrillingSystem::set_blade_loss(double worn) {
  BitLayout bit = models_->bit.bit;
  bit.exposure += worn;
  surfaces_ = blade_surfaces(bit);
  rubbing_known_ = false;
}

double DrillingSystem::weight_at(double z) const {
  if (stretch_->weight_stated) return stretch_->stated_weight;
  return weight_on_bit(stretch_->pull_down,
                       buoyed_string_weight(models_->ground.string, z, stretch_->string_fluid_density),
                       stretch_->holdback);
}

void DrillingSystem::operator()(const State& x, State& dxdt, double /*t*/) {
  ++evaluations_;
  find_flow(x);
  balance_forces(x);
  find_lift();
  find_side_forces(x);
  find_cooling(x);
  share_heats(x);
  dxdt(layout_.depth()) = instant_.rate_of_penetration;
  wear_rates(x, dxdt);
  body_rates(x, dxdt);
  cleaning_rates(x, dxdt);
  heat_rates(x, dxdt);
}

void DrillingSystem::find_flow(const State& x) {
  const Stretch& s = *stretch_;
  solids_at_ = x(layout_.solids());
  instant_.slot = slot_flow(models_->bit.slots, s.fluid, s.flow_at_bit, solids_at_, 1.0);
  plug_at_ = x(layout_.plug());
  const double height = plug_over_bit(models_->bit.slots, 0.0, 0.0, plug_at_).height;
  resistance_.drilling_efficiency = s.resistance.drilling_efficiency *
                                    packed_efficiency(instant_.slot.packing, models_->bit.packed_share) *
                                    plugged_efficiency(height, 2.0 * models_->bit.bit.bit_radius);
}

void DrillingSystem::balance_forces(const State& x) {
  const BitModels& bit = models_->bit;
  const Stretch& s = *stretch_;
  const double most_worn = greatest_worn_share * bit.bit.shape.radius;
  worn_ = layout_.worn(x).max(0.0).min(most_worn);
  for (Eigen::Index i = 0; i < layout_.cutters; ++i) {
    carbide_share_(i) = carbide_pressure_share(bit.abrasion, layout_.settled(x)(i), ruined_(i));
    if (lost_(i)) worn_(i) = most_worn;
  }
  instant_.weight_asked = weight_at(x(layout_.depth()));
  if (instant_.weight_asked <= 0.0 && !(worn_.isNaN().any())) {
    lift_off();
    return;
  }
  profile_.update(worn_);
  const auto balance_now = [&] {
    instant_.balance = balance_weight(profile_, resistance_, bit.directions, carbide_share_,
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
  cutter_loads(profile_, resistance_, carbide_share_, balance.depth_of_cut, instant_.loads);
  instant_.torque = cutter_torque(instant_.loads, resistance_) +
                    bit.blade_friction * balance.blade_weight * instant_.rubbing.contact_radius;
  instant_.rate_of_penetration = balance.depth_of_cut * s.rotary_speed;
}

/// Off bottom nothing is cut and nothing bears. Rods are added often, so this saves the outlines' work.
void DrillingSystem::lift_off() {
  instant_.balance = {};
  CutterLoads& loads = instant_.loads;
  for (Eigen::ArrayXd* load :
       {&loads.area, &loads.area_moment, &loads.contact_force, &loads.contact_moment, &loads.contact_axial,
        &loads.contact_across, &loads.contact_area, &loads.engaged_width, &loads.flat_mobilised}) {
    load->setZero();
  }
  instant_.torque = instant_.rate_of_penetration = 0.0;
}

bool DrillingSystem::rubbing_is_far() const {
  // The limit moves by no more than a few times the wear since it was found. Far below it an old value
  // serves, and the answer (no blade bears) is the same to the last bit.
  constexpr double little_wear = 1e-5;  // m
  // At a limit of none the blades bear, and the least wear may free them.
  return rubbing_known_ && instant_.rubbing.depth_of_cut > 0.0 &&
         instant_.balance.depth_of_cut <= 0.5 * instant_.rubbing.depth_of_cut &&
         (worn_ - rubbing_worn_).abs().maxCoeff() < little_wear;
}

void DrillingSystem::find_rubbing() {
  instant_.rubbing = rubbing_limit(profile_, surfaces_);
  rubbing_worn_ = worn_;
  rubbing_known_ = true;
}

void DrillingSystem::find_lift() {
  const BitModels& bit = models_->bit;
  const Stretch& s = *stretch_;
  const double size = cuttings_size(instant_.balance.depth_of_cut / std::max(bit.bit.blades, 1));
  instant_.lifted_share =
      lifted_share(s.fluid, s.rock.density, size, bit.cuttings_spread, instant_.slot.annulus_velocity);
  instant_.cuttings_size = size;
  instant_.slot = slot_flow(bit.slots, s.fluid, s.flow_at_bit, solids_at_, instant_.lifted_share);
  instant_.plug = plug_over_bit(bit.slots, instant_.slot.flow, instant_.lifted_share, plug_at_);
}

void DrillingSystem::find_side_forces(const State& x) {
  const BitModels& bit = models_->bit;
  const Stretch& s = *stretch_;
  const CutterLoads& loads = instant_.loads;
  const double pressure = resistance_.specific_energy / resistance_.drilling_efficiency;
  instant_.tangential_force = pressure * loads.area + resistance_.flat_friction * loads.contact_force;
  instant_.normal_force = bit.directions.zeta * pressure * loads.area + loads.contact_force;
  // What does not push along the axis pushes across it: inward on the shoulder, outward in the cone.
  const Eigen::ArrayXd& cosine = bit.directions.tip_cosine;
  instant_.radial_force = bit.bit.profile_angle.sign() * bit.directions.zeta * pressure * loads.area *
                              (1.0 - cosine.square()).max(0.0).sqrt() +
                          loads.contact_across;
  instant_.lateral = lateral_imbalance(bit.bit, instant_.tangential_force, instant_.radial_force);
  // Gauge cutters that face the force share it with the pads, which take all of it until they have worn back
  // from the wall that the cutters leave.
  double facing = 0.0;
  for (Eigen::Index i = 0; i < layout_.cutters; ++i) {
    side_force_(i) = gauge_share_(i) * (lost_(i) ? 0.0 : 1.0) *
                     std::max(0.0, std::cos(bit.bit.azimuth(i) - instant_.lateral.direction));
    facing += side_force_(i);
  }
  const double clearance =
      pad_clearance(x(layout_.pad_wear()), std::max(0.0, unworn_reach_ - profile_.outer_radius()));
  const double pads = facing > 0.0 ? std::exp(-std::max(0.0, clearance) / pad_seating) : 1.0;
  instant_.pad_force = pads * instant_.lateral.force;
  side_force_ *= facing > 0.0 ? (1.0 - pads) * instant_.lateral.force / facing : 0.0;
  const double R = bit.bit.bit_radius;
  instant_.torque +=
      R * (bit.blade_friction * instant_.pad_force + resistance_.flat_friction * side_force_.sum());
  instant_.power =
      instant_.balance.weight * instant_.rate_of_penetration + instant_.torque * two_pi * s.rotary_speed;
}

void DrillingSystem::wear_rates(const State& x, State& dxdt) {
  const BitModels& bit = models_->bit;
  const Stretch& s = *stretch_;
  const CutterLoads& loads = instant_.loads;
  auto worn_rate = layout_.worn(dxdt), damage_rate = layout_.damage(dxdt);
  auto hazard_rate = layout_.chip_hazard(dxdt);
  for (Eigen::Index i = 0; i < layout_.cutters; ++i) {
    const double T_w = instant_.flat_temperature(i);
    const double acceleration =
        ruined_(i) ? bit.abrasion.carbide_ratio : heat_acceleration(bit.abrasion, T_w);
    const double whole_flat = profile_.flat_weight_total()(i);
    double mobilisation = whole_flat > 0.0 ? loads.flat_mobilised(i) / whole_flat : 0.0;
    const double side_area = std::max(loads.contact_area(i), least_contact_area);
    mobilisation += side_force_(i) / (resistance_.contact_strength * side_area) * (1.0 - mobilisation);
    const bool can_wear = !lost_(i) && worn_(i) < greatest_worn_share * bit.bit.shape.radius;
    worn_rate(i) = can_wear ? worn_height_rate(s.wear_coefficient_cold * acceleration,
                                               s.resistance.contact_strength, std::min(mobilisation, 1.0),
                                               instant_.sliding_speed(i), bit.bit.back_rake(i))
                            : 0.0;
    const double flux =
        loads.contact_area(i) > 0.0 ? instant_.flat_into_table(i) / loads.contact_area(i) : 0.0;
    // A ruined table cannot be ruined further; the integral stops so that it stays readable.
    damage_rate(i) = ruined_(i) || lost_(i)
                         ? 0.0
                         : table_damage_rate(bit.damage, T_w, flux, bit.bit.shape.leach_depth,
                                             bit.materials.table_conductivity);
    const CuttingEdge edge{bit.bit.back_rake(i), worn_(i), T_w, layout_.damage(x)(i)};
    const EdgeImpacts impacts{loads.engaged_width(i), loads.mean_depth(i), instant_.sliding_speed(i),
                              resistance_.specific_energy, s.inclusions};
    instant_.chip_hazard_rate(i) = lost_(i) ? 0.0 : chip_hazard_rate(bit.chips, bit.bit.shape, edge, impacts);
    hazard_rate(i) = instant_.chip_hazard_rate(i);
  }
}

void DrillingSystem::body_rates(const State& x, State& dxdt) {
  const BitModels& bit = models_->bit;
  const Stretch& s = *stretch_;
  const double omega = two_pi * s.rotary_speed;
  const double grains = grain_speed(instant_.slot.slot_velocity, s.fluid.density, s.rock.density,
                                    instant_.cuttings_size, 2.0 * bit.bit.bit_radius);
  dxdt(layout_.eroded()) =
      erosion_rate(bit.erosion_coefficient, grains, x(layout_.solids()), bit.erosion_resistance);
  dxdt(layout_.blade_wear()) = rubbing_wear_rate(s.rubbing_coefficient, instant_.balance.blade_weight,
                                                 bit.blade_area, omega * instant_.rubbing.contact_radius);
  dxdt(layout_.pad_wear()) =
      rubbing_wear_rate(s.rubbing_coefficient, instant_.pad_force, bit.pad_area, omega * bit.bit.bit_radius);
}

void DrillingSystem::cleaning_rates(const State& x, State& dxdt) {
  const Slots& slots = models_->bit.slots;
  const SlotFlow& slot = instant_.slot;
  const double held_back = instant_.plug.blocks * (slot.out - slot.overflow);
  dxdt(layout_.solids()) =
      solids_rate(slots, slot, x(layout_.solids()), instant_.rate_of_penetration * models_->bit.hole_area) +
      held_back;
  dxdt(layout_.plug()) = slot.overflow / slots.packed_fraction - instant_.plug.flushed;
}

void DrillingSystem::linearise() {
  matrix_.linearise(models_->bit, linear_, hole_, settling_time);
}

}  // namespace dullcast
