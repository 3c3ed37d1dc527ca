#include "engine/scenario/number_fields.hpp"

#include <array>

namespace dullcast {

namespace {

constexpr double degree = 0.017453292519943295;
constexpr Range friction_angle_range{0.0, 80.0 * degree, true, "from 0 to 80 deg"};
constexpr Range poisson_range{0.0, 0.5, true, "from 0 to 0.5"};
constexpr Range abrasivity_range{0.0, 10.0, true, "from 0 to 10"};
constexpr Range strength_ratio_range{0.2, 5.0, true, "from 0.2 to 5"};
constexpr Range hot_range{273.15, 2500.0, true, "from 0 to 2200 degC"};
constexpr Range psi_range{-20.0 * degree, 60.0 * degree, true, "from -20 to 60 deg"};
constexpr Range psi_slope_range{0.0, 3.0, true, "from 0 to 3"};
constexpr Range friction_range{0.0, 2.0, true, "from 0 to 2"};
constexpr Range exponent_range{0.0, 6.0, true, "from 0 to 6"};
constexpr Range edge_range{0.0, 1e-3, false, "above 0 and up to 1 mm"};
constexpr Range land_range{0.0, 1e-2, true, "from 0 to 10 mm"};
constexpr Range edge_factor_range{0.0, 10.0, false, "above 0 and up to 10"};
constexpr Range ratio_range{1.0, 1e6, true, "1 or more"};
constexpr Range inclusion_range{0.0, 0.9, true, "from 0 to 0.9 of the rock's volume"};
constexpr Range inclusion_size_range{0.0, 5.0, true, "from 0 to 5 m"};
constexpr Range lot_share_range{0.0, 3.0, false, "above 0 and up to 3; 1 is sound"};
constexpr Range spread_range{0.0, 2.0, true, "from 0 to 2"};
constexpr Range modulus_range{1.0, 100.0, true, "from 1 to 100"};
constexpr Range chip_size_range{0.0, 10.0, true, "from 0 to 10"};
constexpr Range packed_range{0.1, 0.9, true, "from 0.1 to 0.9"};
constexpr Range surface_factor_range{1e-4, 1.0, true, "from 0.0001 to 1"};

constexpr std::array rock_fields{
    NumberField<RockRecord>{"unconfined_strength", &dimension::pressure, range::above_zero,
                            &RockRecord::unconfined_strength},
    NumberField<RockRecord>{"friction_angle", &dimension::angle, friction_angle_range,
                            &RockRecord::friction_angle},
    NumberField<RockRecord>{"youngs_modulus", &dimension::pressure, range::above_zero,
                            &RockRecord::youngs_modulus},
    NumberField<RockRecord>{"poissons_ratio", &dimension::number, poisson_range, &RockRecord::poissons_ratio},
    NumberField<RockRecord>{"cerchar_abrasivity", &dimension::number, abrasivity_range,
                            &RockRecord::cerchar_abrasivity},
    NumberField<RockRecord>{"conductivity", &dimension::conductivity, range::above_zero,
                            &RockRecord::conductivity},
    NumberField<RockRecord>{"density", &dimension::density, range::above_zero, &RockRecord::density},
    NumberField<RockRecord>{"heat_capacity", &dimension::heat_capacity, range::above_zero,
                            &RockRecord::heat_capacity},
    NumberField<RockRecord>{"contact_strength_ratio", &dimension::number, strength_ratio_range,
                            &RockRecord::contact_strength_ratio},
    NumberField<RockRecord>{"inclusion_share", &dimension::number, inclusion_range,
                            &RockRecord::inclusion_share, true},
    NumberField<RockRecord>{"inclusion_size", &dimension::length, inclusion_size_range,
                            &RockRecord::inclusion_size, true},
    NumberField<RockRecord>{"inclusion_strength", &dimension::pressure, range::not_negative,
                            &RockRecord::inclusion_strength, true},
    NumberField<RockRecord>{"stickiness", &dimension::number, range::share, &RockRecord::stickiness, true}};

constexpr std::array grade_fields{
    NumberField<GradeRecord>{"wear_resistance", &dimension::number, range::above_zero,
                             &GradeRecord::wear_resistance},
    NumberField<GradeRecord>{"table_conductivity", &dimension::conductivity, range::above_zero,
                             &GradeRecord::table_conductivity},
    NumberField<GradeRecord>{"table_density", &dimension::density, range::above_zero,
                             &GradeRecord::table_density},
    NumberField<GradeRecord>{"carbide_conductivity", &dimension::conductivity, range::above_zero,
                             &GradeRecord::carbide_conductivity},
    NumberField<GradeRecord>{"carbide_density", &dimension::density, range::above_zero,
                             &GradeRecord::carbide_density},
    NumberField<GradeRecord>{"carbide_heat_capacity", &dimension::heat_capacity, range::above_zero,
                             &GradeRecord::carbide_heat_capacity},
    NumberField<GradeRecord>{"edge_strength", &dimension::pressure, range::above_zero,
                             &GradeRecord::edge_strength, true},
    NumberField<GradeRecord>{"bond_strength", &dimension::pressure, range::above_zero,
                             &GradeRecord::bond_strength, true}};

constexpr std::array lot_fields{
    NumberField<LotRecord>{"edge_share", &dimension::number, lot_share_range, &LotRecord::edge_share},
    NumberField<LotRecord>{"bond_share", &dimension::number, lot_share_range, &LotRecord::bond_share},
    NumberField<LotRecord>{"braze_share", &dimension::number, lot_share_range, &LotRecord::braze_share},
    NumberField<LotRecord>{"strength_spread", &dimension::number, spread_range, &LotRecord::strength_spread}};

constexpr std::array body_fields{
    NumberField<BodyRecord>{"conductivity", &dimension::conductivity, range::above_zero,
                            &BodyRecord::conductivity},
    NumberField<BodyRecord>{"density", &dimension::density, range::above_zero, &BodyRecord::density},
    NumberField<BodyRecord>{"heat_capacity", &dimension::heat_capacity, range::above_zero,
                            &BodyRecord::heat_capacity},
    NumberField<BodyRecord>{"volume_share", &dimension::number, range::above_zero, &BodyRecord::volume_share},
    NumberField<BodyRecord>{"erosion_resistance", &dimension::number, range::above_zero,
                            &BodyRecord::erosion_resistance, true},
    NumberField<BodyRecord>{"rubbing_resistance", &dimension::number, range::above_zero,
                            &BodyRecord::rubbing_resistance, true},
    NumberField<BodyRecord>{"strength", &dimension::pressure, range::above_zero, &BodyRecord::strength, true},
    NumberField<BodyRecord>{"strength_spread", &dimension::number, spread_range, &BodyRecord::strength_spread,
                            true}};

constexpr std::array fluid_fields{
    NumberField<FluidRecord>{"density", &dimension::density, range::above_zero, &FluidRecord::density},
    NumberField<FluidRecord>{"viscosity", &dimension::viscosity, range::above_zero, &FluidRecord::viscosity},
    NumberField<FluidRecord>{"conductivity", &dimension::conductivity, range::above_zero,
                             &FluidRecord::conductivity},
    NumberField<FluidRecord>{"heat_capacity", &dimension::heat_capacity, range::above_zero,
                             &FluidRecord::heat_capacity}};

using Model = NumberField<ModelNumbers>;
constexpr std::array model_fields{
    Model{"drilling_efficiency", &dimension::number, range::share_above_zero,
          &ModelNumbers::drilling_efficiency},
    Model{"flat_friction", &dimension::number, friction_range, &ModelNumbers::flat_friction},
    Model{"blade_friction", &dimension::number, friction_range, &ModelNumbers::blade_friction},
    Model{"land_reference", &dimension::length, land_range, &ModelNumbers::land_reference},
    Model{"psi_at_reference", &dimension::angle, psi_range, &ModelNumbers::psi_at_reference},
    Model{"psi_slope", &dimension::number, psi_slope_range, &ModelNumbers::psi_slope},
    Model{"psi_least", &dimension::angle, psi_range, &ModelNumbers::psi_least},
    Model{"edge_radius", &dimension::length, edge_range, &ModelNumbers::edge_radius},
    Model{"chip_friction_speed_share", &dimension::number, range::share,
          &ModelNumbers::chip_friction_speed_share},
    Model{"abrasion_coefficient", &dimension::abrasion, range::not_negative,
          &ModelNumbers::abrasion_coefficient},
    Model{"abrasivity_exponent", &dimension::number, exponent_range, &ModelNumbers::abrasivity_exponent},
    Model{"carbide_wear_ratio", &dimension::number, ratio_range, &ModelNumbers::carbide_wear_ratio},
    Model{"acceleration_temperature", &dimension::temperature, hot_range,
          &ModelNumbers::acceleration_temperature},
    Model{"acceleration_scale", &dimension::temperature_difference, range::above_zero,
          &ModelNumbers::acceleration_scale},
    Model{"damage_seconds_at_750", &dimension::time, range::above_zero, &ModelNumbers::damage_seconds_at_750},
    Model{"damage_seconds_at_700", &dimension::time, range::above_zero, &ModelNumbers::damage_seconds_at_700},
    Model{"leached_limit", &dimension::temperature, hot_range, &ModelNumbers::leached_limit},
    Model{"spreading_edge_factor", &dimension::number, edge_factor_range,
          &ModelNumbers::spreading_edge_factor},
    Model{"pocket_conductance", &dimension::conductance, range::above_zero,
          &ModelNumbers::pocket_conductance},
    Model{"exposed_share", &dimension::number, range::share, &ModelNumbers::exposed_share},
    Model{"junk_slot_share", &dimension::number, range::share_above_zero, &ModelNumbers::junk_slot_share},
    Model{"body_wetted_share", &dimension::number, range::above_zero, &ModelNumbers::body_wetted_share},
    Model{"bottom_hole_conductance", &dimension::conductance, range::not_negative,
          &ModelNumbers::bottom_hole_conductance},
    Model{"weibull_modulus", &dimension::number, modulus_range, &ModelNumbers::weibull_modulus},
    Model{"edge_hot_share", &dimension::number, range::share_above_zero, &ModelNumbers::edge_hot_share},
    Model{"edge_damaged_share", &dimension::number, range::share_above_zero,
          &ModelNumbers::edge_damaged_share},
    Model{"roughness_impacts", &dimension::per_length, range::not_negative, &ModelNumbers::roughness_impacts},
    Model{"roughness_overload", &dimension::number, ratio_range, &ModelNumbers::roughness_overload},
    Model{"impact_impedance", &dimension::impedance, range::above_zero, &ModelNumbers::impact_impedance},
    Model{"chip_size_share", &dimension::number, chip_size_range, &ModelNumbers::chip_size_share},
    Model{"shock_share", &dimension::number, range::share, &ModelNumbers::shock_share},
    Model{"boundary_undulation", &dimension::length, range::above_zero, &ModelNumbers::boundary_undulation},
    Model{"braze_strength", &dimension::pressure, range::above_zero, &ModelNumbers::braze_strength},
    Model{"braze_softening", &dimension::temperature, hot_range, &ModelNumbers::braze_softening},
    Model{"braze_solidus", &dimension::temperature, hot_range, &ModelNumbers::braze_solidus},
    Model{"bond_mismatch", &dimension::stress_per_kelvin, range::not_negative, &ModelNumbers::bond_mismatch},
    Model{"bond_neutral_temperature", &dimension::temperature, hot_range,
          &ModelNumbers::bond_neutral_temperature},
    Model{"port_discharge", &dimension::number, range::share_above_zero, &ModelNumbers::port_discharge},
    Model{"cuttings_spread", &dimension::number, edge_factor_range, &ModelNumbers::cuttings_spread},
    Model{"packed_fraction", &dimension::number, packed_range, &ModelNumbers::packed_fraction},
    Model{"packed_share", &dimension::number, range::share_above_zero, &ModelNumbers::packed_share},
    Model{"boiling_surface_factor", &dimension::number, surface_factor_range,
          &ModelNumbers::boiling_surface_factor},
    Model{"steam_convection", &dimension::conductance, range::not_negative, &ModelNumbers::steam_convection},
    Model{"erosion_coefficient", &dimension::speed, range::not_negative, &ModelNumbers::erosion_coefficient},
    Model{"rubbing_coefficient", &dimension::abrasion, range::not_negative,
          &ModelNumbers::rubbing_coefficient}};

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

const Dimension* dimension_of_number(const std::string& name) {
  const auto kind = kind_of_number(name);
  return kind ? kind->wanted : nullptr;
}

}  // namespace dullcast
