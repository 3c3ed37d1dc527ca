#include "engine/simulation/assembly.hpp"

#include <algorithm>
#include <cmath>

#include "models/common/constants.hpp"
#include "models/hydraulics/port_flow.hpp"
#include "models/thermal/convection.hpp"
#include "models/wear/body_wear.hpp"

namespace dullcast::simulation {
namespace {

failure::ChipLaw chip_law(const scenario::Scenario& scenario) {
  const scenario::ModelNumbers& numbers = scenario.numbers;
  failure::ChipLaw law;
  law.edge_strength = scenario.bit.grade.edge_strength.central * scenario.bit.lot.edge_share.central;
  law.weibull_modulus = numbers.weibull_modulus.central;
  law.hot_share = numbers.edge_hot_share.central;
  law.damaged_share = numbers.edge_damaged_share.central;
  law.roughness_impacts = numbers.roughness_impacts.central;
  law.roughness_overload = numbers.roughness_overload.central;
  law.impact_impedance = numbers.impact_impedance.central;
  law.chip_size_share = numbers.chip_size_share.central;
  law.shock_share = numbers.shock_share.central;
  // Sintered diamond [mem]; what of the stress reaches the edge is shock_share.
  law.table_modulus = 800e9;
  law.table_expansion = 2.5e-6;
  law.table_poisson = 0.1;
  return law;
}

CutterRetention seats_of(const scenario::Scenario& scenario, const BitModels& models) {
  const scenario::ModelNumbers& numbers = scenario.numbers;
  const scenario::BitBuild& build = scenario.bit.build;
  const scenario::LotRecord& lot = scenario.bit.lot;
  const geometry::CutterShape& shape = models.bit.shape;
  CutterRetention seats;
  seats.braze = {numbers.braze_strength.central * lot.braze_share.central, numbers.braze_softening.central,
                 numbers.braze_solidus.central};
  seats.bond = {scenario.bit.grade.bond_strength.central * lot.bond_share.central,
                numbers.bond_mismatch.central, numbers.bond_neutral_temperature.central};
  seats.blade = {build.blade_height, build.blade_thickness, models.bit.bit_radius};
  seats.bonded_area =
      failure::bonded_pocket_area(shape, models.materials.exposed_share, models.materials.back_in_pocket);
  seats.pocket_depth = wear::pocket_depth(models.bit);
  seats.body_strength = scenario.bit.body.strength.central;
  seats.cutter_spread = lot.strength_spread.central;
  seats.body_spread = scenario.bit.body.strength_spread.central;
  return seats;
}

double slot_share(const scenario::Scenario& scenario) {
  const double own = scenario.bit.build.junk_slot_share;
  return own > 0.0 ? own : scenario.numbers.junk_slot_share.central;
}

hydraulics::Slots slots_of(const scenario::Scenario& scenario) {
  const double R = scenario.bit.layout.bit_radius, hole_area = pi * R * R;
  const double pipe = 0.5 * scenario.string.pipe_diameter;
  hydraulics::Slots slots;
  slots.area = slot_share(scenario) * hole_area;
  slots.volume = slots.area * 2.0 * R;  // over one bit diameter
  slots.annulus_area = hole_area - pi * pipe * pipe;
  slots.packed_fraction = scenario.numbers.packed_fraction.central;
  slots.port_area = scenario.bit.build.port_area;
  slots.discharge = scenario.numbers.port_discharge.central;
  slots.pressure_limit = scenario.pump_pressure_limit > 0.0 ? scenario.pump_pressure_limit
                                                            : std::numeric_limits<double>::infinity();
  return slots;
}

BitModels bit_models(const scenario::Scenario& scenario) {
  const scenario::ModelNumbers& numbers = scenario.numbers;
  const scenario::GradeRecord& grade = scenario.bit.grade;
  const scenario::BodyRecord& body = scenario.bit.body;
  BitModels models;
  models.bit = scenario.bit.layout;
  models.bit.shape.edge_radius = numbers.edge_radius.central;

  models.edge.land_reference = numbers.land_reference.central;
  models.edge.bevel_width_reference = 4e-4;             // m: the conventional bevel of the fit
  models.edge.bevel_angle_reference = 45.0 * pi / 180;  // rad
  models.edge.back_rake_reference = 15.0 * pi / 180;    // rad
  models.edge.psi_at_reference = numbers.psi_at_reference.central;
  models.edge.psi_slope = numbers.psi_slope.central;
  models.edge.psi_least = numbers.psi_least.central;
  models.directions = cutting::force_directions(models.bit, models.edge);
  models.surfaces = cutting::blade_surfaces(models.bit);

  models.abrasion.coefficient = numbers.abrasion_coefficient.central;
  models.abrasion.abrasivity_exponent = numbers.abrasivity_exponent.central;
  models.abrasion.carbide_ratio = numbers.carbide_wear_ratio.central;
  models.abrasion.acceleration_temperature = numbers.acceleration_temperature.central;
  models.abrasion.acceleration_scale = numbers.acceleration_scale.central;
  models.damage = {numbers.damage_seconds_at_750.central, numbers.damage_seconds_at_700.central,
                   numbers.leached_limit.central};

  models.materials.table_conductivity = grade.table_conductivity.central;
  models.materials.table_density = grade.table_density.central;
  models.materials.carbide_conductivity = grade.carbide_conductivity.central;
  models.materials.carbide_density = grade.carbide_density.central;
  models.materials.carbide_heat_capacity = grade.carbide_heat_capacity.central;
  models.materials.body_conductivity = body.conductivity.central;
  models.materials.pocket_conductance = numbers.pocket_conductance.central;
  models.materials.exposed_share = numbers.exposed_share.central;
  models.materials.edge_factor = numbers.spreading_edge_factor.central;

  models.network = thermal::cutter_network(models.bit.shape, models.materials);

  models.wear_resistance = grade.wear_resistance.central;
  models.blade_friction = numbers.blade_friction.central;
  models.chip_speed_share = numbers.chip_friction_speed_share.central;
  const double R = models.bit.bit_radius;
  models.body_capacity =
      body.volume_share.central * R * R * R * body.density.central * body.heat_capacity.central;
  models.body_wetted_area = numbers.body_wetted_share.central * R * R;
  models.boiling_surface_factor = numbers.boiling_surface_factor.central;
  models.steam_convection = numbers.steam_convection.central;
  models.chips = chip_law(scenario);
  models.retention = seats_of(scenario, models);
  models.hole_area = pi * R * R;
  models.slots = slots_of(scenario);
  models.slot_diameter = 2.0 * std::sqrt(models.slots.area / (pi * std::max(models.bit.blades, 1)));
  models.annulus_diameter = 2.0 * R - scenario.string.pipe_diameter;
  models.cuttings_spread = numbers.cuttings_spread.central;
  models.packed_share = numbers.packed_share.central;
  models.erosion_coefficient = numbers.erosion_coefficient.central;
  models.erosion_resistance = body.erosion_resistance.central;
  models.rubbing_coefficient = numbers.rubbing_coefficient.central / body.rubbing_resistance.central;
  const scenario::BitBuild& build = scenario.bit.build;
  models.blade_area = models.bit.blades * build.blade_thickness * R;
  models.pad_area = build.gauge_pad_length * build.gauge_pad_width;
  models.boundary_undulation = numbers.boundary_undulation.central;
  return models;
}

materials::Fluid fluid_of(const scenario::FluidRecord& record) {
  return {record.density.central, record.viscosity.central, record.conductivity.central,
          record.heat_capacity.central};
}

/// Fluid as it passes the bit at depth z, with its volume flow there.
struct FluidAtBit {
  materials::Fluid fluid;
  double flow = 0.0;  // m3/s
};

FluidAtBit fluid_at_bit(const scenario::Scenario& scenario, const scenario::OperatingInterval& interval) {
  const materials::Fluid fluid = fluid_of(scenario.fluid);
  if (scenario.fluid.kind == scenario::FluidKind::liquid) return {fluid, interval.flow};
  // Air returns to the open surface: near one atmosphere at the bit, denser by no more than friction makes
  // it.
  const materials::Fluid at_bit = materials::gas_with_mist(fluid, interval.flow, interval.mist_water,
                                                           standard_atmosphere, scenario.inlet_temperature);
  const double mass_flow =
      fluid.density * interval.flow + materials::mist_water_density * interval.mist_water;
  return {at_bit, at_bit.density > 0.0 ? mass_flow / at_bit.density : 0.0};
}

void add_cooling(const scenario::Scenario& scenario, const BitModels& models, DrillingInterval& stretch) {
  const scenario::OperatingInterval& interval = stretch.settings;
  const FluidAtBit at_bit = fluid_at_bit(scenario, interval);
  const double R = models.bit.bit_radius;
  const double volume = models.slots.volume + models.hole_area * 2.0 * R;
  stretch.fluid = at_bit.fluid;
  stretch.flow_at_bit = at_bit.flow;
  stretch.liquid = scenario.fluid.kind == scenario::FluidKind::liquid;
  if (!stretch.liquid) {
    stretch.mist_rate = materials::mist_water_density * interval.mist_water;
    stretch.gas_rate = scenario.fluid.density.central * interval.flow;
  }
  stretch.fluid_mass = at_bit.fluid.density * volume;
  stretch.fluid_capacity = stretch.fluid_mass * at_bit.fluid.heat_capacity;
  stretch.fluid_to_wall = scenario.numbers.bottom_hole_conductance.central * models.hole_area;
  stretch.string_fluid_density = at_bit.fluid.density;
  // From where the jets strike to the cutters: half the bit's radius on the mean [asm].
  const scenario::BitBuild& build = scenario.bit.build;
  if (build.port_area > 0.0 && at_bit.flow > 0.0) {
    stretch.jet_wash = thermal::wall_jet_speed(hydraulics::jet_velocity(at_bit.flow, build.port_area),
                                               build.port_diameter, 0.5 * R);
  }
}

void set_operation(const scenario::Scenario& scenario, const BitModels& models,
                   const scenario::OperatingInterval& interval, DrillingInterval& stretch) {
  constexpr double none = std::numeric_limits<double>::infinity();
  stretch.settings = interval;
  stretch.rotary_speed = interval.rotary_speed;
  stretch.flow = interval.flow;
  stretch.most_depth_of_cut = interval.feed_limit && interval.rotary_speed > 0.0
                                  ? *interval.feed_limit / interval.rotary_speed
                                  : none;
  stretch.weight_stated = interval.weight_on_bit.has_value();
  stretch.stated_weight = interval.weight_on_bit.value_or(0.0);
  stretch.pull_down = interval.pull_down;
  stretch.holdback = interval.holdback;
  add_cooling(scenario, models, stretch);
}

DrillingInterval make_stretch(const scenario::Scenario& scenario, const BitModels& models, int layer,
                              const scenario::OperatingInterval& interval) {
  const scenario::Layer& ground = scenario.column.layers[static_cast<std::size_t>(layer)];
  DrillingInterval stretch;
  stretch.top = std::max(ground.top, interval.from);
  stretch.bottom = std::min(ground.bottom, interval.to);
  stretch.layer = layer;
  stretch.rock = rock_of(ground.rock);
  stretch.resistance =
      cutting::rock_resistance(stretch.rock, ground.excess_pressure, scenario.numbers.flat_friction.central,
                               scenario.numbers.drilling_efficiency.central);
  stretch.wear_coefficient_cold = wear::diamond_wear_coefficient(
      models.abrasion, stretch.rock.cerchar_abrasivity, models.wear_resistance, 0.0, false);
  stretch.inclusions = {ground.rock.inclusion_share.central, ground.rock.inclusion_size.central,
                        ground.rock.inclusion_strength.central};
  stretch.stickiness = ground.rock.stickiness.central;
  // Blades and pads wear with the rock's abrasivity as the diamond does.
  stretch.rubbing_coefficient = models.rubbing_coefficient * std::pow(stretch.rock.cerchar_abrasivity,
                                                                      models.abrasion.abrasivity_exponent);
  set_operation(scenario, models, interval, stretch);
  return stretch;
}

}  // namespace

materials::Rock rock_of(const scenario::RockRecord& record) {
  return {record.unconfined_strength.central,
          record.friction_angle.central,
          record.youngs_modulus.central,
          record.poissons_ratio.central,
          record.cerchar_abrasivity.central,
          record.conductivity.central,
          record.density.central,
          record.heat_capacity.central,
          record.contact_strength_ratio.central};
}

RunModels assemble(const scenario::Scenario& scenario) {
  RunModels models;
  models.bit = bit_models(scenario);
  models.ground.surface_temperature = scenario.column.surface_temperature;
  models.ground.temperature_gradient = scenario.column.temperature_gradient;
  models.ground.inlet_temperature = scenario.inlet_temperature;
  models.ground.standing_level = scenario.column.water_level;
  models.ground.string = {scenario.string.pipe_weight, scenario.string.collar_weight,
                          scenario.string.collar_length, scenario.string.steel_density};
  for (std::size_t layer = 0; layer < scenario.column.layers.size(); ++layer) {
    for (const scenario::OperatingInterval& interval : scenario.plan) {
      const scenario::Layer& ground = scenario.column.layers[layer];
      if (std::max(ground.top, interval.from) < std::min(ground.bottom, interval.to)) {
        models.intervals.push_back(make_stretch(scenario, models.bit, static_cast<int>(layer), interval));
      }
    }
  }
  return models;
}

DrillingInterval with_settings(const scenario::Scenario& scenario, const BitModels& models,
                               const DrillingInterval& stretch, const scenario::OperatingInterval& interval) {
  DrillingInterval changed = stretch;
  set_operation(scenario, models, interval, changed);
  return changed;
}

}  // namespace dullcast::simulation
