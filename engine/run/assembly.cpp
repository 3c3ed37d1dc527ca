#include "engine/run/assembly.hpp"

#include <algorithm>

#include "models/letters.hpp"

namespace dullcast {
namespace {

BitModels bit_models(const Scenario& scenario) {
  const ModelNumbers& numbers = scenario.numbers;
  const GradeRecord& grade = scenario.bit.grade;
  const BodyRecord& body = scenario.bit.body;
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
  models.directions = force_directions(models.bit, models.edge);
  models.surfaces = blade_surfaces(models.bit);

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

  models.wear_resistance = grade.wear_resistance.central;
  models.blade_friction = numbers.blade_friction.central;
  models.chip_speed_share = numbers.chip_friction_speed_share.central;
  const double R = models.bit.bit_radius;
  models.body_capacity =
      body.volume_share.central * R * R * R * body.density.central * body.heat_capacity.central;
  return models;
}

Fluid fluid_of(const FluidRecord& record) {
  return {record.density.central, record.viscosity.central, record.conductivity.central,
          record.heat_capacity.central};
}

/// Fluid as it passes the bit at depth z, with its volume flow there.
struct FluidAtBit {
  Fluid fluid;
  double flow = 0.0;  // m3/s
};

FluidAtBit fluid_at_bit(const Scenario& scenario, const OperatingInterval& interval) {
  const Fluid fluid = fluid_of(scenario.fluid);
  if (scenario.fluid.kind == FluidKind::liquid) return {fluid, interval.flow};
  // Air returns to the open surface: near one atmosphere at the bit, denser by no more than friction makes
  // it.
  const Fluid at_bit = gas_with_mist(fluid, interval.flow, interval.mist_water, standard_atmosphere,
                                     scenario.inlet_temperature);
  const double mass_flow = fluid.density * interval.flow + mist_water_density * interval.mist_water;
  return {at_bit, at_bit.density > 0.0 ? mass_flow / at_bit.density : 0.0};
}

void add_cooling(const Scenario& scenario, const BitModels& models, const OperatingInterval& interval,
                 Stretch& stretch) {
  const ModelNumbers& numbers = scenario.numbers;
  const FluidAtBit at_bit = fluid_at_bit(scenario, interval);
  const double R = models.bit.bit_radius;
  const double hole_area = pi * R * R;
  const double slot_velocity = at_bit.flow / (numbers.junk_slot_share.central * hole_area);
  const double cutter_diameter = 2.0 * models.bit.shape.radius;
  double mean_convection = 0.0;
  for (Eigen::Index i = 0; i < models.bit.count(); ++i) {
    const double v = speed_past_cutter(slot_velocity, interval.rotary_speed, models.bit.radius(i));
    const double h = cutter_convection(at_bit.fluid, v, cutter_diameter);
    stretch.networks.push_back(cutter_network(models.bit.shape, models.materials, h));
    mean_convection += h / static_cast<double>(models.bit.count());
  }
  stretch.body_to_fluid = mean_convection * numbers.body_wetted_share.central * R * R;
  const double volume = hole_area * 2.0 * R * (1.0 + numbers.junk_slot_share.central);
  stretch.fluid_capacity = at_bit.fluid.density * at_bit.fluid.heat_capacity * volume;
  stretch.fluid_flow_capacity = at_bit.fluid.density * at_bit.fluid.heat_capacity * at_bit.flow;
  stretch.fluid_to_wall = numbers.bottom_hole_conductance.central * hole_area;
  stretch.can_boil = scenario.fluid.kind == FluidKind::liquid;
  stretch.string_fluid_density = at_bit.fluid.density;
}

Stretch make_stretch(const Scenario& scenario, const BitModels& models, int layer,
                     const OperatingInterval& interval) {
  const Layer& ground = scenario.column.layers[static_cast<std::size_t>(layer)];
  Stretch stretch;
  stretch.top = std::max(ground.top, interval.from);
  stretch.bottom = std::min(ground.bottom, interval.to);
  stretch.layer = layer;
  stretch.rock = rock_of(ground.rock);
  stretch.resistance =
      rock_resistance(stretch.rock, ground.excess_pressure, scenario.numbers.flat_friction.central,
                      scenario.numbers.drilling_efficiency.central);
  stretch.wear_coefficient_cold = diamond_wear_coefficient(models.abrasion, stretch.rock.cerchar_abrasivity,
                                                           models.wear_resistance, 0.0, false);
  stretch.rotary_speed = interval.rotary_speed;
  stretch.flow = interval.flow;
  stretch.most_depth_of_cut = interval.feed_limit ? *interval.feed_limit / interval.rotary_speed
                                                  : std::numeric_limits<double>::infinity();
  stretch.weight_stated = interval.weight_on_bit.has_value();
  stretch.stated_weight = interval.weight_on_bit.value_or(0.0);
  stretch.pull_down = interval.pull_down;
  stretch.holdback = interval.holdback;
  add_cooling(scenario, models, interval, stretch);
  return stretch;
}

}  // namespace

Rock rock_of(const RockRecord& record) {
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

RunModels assemble(const Scenario& scenario) {
  RunModels models;
  models.bit = bit_models(scenario);
  models.ground.surface_temperature = scenario.column.surface_temperature;
  models.ground.temperature_gradient = scenario.column.temperature_gradient;
  models.ground.inlet_temperature = scenario.inlet_temperature;
  models.ground.standing_level = scenario.column.water_level;
  models.ground.string = {scenario.string.pipe_weight, scenario.string.collar_weight,
                          scenario.string.collar_length, scenario.string.steel_density};
  for (std::size_t layer = 0; layer < scenario.column.layers.size(); ++layer) {
    for (const OperatingInterval& interval : scenario.plan) {
      const Layer& ground = scenario.column.layers[layer];
      if (std::max(ground.top, interval.from) < std::min(ground.bottom, interval.to)) {
        models.stretches.push_back(make_stretch(scenario, models.bit, static_cast<int>(layer), interval));
      }
    }
  }
  return models;
}

}  // namespace dullcast
