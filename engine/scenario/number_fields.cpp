#include "engine/scenario/number_fields.hpp"

#include <array>

namespace dullcast::scenario {

namespace {

constexpr double degree = 0.017453292519943295;
constexpr base::Range friction_angle_range{0.0, 80.0 * degree, true, "from 0 to 80 deg"};
constexpr base::Range poisson_range{0.0, 0.5, true, "from 0 to 0.5"};
constexpr base::Range abrasivity_range{0.0, 10.0, true, "from 0 to 10"};
constexpr base::Range strength_ratio_range{0.2, 5.0, true, "from 0.2 to 5"};
constexpr base::Range hot_range{273.15, 2500.0, true, "from 0 to 2200 degC"};
constexpr base::Range psi_range{-20.0 * degree, 60.0 * degree, true, "from -20 to 60 deg"};
constexpr base::Range psi_slope_range{0.0, 3.0, true, "from 0 to 3"};
constexpr base::Range bearing_ratio_range{1.0, 20.0, true, "from 1 to 20"};
constexpr base::Range friction_range{0.0, 2.0, true, "from 0 to 2"};
constexpr base::Range rate_exponent_range{0.0, 0.5, true, "from 0 to 0.5"};
constexpr base::Range exponent_range{0.0, 6.0, true, "from 0 to 6"};
constexpr base::Range edge_range{0.0, 1e-3, false, "above 0 and up to 1 mm"};
constexpr base::Range land_range{0.0, 1e-2, true, "from 0 to 10 mm"};
constexpr base::Range edge_factor_range{0.0, 10.0, false, "above 0 and up to 10"};
constexpr base::Range ratio_range{1.0, 1e6, true, "1 or more"};
constexpr base::Range inclusion_range{0.0, 0.9, true, "from 0 to 0.9 of the rock's volume"};
constexpr base::Range inclusion_size_range{0.0, 5.0, true, "from 0 to 5 m"};
constexpr base::Range lot_share_range{0.0, 3.0, false, "above 0 and up to 3; 1 is sound"};
constexpr base::Range spread_range{0.0, 2.0, true, "from 0 to 2"};
constexpr base::Range modulus_range{1.0, 100.0, true, "from 1 to 100"};
constexpr base::Range chip_size_range{0.0, 10.0, true, "from 0 to 10"};
constexpr base::Range packed_range{0.1, 0.9, true, "from 0.1 to 0.9"};
constexpr base::Range edge_width_range{0.0, 5e-3, false, "above 0 and up to 5 mm"};
constexpr base::Range bevel_angle_range{0.0, 90.0 * degree, false, "above 0 and up to 90 deg"};
constexpr base::Range rake_range{0.0, 60.0 * degree, true, "from 0 to 60 deg"};
constexpr base::Range skin_range{1e-4, 0.1, true, "from 0.1 mm to 100 mm"};
constexpr base::Range height_range{0.0, 10.0, false, "above 0 and up to 10 bit diameters"};
constexpr base::Range burying_range{0.0, 10.0, false, "above 0 and up to 10 cutter diameters"};
constexpr base::Range grain_range{0.0, 10e-3, false, "above 0 and up to 10 mm"};
constexpr base::Range band_range{0.0, 100.0, false, "above 0 and up to 100 m"};
constexpr base::Range seating_range{0.0, 0.01, false, "above 0 and up to 10 mm"};
constexpr base::Range surface_factor_range{1e-4, 1.0, true, "from 0.0001 to 1"};

constexpr std::array rock_fields{
    NumberField<RockRecord>{"unconfined_strength", &base::dimension::pressure, base::range::above_zero,
                            &RockRecord::unconfined_strength},
    NumberField<RockRecord>{"friction_angle", &base::dimension::angle, friction_angle_range,
                            &RockRecord::friction_angle},
    NumberField<RockRecord>{"youngs_modulus", &base::dimension::pressure, base::range::above_zero,
                            &RockRecord::youngs_modulus},
    NumberField<RockRecord>{"poissons_ratio", &base::dimension::number, poisson_range,
                            &RockRecord::poissons_ratio},
    NumberField<RockRecord>{"cerchar_abrasivity", &base::dimension::number, abrasivity_range,
                            &RockRecord::cerchar_abrasivity},
    NumberField<RockRecord>{"conductivity", &base::dimension::conductivity, base::range::above_zero,
                            &RockRecord::conductivity},
    NumberField<RockRecord>{"density", &base::dimension::density, base::range::above_zero,
                            &RockRecord::density},
    NumberField<RockRecord>{"heat_capacity", &base::dimension::heat_capacity, base::range::above_zero,
                            &RockRecord::heat_capacity},
    NumberField<RockRecord>{"contact_strength_ratio", &base::dimension::number, strength_ratio_range,
                            &RockRecord::contact_strength_ratio},
    NumberField<RockRecord>{"inclusion_share", &base::dimension::number, inclusion_range,
                            &RockRecord::inclusion_share, true},
    NumberField<RockRecord>{"inclusion_size", &base::dimension::length, inclusion_size_range,
                            &RockRecord::inclusion_size, true},
    NumberField<RockRecord>{"inclusion_strength", &base::dimension::pressure, base::range::not_negative,
                            &RockRecord::inclusion_strength, true},
    NumberField<RockRecord>{"inclusion_abrasivity", &base::dimension::number, abrasivity_range,
                            &RockRecord::inclusion_abrasivity, true},
    NumberField<RockRecord>{"stickiness", &base::dimension::number, base::range::share,
                            &RockRecord::stickiness, true}};

constexpr std::array grade_fields{
    NumberField<GradeRecord>{"wear_resistance", &base::dimension::number, base::range::above_zero,
                             &GradeRecord::wear_resistance},
    NumberField<GradeRecord>{"table_conductivity", &base::dimension::conductivity, base::range::above_zero,
                             &GradeRecord::table_conductivity},
    NumberField<GradeRecord>{"table_density", &base::dimension::density, base::range::above_zero,
                             &GradeRecord::table_density},
    NumberField<GradeRecord>{"carbide_conductivity", &base::dimension::conductivity, base::range::above_zero,
                             &GradeRecord::carbide_conductivity},
    NumberField<GradeRecord>{"carbide_density", &base::dimension::density, base::range::above_zero,
                             &GradeRecord::carbide_density},
    NumberField<GradeRecord>{"carbide_heat_capacity", &base::dimension::heat_capacity,
                             base::range::above_zero, &GradeRecord::carbide_heat_capacity},
    NumberField<GradeRecord>{"edge_strength", &base::dimension::pressure, base::range::above_zero,
                             &GradeRecord::edge_strength, true},
    NumberField<GradeRecord>{"bond_strength", &base::dimension::pressure, base::range::above_zero,
                             &GradeRecord::bond_strength, true}};

constexpr std::array lot_fields{
    NumberField<LotRecord>{"edge_share", &base::dimension::number, lot_share_range, &LotRecord::edge_share},
    NumberField<LotRecord>{"bond_share", &base::dimension::number, lot_share_range, &LotRecord::bond_share},
    NumberField<LotRecord>{"braze_share", &base::dimension::number, lot_share_range, &LotRecord::braze_share},
    NumberField<LotRecord>{"strength_spread", &base::dimension::number, spread_range,
                           &LotRecord::strength_spread}};

constexpr std::array body_fields{
    NumberField<BodyRecord>{"conductivity", &base::dimension::conductivity, base::range::above_zero,
                            &BodyRecord::conductivity},
    NumberField<BodyRecord>{"density", &base::dimension::density, base::range::above_zero,
                            &BodyRecord::density},
    NumberField<BodyRecord>{"heat_capacity", &base::dimension::heat_capacity, base::range::above_zero,
                            &BodyRecord::heat_capacity},
    NumberField<BodyRecord>{"volume_share", &base::dimension::number, base::range::above_zero,
                            &BodyRecord::volume_share},
    NumberField<BodyRecord>{"erosion_resistance", &base::dimension::number, base::range::above_zero,
                            &BodyRecord::erosion_resistance, true},
    NumberField<BodyRecord>{"rubbing_resistance", &base::dimension::number, base::range::above_zero,
                            &BodyRecord::rubbing_resistance, true},
    NumberField<BodyRecord>{"strength", &base::dimension::pressure, base::range::above_zero,
                            &BodyRecord::strength, true},
    NumberField<BodyRecord>{"strength_spread", &base::dimension::number, spread_range,
                            &BodyRecord::strength_spread, true}};

constexpr std::array fluid_fields{
    NumberField<FluidRecord>{"density", &base::dimension::density, base::range::above_zero,
                             &FluidRecord::density},
    NumberField<FluidRecord>{"viscosity", &base::dimension::viscosity, base::range::above_zero,
                             &FluidRecord::viscosity},
    NumberField<FluidRecord>{"conductivity", &base::dimension::conductivity, base::range::above_zero,
                             &FluidRecord::conductivity},
    NumberField<FluidRecord>{"heat_capacity", &base::dimension::heat_capacity, base::range::above_zero,
                             &FluidRecord::heat_capacity}};

using Model = NumberField<ModelNumbers>;
constexpr std::array model_fields{
    Model{"drilling_efficiency", &base::dimension::number, base::range::share_above_zero,
          &ModelNumbers::drilling_efficiency},
    Model{"flat_friction", &base::dimension::number, friction_range, &ModelNumbers::flat_friction},
    Model{"blade_friction", &base::dimension::number, friction_range, &ModelNumbers::blade_friction},
    Model{"blade_bearing_ratio", &base::dimension::number, bearing_ratio_range,
          &ModelNumbers::blade_bearing_ratio},
    Model{"land_reference", &base::dimension::length, land_range, &ModelNumbers::land_reference},
    Model{"psi_at_reference", &base::dimension::angle, psi_range, &ModelNumbers::psi_at_reference},
    Model{"psi_slope", &base::dimension::number, psi_slope_range, &ModelNumbers::psi_slope},
    Model{"psi_least", &base::dimension::angle, psi_range, &ModelNumbers::psi_least},
    Model{"land_bevel_width", &base::dimension::length, edge_width_range, &ModelNumbers::land_bevel_width},
    Model{"land_bevel_angle", &base::dimension::angle, bevel_angle_range, &ModelNumbers::land_bevel_angle},
    Model{"land_back_rake", &base::dimension::angle, rake_range, &ModelNumbers::land_back_rake},
    Model{"edge_radius", &base::dimension::length, edge_range, &ModelNumbers::edge_radius},
    Model{"rate_exponent", &base::dimension::number, rate_exponent_range, &ModelNumbers::rate_exponent},
    Model{"rate_speed", &base::dimension::speed, base::range::above_zero, &ModelNumbers::rate_speed},
    Model{"rate_depth", &base::dimension::length, edge_width_range, &ModelNumbers::rate_depth},
    Model{"chip_friction_speed_share", &base::dimension::number, base::range::share,
          &ModelNumbers::chip_friction_speed_share},
    Model{"crushed_heat_share", &base::dimension::number, base::range::share,
          &ModelNumbers::crushed_heat_share},
    Model{"rock_softens", &base::dimension::temperature, hot_range, &ModelNumbers::rock_softens},
    Model{"rock_melts", &base::dimension::temperature, hot_range, &ModelNumbers::rock_melts},
    Model{"abrasion_coefficient", &base::dimension::abrasion, base::range::not_negative,
          &ModelNumbers::abrasion_coefficient},
    Model{"abrasivity_exponent", &base::dimension::number, exponent_range,
          &ModelNumbers::abrasivity_exponent},
    Model{"bit_to_bit_wear", &base::dimension::number, base::range::above_zero,
          &ModelNumbers::bit_to_bit_wear},
    Model{"cutting_wear_share", &base::dimension::number, base::range::not_negative,
          &ModelNumbers::cutting_wear_share},
    Model{"carbide_wear_ratio", &base::dimension::number, ratio_range, &ModelNumbers::carbide_wear_ratio},
    Model{"carbide_load_share", &base::dimension::number, base::range::share,
          &ModelNumbers::carbide_load_share},
    Model{"acceleration_temperature", &base::dimension::temperature, hot_range,
          &ModelNumbers::acceleration_temperature},
    Model{"acceleration_scale", &base::dimension::temperature_difference, base::range::above_zero,
          &ModelNumbers::acceleration_scale},
    Model{"leached_acceleration_temperature", &base::dimension::temperature, hot_range,
          &ModelNumbers::leached_acceleration_temperature},
    Model{"damage_seconds_at_750", &base::dimension::time, base::range::above_zero,
          &ModelNumbers::damage_seconds_at_750},
    Model{"damage_seconds_at_700", &base::dimension::time, base::range::above_zero,
          &ModelNumbers::damage_seconds_at_700},
    Model{"leached_limit", &base::dimension::temperature, hot_range, &ModelNumbers::leached_limit},
    Model{"spreading_edge_factor", &base::dimension::number, edge_factor_range,
          &ModelNumbers::spreading_edge_factor},
    Model{"pocket_conductance", &base::dimension::conductance, base::range::above_zero,
          &ModelNumbers::pocket_conductance},
    Model{"exposed_share", &base::dimension::number, base::range::share, &ModelNumbers::exposed_share},
    Model{"junk_slot_share", &base::dimension::number, base::range::share_above_zero,
          &ModelNumbers::junk_slot_share},
    Model{"body_wetted_share", &base::dimension::number, base::range::above_zero,
          &ModelNumbers::body_wetted_share},
    Model{"bottom_hole_conductance", &base::dimension::conductance, base::range::not_negative,
          &ModelNumbers::bottom_hole_conductance},
    Model{"settling_time", &base::dimension::time, base::range::above_zero, &ModelNumbers::settling_time},
    Model{"warm_skin_depth", &base::dimension::length, skin_range, &ModelNumbers::warm_skin_depth},
    Model{"dry_capacity_share", &base::dimension::number, base::range::share_above_zero,
          &ModelNumbers::dry_capacity_share},
    Model{"wall_speed_share", &base::dimension::number, base::range::share, &ModelNumbers::wall_speed_share},
    Model{"jet_path_share", &base::dimension::number, base::range::share_above_zero,
          &ModelNumbers::jet_path_share},
    Model{"weibull_modulus", &base::dimension::number, modulus_range, &ModelNumbers::weibull_modulus},
    Model{"edge_hot_share", &base::dimension::number, base::range::share_above_zero,
          &ModelNumbers::edge_hot_share},
    Model{"edge_damaged_share", &base::dimension::number, base::range::share_above_zero,
          &ModelNumbers::edge_damaged_share},
    Model{"roughness_impacts", &base::dimension::per_length, base::range::not_negative,
          &ModelNumbers::roughness_impacts},
    Model{"roughness_overload", &base::dimension::number, ratio_range, &ModelNumbers::roughness_overload},
    Model{"load_variation", &base::dimension::number, base::range::share, &ModelNumbers::load_variation},
    Model{"brittle_strength", &base::dimension::pressure, base::range::above_zero,
          &ModelNumbers::brittle_strength},
    Model{"bottom_unevenness", &base::dimension::length, base::range::not_negative,
          &ModelNumbers::bottom_unevenness},
    Model{"stone_protrusion", &base::dimension::number, base::range::share, &ModelNumbers::stone_protrusion},
    Model{"touch_down_overload", &base::dimension::number, ratio_range, &ModelNumbers::touch_down_overload},
    Model{"impact_impedance", &base::dimension::impedance, base::range::above_zero,
          &ModelNumbers::impact_impedance},
    Model{"chip_size_share", &base::dimension::number, chip_size_range, &ModelNumbers::chip_size_share},
    Model{"shock_share", &base::dimension::number, base::range::share, &ModelNumbers::shock_share},
    Model{"boundary_undulation", &base::dimension::length, base::range::above_zero,
          &ModelNumbers::boundary_undulation},
    Model{"table_modulus", &base::dimension::pressure, base::range::above_zero, &ModelNumbers::table_modulus},
    Model{"table_expansion", &base::dimension::per_kelvin, base::range::not_negative,
          &ModelNumbers::table_expansion},
    Model{"table_poisson", &base::dimension::number, poisson_range, &ModelNumbers::table_poisson},
    Model{"braze_strength", &base::dimension::pressure, base::range::above_zero,
          &ModelNumbers::braze_strength},
    Model{"braze_softening", &base::dimension::temperature, hot_range, &ModelNumbers::braze_softening},
    Model{"braze_solidus", &base::dimension::temperature, hot_range, &ModelNumbers::braze_solidus},
    Model{"bond_mismatch", &base::dimension::stress_per_kelvin, base::range::not_negative,
          &ModelNumbers::bond_mismatch},
    Model{"bond_neutral_temperature", &base::dimension::temperature, hot_range,
          &ModelNumbers::bond_neutral_temperature},
    Model{"port_discharge", &base::dimension::number, base::range::share_above_zero,
          &ModelNumbers::port_discharge},
    Model{"cuttings_spread", &base::dimension::number, edge_factor_range, &ModelNumbers::cuttings_spread},
    Model{"packed_fraction", &base::dimension::number, packed_range, &ModelNumbers::packed_fraction},
    Model{"packed_share", &base::dimension::number, base::range::share_above_zero,
          &ModelNumbers::packed_share},
    Model{"slot_height", &base::dimension::number, height_range, &ModelNumbers::slot_height},
    Model{"suspending_transport", &base::dimension::number, base::range::share_above_zero,
          &ModelNumbers::suspending_transport},
    Model{"burying_height", &base::dimension::number, burying_range, &ModelNumbers::burying_height},
    Model{"bed_grain", &base::dimension::length, grain_range, &ModelNumbers::bed_grain},
    Model{"water_height", &base::dimension::number, height_range, &ModelNumbers::water_height},
    Model{"boiling_surface_factor", &base::dimension::number, surface_factor_range,
          &ModelNumbers::boiling_surface_factor},
    Model{"steam_convection", &base::dimension::conductance, base::range::not_negative,
          &ModelNumbers::steam_convection},
    Model{"fall_back_time", &base::dimension::time, base::range::above_zero, &ModelNumbers::fall_back_time},
    Model{"flash_time", &base::dimension::time, base::range::above_zero, &ModelNumbers::flash_time},
    Model{"level_band", &base::dimension::length, band_range, &ModelNumbers::level_band},
    Model{"dry_out_factor", &base::dimension::number, base::range::above_zero, &ModelNumbers::dry_out_factor},
    Model{"packed_pores_loss", &base::dimension::number, base::range::share,
          &ModelNumbers::packed_pores_loss},
    Model{"packed_void_share", &base::dimension::number, base::range::share_above_zero,
          &ModelNumbers::packed_void_share},
    Model{"renewal_turns", &base::dimension::number, base::range::above_zero, &ModelNumbers::renewal_turns},
    Model{"still_expansion", &base::dimension::number, base::range::share, &ModelNumbers::still_expansion},
    Model{"erosion_coefficient", &base::dimension::speed, base::range::not_negative,
          &ModelNumbers::erosion_coefficient},
    Model{"rubbing_coefficient", &base::dimension::abrasion, base::range::not_negative,
          &ModelNumbers::rubbing_coefficient},
    Model{"pad_seating", &base::dimension::length, seating_range, &ModelNumbers::pad_seating}};

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
