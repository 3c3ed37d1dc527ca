#include "engine/simulation/bit_models.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "models/common/constants.hpp"

namespace dullcast::simulation {
namespace {

geometry::EdgeLaw edge_law(const scenario::ModelNumbers& numbers) {
  geometry::EdgeLaw law;
  law.land_reference = numbers.land_reference.central;
  law.bevel_width_reference = numbers.land_bevel_width.central;
  law.bevel_angle_reference = numbers.land_bevel_angle.central;
  law.back_rake_reference = numbers.land_back_rake.central;
  law.psi_at_reference = numbers.psi_at_reference.central;
  law.psi_slope = numbers.psi_slope.central;
  law.psi_least = numbers.psi_least.central;
  return law;
}

failure::ChipLaw chip_law(const scenario::Scenario& scenario, const scenario::GradeRecord& grade) {
  const scenario::ModelNumbers& numbers = scenario.numbers;
  failure::ChipLaw law;
  law.edge_strength = grade.edge_strength.central * scenario.bit.lot.edge_share.central;
  law.weibull_modulus = numbers.weibull_modulus.central;
  law.hot_share = numbers.edge_hot_share.central;
  law.damaged_share = numbers.edge_damaged_share.central;
  law.roughness_impacts = numbers.roughness_impacts.central;
  law.roughness_overload = numbers.roughness_overload.central;
  law.load_variation = numbers.load_variation.central;
  law.brittle_strength = numbers.brittle_strength.central;
  law.unevenness = numbers.bottom_unevenness.central;
  law.touch_down_overload = numbers.touch_down_overload.central;
  law.impact_impedance = numbers.impact_impedance.central;
  law.chip_size_share = numbers.chip_size_share.central;
  law.shock_share = numbers.shock_share.central;
  law.table_modulus = numbers.table_modulus.central;
  law.table_expansion = numbers.table_expansion.central;
  law.table_poisson = numbers.table_poisson.central;
  return law;
}

thermal::CutterMaterials cutter_materials(const scenario::Scenario& scenario,
                                          const scenario::GradeRecord& grade) {
  const scenario::ModelNumbers& numbers = scenario.numbers;
  thermal::CutterMaterials materials;
  materials.table_conductivity = grade.table_conductivity.central;
  materials.table_density = grade.table_density.central;
  materials.carbide_conductivity = grade.carbide_conductivity.central;
  materials.carbide_density = grade.carbide_density.central;
  materials.carbide_heat_capacity = grade.carbide_heat_capacity.central;
  materials.body_conductivity = scenario.bit.body.conductivity.central;
  materials.pocket_conductance = numbers.pocket_conductance.central;
  materials.exposed_share = numbers.exposed_share.central;
  materials.edge_factor = numbers.spreading_edge_factor.central;
  return materials;
}

hydraulics::CleaningLaw cleaning_law(const scenario::Scenario& scenario, const geometry::BitLayout& bit) {
  const scenario::ModelNumbers& numbers = scenario.numbers;
  const double own_share = scenario.bit.build.junk_slot_share, pipe = 0.5 * scenario.string.pipe_diameter;
  hydraulics::CleaningLaw law;
  law.bit_diameter = 2.0 * bit.bit_radius;
  law.hole_area = pi * bit.bit_radius * bit.bit_radius;
  law.blades = bit.blades;
  law.packed_share = numbers.packed_share.central;
  law.cuttings_spread = numbers.cuttings_spread.central;
  law.suspending_transport = numbers.suspending_transport.central;
  law.burying_depth = numbers.burying_height.central * 2.0 * geometry::cutter_radii(bit).mean();
  law.throwing_radius =
      hydraulics::throwing_radius(bit.radius, bit.side_rake, numbers.chip_friction_speed_share.central);
  law.slots.area = (own_share > 0.0 ? own_share : numbers.junk_slot_share.central) * law.hole_area;
  law.slots.volume = law.slots.area * numbers.slot_height.central * law.bit_diameter;
  law.slots.annulus_area = law.hole_area - pi * pipe * pipe;
  law.slots.packed_fraction = numbers.packed_fraction.central;
  law.slots.port_area = scenario.bit.build.port_area;
  law.slots.discharge = numbers.port_discharge.central;
  law.slots.bed_grain = numbers.bed_grain.central;
  law.slots.pressure_limit = scenario.pump_pressure_limit > 0.0 ? scenario.pump_pressure_limit
                                                                : std::numeric_limits<double>::infinity();
  return law;
}

thermal::CoolingLaw cooling_law(const scenario::ModelNumbers& numbers, const geometry::BitLayout& bit,
                                const hydraulics::Slots& slots) {
  thermal::CoolingLaw law;
  law.radius = bit.radius;
  law.cutter_diameter = 2.0 * geometry::cutter_radii(bit);
  law.bit_radius = bit.bit_radius;
  law.slot_diameter = 2.0 * std::sqrt(slots.area / (pi * std::max(bit.blades, 1)));
  law.slot_volume = slots.volume;
  law.wall_speed_share = numbers.wall_speed_share.central;
  law.boiling_surface_factor = numbers.boiling_surface_factor.central;
  law.steam_convection = numbers.steam_convection.central;
  law.packed_void_share = numbers.packed_void_share.central;
  law.bed_grain = numbers.bed_grain.central;
  law.dry_out_factor = numbers.dry_out_factor.central;
  law.renewal_turns = numbers.renewal_turns.central;
  law.still_expansion = numbers.still_expansion.central;
  return law;
}

thermal::BottomWaterLaw bottom_water_law(const scenario::Scenario& scenario, const geometry::BitLayout& bit,
                                         const hydraulics::Slots& slots) {
  const scenario::ModelNumbers& numbers = scenario.numbers;
  return {numbers.dry_capacity_share.central,
          numbers.flash_time.central,
          numbers.fall_back_time.central,
          numbers.level_band.central,
          numbers.packed_pores_loss.central,
          slots.annulus_area,
          2.0 * bit.bit_radius - scenario.string.pipe_diameter};
}

wear::CutterWearLaw cutter_wear_law(const scenario::Scenario& scenario, const geometry::BitLayout& bit) {
  const scenario::ModelNumbers& numbers = scenario.numbers;
  wear::CutterWearLaw law;
  law.abrasion.coefficient = numbers.abrasion_coefficient.central * numbers.bit_to_bit_wear.central;
  law.abrasion.abrasivity_exponent = numbers.abrasivity_exponent.central;
  law.abrasion.carbide_ratio = numbers.carbide_wear_ratio.central;
  law.abrasion.acceleration_temperature = numbers.acceleration_temperature.central;
  law.abrasion.acceleration_scale = numbers.acceleration_scale.central;
  law.abrasion.leached_acceleration_temperature = numbers.leached_acceleration_temperature.central;
  law.abrasion.cutting_share = numbers.cutting_wear_share.central;
  law.abrasion.carbide_load_least = numbers.carbide_load_share.central;
  law.damage = wear::heat_damage_law(numbers.damage_seconds_at_750.central,
                                     numbers.damage_seconds_at_700.central, numbers.leached_limit.central);
  law.back_rake = bit.back_rake;
  law.shapes.kinds = bit.shapes;
  law.shapes.kind = bit.kind;
  law.table_conductivity.resize(bit.count());
  law.wear_resistance.resize(bit.count());
  for (Eigen::Index i = 0; i < bit.count(); ++i) {
    const scenario::GradeRecord& grade = scenario.bit.grade_of(i);
    law.table_conductivity(i) = grade.table_conductivity.central;
    law.wear_resistance(i) = grade.wear_resistance.central;
  }
  return law;
}

wear::BodyWearLaw body_wear_law(const scenario::Scenario& scenario, const geometry::BitLayout& bit) {
  const scenario::BitBuild& build = scenario.bit.build;
  return {scenario.numbers.erosion_coefficient.central, scenario.bit.body.erosion_resistance.central,
          bit.blades * build.blade_thickness * bit.bit_radius, build.gauge_pad_length * build.gauge_pad_width,
          bit.bit_radius};
}

failure::CutterRetention cutter_retention(const scenario::Scenario& scenario, const BitModels& models) {
  const scenario::ModelNumbers& numbers = scenario.numbers;
  const scenario::BitBuild& build = scenario.bit.build;
  const scenario::LotRecord& lot = scenario.bit.lot;
  const geometry::BitLayout& bit = models.bit;
  failure::CutterRetention retention;
  retention.braze = {numbers.braze_strength.central * lot.braze_share.central,
                     numbers.braze_softening.central, numbers.braze_solidus.central};
  retention.blade = {build.blade_height, build.blade_thickness, bit.bit_radius};
  retention.chips = models.edges.kinds.front().chips;
  retention.kind = bit.kind;
  for (std::size_t k = 0; k < bit.shapes.size(); ++k) {
    const thermal::CutterMaterials& materials = models.materials[k];
    retention.kinds.push_back(
        {{scenario.bit.kinds[k].grade.bond_strength.central * lot.bond_share.central,
          numbers.bond_mismatch.central, numbers.bond_neutral_temperature.central},
         bit.shapes[k],
         failure::bonded_pocket_area(bit.shapes[k], materials.exposed_share, materials.back_in_pocket)});
  }
  retention.back_rake = bit.back_rake;
  retention.zeta = models.mechanics.directions.zeta;
  retention.blade_of = bit.blade;
  retention.blades = bit.blades;
  retention.pocket_depth = wear::pocket_depth(bit);
  retention.body_strength = scenario.bit.body.strength.central;
  retention.cutter_spread = lot.strength_spread.central;
  retention.body_spread = scenario.bit.body.strength_spread.central;
  return retention;
}

}  // namespace

BitModels bit_models(const scenario::Scenario& scenario) {
  const scenario::ModelNumbers& numbers = scenario.numbers;
  const scenario::BodyRecord& body = scenario.bit.body;
  BitModels models;
  models.bit = scenario.bit.layout;
  for (geometry::CutterShape& shape : models.bit.shapes) shape.edge_radius = numbers.edge_radius.central;
  const geometry::BitLayout& bit = models.bit;
  const double R = bit.bit_radius;

  models.edge = edge_law(numbers);
  models.mechanics = cutting::bit_mechanics(bit, models.edge, scenario.bit.build.blade_thickness,
                                            numbers.blade_friction.central, numbers.pad_seating.central);
  models.unworn.emplace(bit, models.edge, geometry::usual_spacing(bit));
  models.unworn->update(Eigen::ArrayXd::Zero(bit.count()));
  models.unworn_rubbing = cutting::rubbing_limit(*models.unworn, models.mechanics.surfaces);
  models.rate = {numbers.rate_exponent.central, numbers.rate_speed.central, numbers.rate_depth.central};
  models.chip_heat = {numbers.chip_friction_speed_share.central, numbers.crushed_heat_share.central};
  models.cleaning = cleaning_law(scenario, bit);
  models.cutter_heat.networks.kind = bit.kind;
  models.cutter_heat.chip_speed_share = models.chip_heat.speed_share;
  models.cutter_heat.back_rake = bit.back_rake;
  models.cutter_heat.side_cosine = bit.side_rake.cos();
  models.cutter_heat.softening = {numbers.rock_softens.central, numbers.rock_melts.central};
  models.edges.kind = bit.kind;
  models.edges.back_rake = bit.back_rake;
  models.edges.boundary_undulation = numbers.boundary_undulation.central;
  for (std::size_t k = 0; k < bit.shapes.size(); ++k) {
    const scenario::GradeRecord& grade = scenario.bit.kinds[k].grade;
    models.materials.push_back(cutter_materials(scenario, grade));
    models.cutter_heat.networks.kinds.push_back(thermal::cutter_network(bit.shapes[k], models.materials[k]));
    models.edges.kinds.push_back(
        {chip_law(scenario, grade), bit.shapes[k], models.materials[k].table_conductivity});
  }
  models.edges.look_at_wedges();
  models.cooling = cooling_law(numbers, bit, models.cleaning.slots);
  models.bottom_heat = {
      body.volume_share.central * R * R * R * body.density.central * body.heat_capacity.central,
      numbers.body_wetted_share.central * R * R, models.cleaning.hole_area, numbers.warm_skin_depth.central};
  models.bottom_water = bottom_water_law(scenario, bit, models.cleaning.slots);
  models.wear = cutter_wear_law(scenario, bit);
  models.body_wear = body_wear_law(scenario, bit);
  models.pad_width = scenario.bit.build.gauge_pad_width;
  models.retention = cutter_retention(scenario, models);

  models.rubbing_coefficient = numbers.rubbing_coefficient.central / body.rubbing_resistance.central;
  models.settling_time = numbers.settling_time.central;
  models.bottom_volume = models.cleaning.slots.volume + models.cleaning.hole_area *
                                                            numbers.water_height.central *
                                                            models.cleaning.bit_diameter;
  models.wall_conductance = numbers.bottom_hole_conductance.central * models.cleaning.hole_area;
  models.jet_path = numbers.jet_path_share.central * R;
  return models;
}

}  // namespace dullcast::simulation
