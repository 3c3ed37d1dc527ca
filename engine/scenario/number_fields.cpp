#include "engine/scenario/number_fields.hpp"

#include <array>

#include "engine/scenario/number_ranges.hpp"

namespace dullcast::scenario {

namespace {

namespace range = number_range;

constexpr std::array rock_fields{
    NumberField<RockRecord>{"unconfined_strength", &base::dimension::pressure, range::rock_strength,
                            &RockRecord::unconfined_strength},
    NumberField<RockRecord>{"friction_angle", &base::dimension::angle, range::friction_angle,
                            &RockRecord::friction_angle},
    NumberField<RockRecord>{"youngs_modulus", &base::dimension::pressure, range::modulus,
                            &RockRecord::youngs_modulus},
    NumberField<RockRecord>{"poissons_ratio", &base::dimension::number, range::poisson,
                            &RockRecord::poissons_ratio},
    NumberField<RockRecord>{"cerchar_abrasivity", &base::dimension::number, range::abrasivity,
                            &RockRecord::cerchar_abrasivity},
    NumberField<RockRecord>{"conductivity", &base::dimension::conductivity, range::conductivity,
                            &RockRecord::conductivity},
    NumberField<RockRecord>{"density", &base::dimension::density, range::solid_density, &RockRecord::density},
    NumberField<RockRecord>{"heat_capacity", &base::dimension::heat_capacity, range::heat_capacity,
                            &RockRecord::heat_capacity},
    NumberField<RockRecord>{"contact_strength_ratio", &base::dimension::number, range::strength_ratio,
                            &RockRecord::contact_strength_ratio},
    NumberField<RockRecord>{"inclusion_share", &base::dimension::number, range::inclusion,
                            &RockRecord::inclusion_share, true},
    NumberField<RockRecord>{"inclusion_size", &base::dimension::length, range::inclusion_size,
                            &RockRecord::inclusion_size, true},
    NumberField<RockRecord>{"inclusion_strength", &base::dimension::pressure, range::stone_strength,
                            &RockRecord::inclusion_strength, true},
    NumberField<RockRecord>{"inclusion_abrasivity", &base::dimension::number, range::abrasivity,
                            &RockRecord::inclusion_abrasivity, true},
    NumberField<RockRecord>{"stickiness", &base::dimension::number, base::range::share,
                            &RockRecord::stickiness, true}};

constexpr std::array grade_fields{
    NumberField<GradeRecord>{"wear_resistance", &base::dimension::number, range::resistance,
                             &GradeRecord::wear_resistance},
    NumberField<GradeRecord>{"table_conductivity", &base::dimension::conductivity, range::conductivity,
                             &GradeRecord::table_conductivity},
    NumberField<GradeRecord>{"table_density", &base::dimension::density, range::solid_density,
                             &GradeRecord::table_density},
    NumberField<GradeRecord>{"carbide_conductivity", &base::dimension::conductivity, range::conductivity,
                             &GradeRecord::carbide_conductivity},
    NumberField<GradeRecord>{"carbide_density", &base::dimension::density, range::solid_density,
                             &GradeRecord::carbide_density},
    NumberField<GradeRecord>{"carbide_heat_capacity", &base::dimension::heat_capacity, range::heat_capacity,
                             &GradeRecord::carbide_heat_capacity},
    NumberField<GradeRecord>{"edge_strength", &base::dimension::pressure, range::strength,
                             &GradeRecord::edge_strength, true},
    NumberField<GradeRecord>{"bond_strength", &base::dimension::pressure, range::strength,
                             &GradeRecord::bond_strength, true}};

constexpr std::array lot_fields{
    NumberField<LotRecord>{"edge_share", &base::dimension::number, range::lot_share, &LotRecord::edge_share},
    NumberField<LotRecord>{"bond_share", &base::dimension::number, range::lot_share, &LotRecord::bond_share},
    NumberField<LotRecord>{"braze_share", &base::dimension::number, range::lot_share,
                           &LotRecord::braze_share},
    NumberField<LotRecord>{"strength_spread", &base::dimension::number, range::spread,
                           &LotRecord::strength_spread}};

constexpr std::array body_fields{
    NumberField<BodyRecord>{"conductivity", &base::dimension::conductivity, range::conductivity,
                            &BodyRecord::conductivity},
    NumberField<BodyRecord>{"density", &base::dimension::density, range::solid_density, &BodyRecord::density},
    NumberField<BodyRecord>{"heat_capacity", &base::dimension::heat_capacity, range::heat_capacity,
                            &BodyRecord::heat_capacity},
    NumberField<BodyRecord>{"volume_share", &base::dimension::number, range::bodily,
                            &BodyRecord::volume_share},
    NumberField<BodyRecord>{"erosion_resistance", &base::dimension::number, range::resistance,
                            &BodyRecord::erosion_resistance, true},
    NumberField<BodyRecord>{"rubbing_resistance", &base::dimension::number, range::resistance,
                            &BodyRecord::rubbing_resistance, true},
    NumberField<BodyRecord>{"strength", &base::dimension::pressure, range::strength, &BodyRecord::strength,
                            true},
    NumberField<BodyRecord>{"strength_spread", &base::dimension::number, range::spread,
                            &BodyRecord::strength_spread, true}};

constexpr std::array fluid_fields{
    NumberField<FluidRecord>{"density", &base::dimension::density, range::fluid_density,
                             &FluidRecord::density},
    NumberField<FluidRecord>{"viscosity", &base::dimension::viscosity, range::viscosity,
                             &FluidRecord::viscosity},
    NumberField<FluidRecord>{"conductivity", &base::dimension::conductivity, range::conductivity,
                             &FluidRecord::conductivity},
    NumberField<FluidRecord>{"heat_capacity", &base::dimension::heat_capacity, range::heat_capacity,
                             &FluidRecord::heat_capacity}};

using Model = NumberField<ModelNumbers>;
constexpr std::array model_fields{
    Model{"drilling_efficiency", &base::dimension::number, range::some, &ModelNumbers::drilling_efficiency},
    Model{"flat_friction", &base::dimension::number, range::friction, &ModelNumbers::flat_friction},
    Model{"blade_friction", &base::dimension::number, range::friction, &ModelNumbers::blade_friction},
    Model{"blade_bearing_ratio", &base::dimension::number, range::bearing_ratio,
          &ModelNumbers::blade_bearing_ratio},
    Model{"land_reference", &base::dimension::length, range::land, &ModelNumbers::land_reference},
    Model{"psi_at_reference", &base::dimension::angle, range::psi, &ModelNumbers::psi_at_reference},
    Model{"psi_slope", &base::dimension::number, range::psi_slope, &ModelNumbers::psi_slope},
    Model{"psi_least", &base::dimension::angle, range::psi, &ModelNumbers::psi_least},
    Model{"land_bevel_width", &base::dimension::length, range::edge_width, &ModelNumbers::land_bevel_width},
    Model{"land_bevel_angle", &base::dimension::angle, range::bevel_angle, &ModelNumbers::land_bevel_angle},
    Model{"land_back_rake", &base::dimension::angle, range::rake, &ModelNumbers::land_back_rake},
    Model{"edge_radius", &base::dimension::length, range::edge_radius, &ModelNumbers::edge_radius},
    Model{"rate_exponent", &base::dimension::number, range::rate_exponent, &ModelNumbers::rate_exponent},
    Model{"rate_speed", &base::dimension::speed, range::rate_speed, &ModelNumbers::rate_speed},
    Model{"rate_depth", &base::dimension::length, range::edge_width, &ModelNumbers::rate_depth},
    Model{"chip_friction_speed_share", &base::dimension::number, base::range::share,
          &ModelNumbers::chip_friction_speed_share},
    Model{"crushed_heat_share", &base::dimension::number, base::range::share,
          &ModelNumbers::crushed_heat_share},
    Model{"rock_softens", &base::dimension::temperature, range::hot, &ModelNumbers::rock_softens},
    Model{"rock_melts", &base::dimension::temperature, range::hot, &ModelNumbers::rock_melts},
    Model{"abrasion_coefficient", &base::dimension::abrasion, range::abrasion,
          &ModelNumbers::abrasion_coefficient},
    Model{"abrasivity_exponent", &base::dimension::number, range::exponent,
          &ModelNumbers::abrasivity_exponent},
    Model{"bit_to_bit_wear", &base::dimension::number, range::factor, &ModelNumbers::bit_to_bit_wear},
    Model{"cutting_wear_share", &base::dimension::number, range::cutting_share,
          &ModelNumbers::cutting_wear_share},
    Model{"carbide_wear_ratio", &base::dimension::number, range::ratio, &ModelNumbers::carbide_wear_ratio},
    Model{"carbide_load_share", &base::dimension::number, base::range::share,
          &ModelNumbers::carbide_load_share},
    Model{"acceleration_temperature", &base::dimension::temperature, range::hot,
          &ModelNumbers::acceleration_temperature},
    Model{"acceleration_scale", &base::dimension::temperature_difference, range::acceleration_scale,
          &ModelNumbers::acceleration_scale},
    Model{"leached_acceleration_temperature", &base::dimension::temperature, range::hot,
          &ModelNumbers::leached_acceleration_temperature},
    Model{"damage_seconds_at_750", &base::dimension::time, range::damage_time,
          &ModelNumbers::damage_seconds_at_750},
    Model{"damage_seconds_at_700", &base::dimension::time, range::damage_time,
          &ModelNumbers::damage_seconds_at_700},
    Model{"leached_limit", &base::dimension::temperature, range::hot, &ModelNumbers::leached_limit},
    Model{"spreading_edge_factor", &base::dimension::number, range::edge_factor,
          &ModelNumbers::spreading_edge_factor},
    Model{"pocket_conductance", &base::dimension::conductance, range::conductance,
          &ModelNumbers::pocket_conductance},
    Model{"exposed_share", &base::dimension::number, base::range::share, &ModelNumbers::exposed_share},
    Model{"junk_slot_share", &base::dimension::number, range::some, &ModelNumbers::junk_slot_share},
    Model{"body_wetted_share", &base::dimension::number, range::bodily, &ModelNumbers::body_wetted_share},
    Model{"bottom_hole_conductance", &base::dimension::conductance, range::conductance_or_none,
          &ModelNumbers::bottom_hole_conductance},
    Model{"settling_time", &base::dimension::time, range::settling, &ModelNumbers::settling_time},
    Model{"warm_skin_depth", &base::dimension::length, range::skin, &ModelNumbers::warm_skin_depth},
    Model{"dry_capacity_share", &base::dimension::number, range::dry_share,
          &ModelNumbers::dry_capacity_share},
    Model{"wall_speed_share", &base::dimension::number, base::range::share, &ModelNumbers::wall_speed_share},
    Model{"jet_path_share", &base::dimension::number, range::some, &ModelNumbers::jet_path_share},
    Model{"weibull_modulus", &base::dimension::number, range::weibull, &ModelNumbers::weibull_modulus},
    Model{"edge_hot_share", &base::dimension::number, range::some, &ModelNumbers::edge_hot_share},
    Model{"edge_damaged_share", &base::dimension::number, range::some, &ModelNumbers::edge_damaged_share},
    Model{"roughness_impacts", &base::dimension::per_length, range::jolts, &ModelNumbers::roughness_impacts},
    Model{"roughness_overload", &base::dimension::number, range::ratio, &ModelNumbers::roughness_overload},
    Model{"load_variation", &base::dimension::number, base::range::share, &ModelNumbers::load_variation},
    Model{"brittle_strength", &base::dimension::pressure, range::rock_strength,
          &ModelNumbers::brittle_strength},
    Model{"bottom_unevenness", &base::dimension::length, range::unevenness, &ModelNumbers::bottom_unevenness},
    Model{"stone_protrusion", &base::dimension::number, base::range::share, &ModelNumbers::stone_protrusion},
    Model{"touch_down_overload", &base::dimension::number, range::ratio, &ModelNumbers::touch_down_overload},
    Model{"impact_impedance", &base::dimension::impedance, range::impedance, &ModelNumbers::impact_impedance},
    Model{"chip_size_share", &base::dimension::number, range::chip_size, &ModelNumbers::chip_size_share},
    Model{"shock_share", &base::dimension::number, base::range::share, &ModelNumbers::shock_share},
    Model{"boundary_undulation", &base::dimension::length, range::undulation,
          &ModelNumbers::boundary_undulation},
    Model{"table_modulus", &base::dimension::pressure, range::modulus, &ModelNumbers::table_modulus},
    Model{"table_expansion", &base::dimension::per_kelvin, range::expansion, &ModelNumbers::table_expansion},
    Model{"table_poisson", &base::dimension::number, range::poisson, &ModelNumbers::table_poisson},
    Model{"braze_strength", &base::dimension::pressure, range::strength, &ModelNumbers::braze_strength},
    Model{"braze_softening", &base::dimension::temperature, range::hot, &ModelNumbers::braze_softening},
    Model{"braze_solidus", &base::dimension::temperature, range::hot, &ModelNumbers::braze_solidus},
    Model{"bond_mismatch", &base::dimension::stress_per_kelvin, range::mismatch,
          &ModelNumbers::bond_mismatch},
    Model{"bond_neutral_temperature", &base::dimension::temperature, range::hot,
          &ModelNumbers::bond_neutral_temperature},
    Model{"port_discharge", &base::dimension::number, range::some, &ModelNumbers::port_discharge},
    Model{"cuttings_spread", &base::dimension::number, range::edge_factor, &ModelNumbers::cuttings_spread},
    Model{"packed_fraction", &base::dimension::number, range::packed, &ModelNumbers::packed_fraction},
    Model{"packed_share", &base::dimension::number, range::some, &ModelNumbers::packed_share},
    Model{"slot_height", &base::dimension::number, range::height, &ModelNumbers::slot_height},
    Model{"suspending_transport", &base::dimension::number, range::some, &ModelNumbers::suspending_transport},
    Model{"burying_height", &base::dimension::number, range::burying, &ModelNumbers::burying_height},
    Model{"bed_grain", &base::dimension::length, range::grain, &ModelNumbers::bed_grain},
    Model{"water_height", &base::dimension::number, range::height, &ModelNumbers::water_height},
    Model{"boiling_surface_factor", &base::dimension::number, range::surface_factor,
          &ModelNumbers::boiling_surface_factor},
    Model{"steam_convection", &base::dimension::conductance, range::conductance_or_none,
          &ModelNumbers::steam_convection},
    Model{"fall_back_time", &base::dimension::time, range::water_time, &ModelNumbers::fall_back_time},
    Model{"flash_time", &base::dimension::time, range::water_time, &ModelNumbers::flash_time},
    Model{"level_band", &base::dimension::length, range::band, &ModelNumbers::level_band},
    Model{"dry_out_factor", &base::dimension::number, range::factor, &ModelNumbers::dry_out_factor},
    Model{"packed_pores_loss", &base::dimension::number, base::range::share,
          &ModelNumbers::packed_pores_loss},
    Model{"packed_void_share", &base::dimension::number, range::some, &ModelNumbers::packed_void_share},
    Model{"renewal_turns", &base::dimension::number, range::turns, &ModelNumbers::renewal_turns},
    Model{"still_expansion", &base::dimension::number, base::range::share, &ModelNumbers::still_expansion},
    Model{"erosion_coefficient", &base::dimension::speed, range::erosion, &ModelNumbers::erosion_coefficient},
    Model{"rubbing_coefficient", &base::dimension::abrasion, range::abrasion,
          &ModelNumbers::rubbing_coefficient},
    Model{"pad_seating", &base::dimension::length, range::seating, &ModelNumbers::pad_seating}};

}  // namespace

std::span<const NumberField<RockRecord>> number_fields(const RockRecord&) {
  return rock_fields;
}
std::span<const NumberField<GradeRecord>> number_fields(const GradeRecord&) {
  return grade_fields;
}
std::span<const NumberField<LotRecord>> number_fields(const LotRecord&) {
  return lot_fields;
}
std::span<const NumberField<BodyRecord>> number_fields(const BodyRecord&) {
  return body_fields;
}
std::span<const NumberField<FluidRecord>> number_fields(const FluidRecord&) {
  return fluid_fields;
}
std::span<const NumberField<ModelNumbers>> number_fields(const ModelNumbers&) {
  return model_fields;
}

std::optional<NumberKind> kind_of_number(const std::string& name) {
  const std::size_t colon = name.rfind(": ");
  const std::string key = colon == std::string::npos ? name : name.substr(colon + 2);
  const auto in = [&](const auto& record) -> std::optional<NumberKind> {
    for (const auto& field : number_fields(record))
      if (key == field.key) return NumberKind{field.wanted, field.range};
    return std::nullopt;
  };
  if (colon == std::string::npos) return in(ModelNumbers{});
  const std::string record = name.substr(0, name.find(' '));
  if (record == "grade") return in(GradeRecord{});
  if (record == "lot") return in(LotRecord{});
  if (record == "body") return in(BodyRecord{});
  if (record == "fluid") return in(FluidRecord{});
  return record == "rock" ? in(RockRecord{}) : std::nullopt;
}

const base::Dimension* dimension_of_number(const std::string& name) {
  const auto kind = kind_of_number(name);
  return kind ? kind->wanted : nullptr;
}

}  // namespace dullcast::scenario
