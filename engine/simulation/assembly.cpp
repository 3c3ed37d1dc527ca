#include "engine/simulation/assembly.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "models/hydraulics/port_flow.hpp"
#include "models/thermal/convection.hpp"

namespace dullcast::simulation {
namespace {

void set_fluid(const scenario::Scenario& scenario, const BitModels& models, DrillingInterval& interval) {
  const scenario::OperatingInterval& settings = interval.settings;
  const scenario::FluidAtBit at_bit =
      scenario::fluid_at_bit(scenario.fluid, settings, scenario.inlet_temperature);
  interval.fluid = at_bit.fluid;
  interval.flow_at_bit = at_bit.flow;
  interval.liquid = scenario.fluid.kind == scenario::FluidKind::liquid;
  if (!interval.liquid) {
    interval.mist_rate = materials::mist_water_density * settings.mist_water;
    interval.gas_rate = scenario.fluid.density.central * settings.flow;
  }
  interval.fluid_mass = at_bit.fluid.density * models.bottom_volume;
  interval.fluid_capacity = interval.fluid_mass * at_bit.fluid.heat_capacity;
  const scenario::BitBuild& build = scenario.bit.build;
  if (build.port_area > 0.0 && at_bit.flow > 0.0) {
    interval.jet_wash = thermal::wall_jet_speed(hydraulics::jet_velocity(at_bit.flow, build.port_area),
                                                build.port_diameter, models.jet_path);
  }
}

void set_operation(const scenario::Scenario& scenario, const BitModels& models,
                   const scenario::OperatingInterval& settings, DrillingInterval& interval) {
  interval.settings = settings;
  interval.rotary_speed = interval.resistance.rotary_speed = settings.rotary_speed;
  interval.flow = settings.flow;
  interval.most_depth_of_cut = settings.feed_limit && settings.rotary_speed > 0.0
                                   ? *settings.feed_limit / settings.rotary_speed
                                   : std::numeric_limits<double>::infinity();
  set_fluid(scenario, models, interval);
}

/// Stones are confined at the hole bottom like the ground between them.
failure::EdgeGround edge_ground(const scenario::Scenario& scenario, const failure::ChipLaw& chips,
                                const scenario::Layer& ground, const materials::Rock& rock,
                                const cutting::RockResistance& between) {
  failure::EdgeGround edges;
  edges.strength = between.specific_energy;
  edges.impedance = std::sqrt(rock.density * rock.youngs_modulus);
  edges.inclusions.share = ground.rock.inclusion_share.central;
  edges.inclusions.size = ground.rock.inclusion_size.central;
  if (edges.inclusions.share > 0.0) {
    materials::Rock stone = rock;
    stone.unconfined_strength = ground.rock.inclusion_strength.central;
    edges.inclusions.strength = materials::bottom_hole_strength(stone, ground.excess_pressure);
    edges.inclusions.protrusion =
        failure::stone_protrusion(scenario.numbers.stone_protrusion.central, edges.inclusions.size,
                                  edges.strength, edges.inclusions.strength);
  }
  edges.factors = failure::peak_factors(chips, edges.strength, edges.inclusions);
  return edges;
}

DrillingInterval make_interval(const scenario::Scenario& scenario, const BitModels& models, int layer,
                               const scenario::OperatingInterval& settings) {
  const scenario::Layer& ground = scenario.column.layers[static_cast<std::size_t>(layer)];
  DrillingInterval interval;
  interval.top = std::max(ground.top, settings.from);
  interval.bottom = std::min(ground.bottom, settings.to);
  interval.layer = layer;
  interval.rock = rock_of(ground.rock);
  cutting::RockResistance between = cutting::rock_resistance(
      interval.rock, ground.excess_pressure, scenario.numbers.flat_friction.central,
      scenario.numbers.drilling_efficiency.central, scenario.numbers.blade_bearing_ratio.central);
  between.rate = models.rate;
  interval.edge_ground =
      edge_ground(scenario, models.edges.kinds.front().chips, ground, interval.rock, between);
  const failure::Inclusions& stones = interval.edge_ground.inclusions;
  interval.resistance = cutting::stony_resistance(between, stones.share, stones.strength);
  const double on_stones = cutting::load_on_stones(interval.resistance, stones.share, stones.strength);
  const auto shared = [&](const auto& coefficient) {
    return wear::shared_wear_coefficient(coefficient(interval.rock.cerchar_abrasivity),
                                         coefficient(ground.rock.inclusion_abrasivity.central), on_stones);
  };
  const wear::AbrasionLaw& abrasion = models.wear.abrasion;
  interval.wear_coefficient_cold = shared([&](double abrasivity) {
    return wear::diamond_wear_coefficient(abrasion, abrasivity, 1.0, 0.0, false);
  });
  interval.stickiness = ground.rock.stickiness.central;
  interval.rubbing_coefficient = shared([&](double abrasivity) {
    return wear::body_rubbing_coefficient(models.rubbing_coefficient, abrasivity,
                                          abrasion.abrasivity_exponent);
  });
  set_operation(scenario, models, settings, interval);
  return interval;
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
  models.ground.string = scenario::drill_string_of(scenario.string);
  for (std::size_t layer = 0; layer < scenario.column.layers.size(); ++layer) {
    for (const scenario::OperatingInterval& settings : scenario.plan) {
      const scenario::Layer& ground = scenario.column.layers[layer];
      if (std::max(ground.top, settings.from) < std::min(ground.bottom, settings.to)) {
        models.intervals.push_back(make_interval(scenario, models.bit, static_cast<int>(layer), settings));
      }
    }
  }
  return models;
}

DrillingInterval with_settings(const scenario::Scenario& scenario, const BitModels& models,
                               const DrillingInterval& interval,
                               const scenario::OperatingInterval& settings) {
  DrillingInterval changed = interval;
  set_operation(scenario, models, settings, changed);
  return changed;
}

}  // namespace dullcast::simulation
