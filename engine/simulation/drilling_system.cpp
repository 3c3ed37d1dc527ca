#include "engine/simulation/drilling_system.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "models/common/constants.hpp"
#include "models/geometry/outline.hpp"

namespace dullcast::simulation {
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
      profile_(models.bit.bit, models.bit.edge, geometry::usual_spacing(models.bit.bit.shape)),
      surfaces_(models.bit.surfaces),
      matrix_(layout_),
      linear_(static_cast<std::size_t>(layout_.cutters)),
      to_fluid_(static_cast<std::size_t>(layout_.cutters), thermal::PartArray::Zero()) {
  const Eigen::Index n = layout_.cutters;
  evaluation_.loads.resize(n);
  for (auto* field : {&evaluation_.flat_heat,
                      &evaluation_.face_heat,
                      &evaluation_.flat_temperature,
                      &evaluation_.flat_into_table,
                      &evaluation_.face_into_table,
                      &evaluation_.flat_into_rock,
                      &evaluation_.face_into_chip,
                      &evaluation_.sliding_speed,
                      &evaluation_.tangential_force,
                      &evaluation_.normal_force,
                      &evaluation_.radial_force,
                      &evaluation_.convection,
                      &evaluation_.film,
                      &evaluation_.table_flux,
                      &evaluation_.carbide_flux,
                      &evaluation_.chip_hazard_rate,
                      &worn_,
                      &rubbing_worn_,
                      &carbide_share_,
                      &gauge_share_,
                      &side_force_}) {
    field->setZero(n);
  }
  for (Flags* flags : {&ruined_, &lost_}) flags->setConstant(n, false);
  gauge_share_ = wear::gauge_cutters(models.bit.bit).cast<double>();
  for (Eigen::Index i = 0; i < n; ++i)
    unworn_reach_ = std::max(unworn_reach_, geometry::make_outline(models.bit.bit, i, 0.0).reach_outer);
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

void DrillingSystem::enter(const DrillingInterval& stretch) {
  interval_ = &stretch;
  resistance_ = stretch.resistance;
  // What was guessed and found before does not matter from here on, to the last bit.
  evaluation_.balance = {};
  rubbing_known_ = false;
  // The skin at rest: receding faster it is thinner and quicker, but then it is quick either way, and a
  // capacity that stays the same over a stretch keeps the ledger exact.
  warm_capacity_ = thermal::warm_rock(stretch.rock, models_->bit.hole_area, 0.0,
                                      stretch.rotary_speed * models_->bit.bit.blades, warm_depth)
                       .capacity;
}

void DrillingSystem::set_blade_loss(double worn) {
  geometry::BitLayout bit = models_->bit.bit;
  bit.exposure += worn;
  surfaces_ = cutting::blade_surfaces(bit);
  rubbing_known_ = false;
}

double DrillingSystem::weight_at(double z) const {
  if (interval_->weight_stated) return interval_->stated_weight;
  return cutting::weight_on_bit(
      interval_->pull_down,
      cutting::buoyed_string_weight(models_->ground.string, z, interval_->string_fluid_density),
      interval_->holdback);
}

void DrillingSystem::operator()(const State& x, State& dxdt, double /*t*/) {
  ++evaluations_;
  find_flow(x);
  balance_forces(x);
  find_lift();
  find_side_forces(x);
  find_cooling(x);
  share_heats(x);
  dxdt(layout_.depth()) = evaluation_.rate_of_penetration;
  wear_rates(x, dxdt);
  body_rates(x, dxdt);
  cleaning_rates(x, dxdt);
  heat_rates(x, dxdt);
}

void DrillingSystem::find_flow(const State& x) {
  const DrillingInterval& s = *interval_;
  solids_at_ = x(layout_.solids());
  evaluation_.slot = hydraulics::slot_flow(models_->bit.slots, s.fluid, s.flow_at_bit, solids_at_, 1.0);
  plug_at_ = x(layout_.plug());
  const double height = hydraulics::plug_over_bit(models_->bit.slots, 0.0, 0.0, plug_at_).height;
  resistance_.drilling_efficiency =
      s.resistance.drilling_efficiency *
      hydraulics::packed_efficiency(evaluation_.slot.packing, models_->bit.packed_share) *
      hydraulics::plugged_efficiency(height, 2.0 * models_->bit.bit.bit_radius);
}

void DrillingSystem::balance_forces(const State& x) {
  const BitModels& bit = models_->bit;
  const DrillingInterval& s = *interval_;
  const double most_worn = greatest_worn_share * bit.bit.shape.radius;
  worn_ = layout_.worn(x).max(0.0).min(most_worn);
  for (Eigen::Index i = 0; i < layout_.cutters; ++i) {
    carbide_share_(i) = wear::carbide_pressure_share(bit.abrasion, layout_.settled(x)(i), ruined_(i));
    if (lost_(i)) worn_(i) = most_worn;
  }
  evaluation_.weight_asked = weight_at(x(layout_.depth()));
  if (evaluation_.weight_asked <= 0.0 && !(worn_.isNaN().any())) {
    lift_off();
    return;
  }
  profile_.update(worn_);
  const auto balance_now = [&] {
    evaluation_.balance = cutting::balance_weight(
        profile_, resistance_, bit.directions, carbide_share_, evaluation_.weight_asked, s.most_depth_of_cut,
        evaluation_.rubbing, evaluation_.balance.depth_of_cut, evaluation_.balance.force_slope);
  };
  const bool old_limit_will_do = rubbing_is_far();
  if (!old_limit_will_do) find_rubbing();
  balance_now();
  // A softer rock or more weight may have brought the blades near after all.
  if (old_limit_will_do && !rubbing_is_far()) {
    find_rubbing();
    balance_now();
  }
  const cutting::Balance& balance = evaluation_.balance;
  cutting::cutter_loads(profile_, resistance_, carbide_share_, balance.depth_of_cut, evaluation_.loads);
  evaluation_.torque = cutting::cutter_torque(evaluation_.loads, resistance_) +
                       bit.blade_friction * balance.blade_weight * evaluation_.rubbing.contact_radius;
  evaluation_.rate_of_penetration = balance.depth_of_cut * s.rotary_speed;
}

/// Off bottom nothing is cut and nothing bears. Rods are added often, so this saves the outlines' work.
void DrillingSystem::lift_off() {
  evaluation_.balance = {};
  cutting::CutterLoads& loads = evaluation_.loads;
  for (Eigen::ArrayXd* load :
       {&loads.area, &loads.area_moment, &loads.contact_force, &loads.contact_moment, &loads.contact_axial,
        &loads.contact_across, &loads.contact_area, &loads.engaged_width, &loads.flat_mobilised}) {
    load->setZero();
  }
  evaluation_.torque = evaluation_.rate_of_penetration = 0.0;
}

bool DrillingSystem::rubbing_is_far() const {
  // The limit moves by no more than a few times the wear since it was found. Far below it an old value
  // serves, and the answer (no blade bears) is the same to the last bit.
  constexpr double little_wear = 1e-5;  // m
  // At a limit of none the blades bear, and the least wear may free them.
  return rubbing_known_ && evaluation_.rubbing.depth_of_cut > 0.0 &&
         evaluation_.balance.depth_of_cut <= 0.5 * evaluation_.rubbing.depth_of_cut &&
         (worn_ - rubbing_worn_).abs().maxCoeff() < little_wear;
}

void DrillingSystem::find_rubbing() {
  evaluation_.rubbing = cutting::rubbing_limit(profile_, surfaces_);
  rubbing_worn_ = worn_;
  rubbing_known_ = true;
}

void DrillingSystem::find_lift() {
  const BitModels& bit = models_->bit;
  const DrillingInterval& s = *interval_;
  const double size =
      hydraulics::cuttings_size(evaluation_.balance.depth_of_cut / std::max(bit.bit.blades, 1));
  evaluation_.lifted_share = hydraulics::lifted_share(s.fluid, s.rock.density, size, bit.cuttings_spread,
                                                      evaluation_.slot.annulus_velocity);
  evaluation_.cuttings_size = size;
  evaluation_.slot =
      hydraulics::slot_flow(bit.slots, s.fluid, s.flow_at_bit, solids_at_, evaluation_.lifted_share);
  evaluation_.plug =
      hydraulics::plug_over_bit(bit.slots, evaluation_.slot.flow, evaluation_.lifted_share, plug_at_);
}

void DrillingSystem::find_side_forces(const State& x) {
  const BitModels& bit = models_->bit;
  const DrillingInterval& s = *interval_;
  const cutting::CutterLoads& loads = evaluation_.loads;
  const double pressure = resistance_.specific_energy / resistance_.drilling_efficiency;
  evaluation_.tangential_force = pressure * loads.area + resistance_.flat_friction * loads.contact_force;
  evaluation_.normal_force = bit.directions.zeta * pressure * loads.area + loads.contact_force;
  // What does not push along the axis pushes across it: inward on the shoulder, outward in the cone.
  const Eigen::ArrayXd& cosine = bit.directions.tip_cosine;
  evaluation_.radial_force = bit.bit.profile_angle.sign() * bit.directions.zeta * pressure * loads.area *
                                 (1.0 - cosine.square()).max(0.0).sqrt() +
                             loads.contact_across;
  evaluation_.lateral =
      wear::lateral_imbalance(bit.bit, evaluation_.tangential_force, evaluation_.radial_force);
  // Gauge cutters that face the force share it with the pads, which take all of it until they have worn back
  // from the wall that the cutters leave.
  double facing = 0.0;
  for (Eigen::Index i = 0; i < layout_.cutters; ++i) {
    side_force_(i) = gauge_share_(i) * (lost_(i) ? 0.0 : 1.0) *
                     std::max(0.0, std::cos(bit.bit.azimuth(i) - evaluation_.lateral.direction));
    facing += side_force_(i);
  }
  const double clearance =
      wear::pad_clearance(x(layout_.pad_wear()), std::max(0.0, unworn_reach_ - profile_.outer_radius()));
  const double pads = facing > 0.0 ? std::exp(-std::max(0.0, clearance) / pad_seating) : 1.0;
  evaluation_.pad_force = pads * evaluation_.lateral.force;
  side_force_ *= facing > 0.0 ? (1.0 - pads) * evaluation_.lateral.force / facing : 0.0;
  const double R = bit.bit.bit_radius;
  evaluation_.torque +=
      R * (bit.blade_friction * evaluation_.pad_force + resistance_.flat_friction * side_force_.sum());
  evaluation_.power = evaluation_.balance.weight * evaluation_.rate_of_penetration +
                      evaluation_.torque * two_pi * s.rotary_speed;
}

void DrillingSystem::wear_rates(const State& x, State& dxdt) {
  const BitModels& bit = models_->bit;
  const DrillingInterval& s = *interval_;
  const cutting::CutterLoads& loads = evaluation_.loads;
  auto worn_rate = layout_.worn(dxdt), damage_rate = layout_.damage(dxdt);
  auto hazard_rate = layout_.chip_hazard(dxdt);
  for (Eigen::Index i = 0; i < layout_.cutters; ++i) {
    const double T_w = evaluation_.flat_temperature(i);
    const double acceleration =
        ruined_(i) ? bit.abrasion.carbide_ratio : wear::heat_acceleration(bit.abrasion, T_w);
    const double whole_flat = profile_.flat_weight_total()(i);
    double mobilisation = whole_flat > 0.0 ? loads.flat_mobilised(i) / whole_flat : 0.0;
    const double side_area = std::max(loads.contact_area(i), least_contact_area);
    mobilisation += side_force_(i) / (resistance_.contact_strength * side_area) * (1.0 - mobilisation);
    const bool can_wear = !lost_(i) && worn_(i) < greatest_worn_share * bit.bit.shape.radius;
    worn_rate(i) = can_wear
                       ? wear::worn_height_rate(s.wear_coefficient_cold * acceleration,
                                                s.resistance.contact_strength, std::min(mobilisation, 1.0),
                                                evaluation_.sliding_speed(i), bit.bit.back_rake(i))
                       : 0.0;
    const double flux =
        loads.contact_area(i) > 0.0 ? evaluation_.flat_into_table(i) / loads.contact_area(i) : 0.0;
    // A ruined table cannot be ruined further; the integral stops so that it stays readable.
    damage_rate(i) = ruined_(i) || lost_(i)
                         ? 0.0
                         : wear::table_damage_rate(bit.damage, T_w, flux, bit.bit.shape.leach_depth,
                                                   bit.materials.table_conductivity);
    const failure::CuttingEdge edge{bit.bit.back_rake(i), worn_(i), T_w, layout_.damage(x)(i)};
    const failure::EdgeImpacts impacts{loads.engaged_width(i), loads.mean_depth(i),
                                       evaluation_.sliding_speed(i), resistance_.specific_energy,
                                       s.inclusions};
    evaluation_.chip_hazard_rate(i) =
        lost_(i) ? 0.0 : failure::chip_hazard_rate(bit.chips, bit.bit.shape, edge, impacts);
    hazard_rate(i) = evaluation_.chip_hazard_rate(i);
  }
}

void DrillingSystem::body_rates(const State& x, State& dxdt) {
  const BitModels& bit = models_->bit;
  const DrillingInterval& s = *interval_;
  const double omega = two_pi * s.rotary_speed;
  const double grains = wear::grain_speed(evaluation_.slot.slot_velocity, s.fluid.density, s.rock.density,
                                          evaluation_.cuttings_size, 2.0 * bit.bit.bit_radius);
  dxdt(layout_.eroded()) =
      wear::erosion_rate(bit.erosion_coefficient, grains, x(layout_.solids()), bit.erosion_resistance);
  dxdt(layout_.blade_wear()) =
      wear::rubbing_wear_rate(s.rubbing_coefficient, evaluation_.balance.blade_weight, bit.blade_area,
                              omega * evaluation_.rubbing.contact_radius);
  dxdt(layout_.pad_wear()) = wear::rubbing_wear_rate(s.rubbing_coefficient, evaluation_.pad_force,
                                                     bit.pad_area, omega * bit.bit.bit_radius);
}

void DrillingSystem::cleaning_rates(const State& x, State& dxdt) {
  const hydraulics::Slots& slots = models_->bit.slots;
  const hydraulics::SlotFlow& slot = evaluation_.slot;
  const double held_back = evaluation_.plug.blocks * (slot.out - slot.overflow);
  dxdt(layout_.solids()) = hydraulics::solids_rate(slots, slot, x(layout_.solids()),
                                                   evaluation_.rate_of_penetration * models_->bit.hole_area) +
                           held_back;
  dxdt(layout_.plug()) = slot.overflow / slots.packed_fraction - evaluation_.plug.flushed;
}

void DrillingSystem::linearise() {
  matrix_.linearise(models_->bit, linear_, hole_, settling_time);
}

}  // namespace dullcast::simulation
