#pragma once

#include <string>

#include "engine/scenario/scenario.hpp"
#include "models/common/constants.hpp"

/// A scenario made in code, for tests that want a run without files. Every number is invented.
namespace dullcast::samples {

inline constexpr double degree = pi / 180.0;

inline constexpr double gallon_per_minute = 3.785411784e-3 / 60.0;  // m3/s, US

inline scenario::Quantity exactly(double value) {
  return {value, value, value, "given", "invented for tests"};
}

inline scenario::RockRecord invented_rock(const std::string& name, double strength, double abrasivity) {
  scenario::RockRecord rock;
  rock.name = name;
  rock.unconfined_strength = exactly(strength);
  rock.friction_angle = exactly(35.0 * degree);
  rock.youngs_modulus = exactly(300.0 * strength);
  rock.poissons_ratio = exactly(0.25);
  rock.cerchar_abrasivity = exactly(abrasivity);
  rock.conductivity = exactly(2.8);
  rock.density = exactly(2600.0);
  rock.heat_capacity = exactly(900.0);
  rock.contact_strength_ratio = exactly(1.5);
  rock.inclusion_share = rock.inclusion_size = rock.inclusion_strength = exactly(0.0);
  rock.inclusion_abrasivity = rock.stickiness = exactly(0.0);
  return rock;
}

inline scenario::FluidRecord invented_air() {
  return {"air", scenario::FluidKind::gas, exactly(1.225), exactly(1.8e-5), exactly(0.025), exactly(1005.0)};
}

inline scenario::ModelNumbers invented_numbers() {
  scenario::ModelNumbers n;
  n.drilling_efficiency = exactly(0.9);
  n.flat_friction = exactly(0.4);
  n.blade_friction = exactly(0.3);
  n.blade_bearing_ratio = exactly(4.0);
  n.land_reference = exactly(0.5e-3);
  n.psi_at_reference = exactly(15.0 * degree);
  n.psi_slope = exactly(0.8);
  n.psi_least = exactly(5.0 * degree);
  n.edge_radius = exactly(30e-6);
  n.chip_friction_speed_share = exactly(0.5);
  n.abrasion_coefficient = exactly(1e-17);
  n.abrasivity_exponent = exactly(1.5);
  n.carbide_wear_ratio = exactly(150.0);
  n.acceleration_temperature = exactly(350.0 + celsius_zero);
  n.acceleration_scale = exactly(100.0);
  n.rate_exponent = exactly(0.079);
  n.rate_speed = exactly(0.4);
  n.rate_depth = exactly(0.4e-3);
  n.crushed_heat_share = exactly(0.6);
  n.rock_softens = exactly(900.0 + celsius_zero);
  n.rock_melts = exactly(1250.0 + celsius_zero);
  n.bit_to_bit_wear = exactly(1.0);
  n.cutting_wear_share = exactly(1.0);
  n.carbide_load_share = exactly(0.1);
  n.leached_acceleration_temperature = exactly(650.0 + celsius_zero);
  n.damage_seconds_at_750 = exactly(60.0);
  n.damage_seconds_at_700 = exactly(600.0);
  n.leached_limit = exactly(1200.0 + celsius_zero);
  n.spreading_edge_factor = exactly(1.0);
  n.pocket_conductance = exactly(1e4);
  n.exposed_share = exactly(0.5);
  n.junk_slot_share = exactly(0.35);
  n.body_wetted_share = exactly(8.0);
  n.bottom_hole_conductance = exactly(500.0);
  n.weibull_modulus = exactly(10.0);
  n.edge_hot_share = exactly(0.7);
  n.edge_damaged_share = exactly(0.3);
  n.roughness_impacts = exactly(1.0);
  n.roughness_overload = exactly(1.5);
  n.load_variation = exactly(0.45);
  n.brittle_strength = exactly(100e6);
  n.bottom_unevenness = exactly(0.15e-3);
  n.stone_protrusion = exactly(0.02);
  n.touch_down_overload = exactly(1.5);
  n.impact_impedance = exactly(1.2e7);
  n.chip_size_share = exactly(0.4);
  n.shock_share = exactly(0.6);
  n.boundary_undulation = exactly(10e-3);
  n.table_modulus = exactly(800e9);
  n.table_expansion = exactly(2.5e-6);
  n.table_poisson = exactly(0.1);
  n.land_bevel_width = exactly(0.4e-3);
  n.land_bevel_angle = exactly(45.0 * pi / 180.0);
  n.land_back_rake = exactly(15.0 * pi / 180.0);
  n.settling_time = exactly(0.05);
  n.warm_skin_depth = exactly(6e-3);
  n.dry_capacity_share = exactly(0.05);
  n.wall_speed_share = exactly(0.5);
  n.jet_path_share = exactly(0.5);
  n.slot_height = exactly(1.0);
  n.water_height = exactly(1.0);
  n.fall_back_time = exactly(5.0);
  n.flash_time = exactly(1.0);
  n.level_band = exactly(0.5);
  n.dry_out_factor = exactly(1.0);
  n.bed_grain = exactly(0.5e-3);
  n.suspending_transport = exactly(0.5);
  n.burying_height = exactly(0.6);
  n.renewal_turns = exactly(5.0);
  n.still_expansion = exactly(0.01);
  n.packed_pores_loss = exactly(0.985);
  n.packed_void_share = exactly(0.4);
  n.pad_seating = exactly(1e-4);
  n.braze_strength = exactly(230e6);
  n.braze_softening = exactly(250.0 + celsius_zero);
  n.braze_solidus = exactly(640.0 + celsius_zero);
  n.bond_mismatch = exactly(0.3e6);
  n.bond_neutral_temperature = exactly(20.0 + celsius_zero);
  n.port_discharge = exactly(0.95);
  n.cuttings_spread = exactly(1.0);
  n.packed_fraction = exactly(0.58);
  n.packed_share = exactly(0.3);
  n.boiling_surface_factor = exactly(0.0128);
  n.steam_convection = exactly(60.0);
  n.erosion_coefficient = exactly(1e-10);
  n.rubbing_coefficient = exactly(1e-16);
  return n;
}

inline geometry::BladePlan invented_blade_plan() {
  geometry::BladePlan plan;
  plan.bit_diameter = 0.2;
  plan.cutters_per_blade.resize(4);
  plan.cutters_per_blade << 5, 4, 5, 4;
  plan.wing_sweep = 30.0 * degree;
  plan.cone_angle = 12.0 * degree;
  plan.nose_share = 0.6;
  plan.gauge_angle = 60.0 * degree;
  plan.inner_back_rake = 15.0 * degree;
  plan.outer_back_rake = 20.0 * degree;
  plan.exposure = 8e-3;
  return plan;
}

inline geometry::CutterShape invented_shape() {
  return {8e-3, 13e-3, 2e-3, 0.0, 0.4e-3, 45.0 * degree, 30e-6};
}

/// Four layers to 120 m, one hole, stated weight.
inline scenario::Scenario invented_scenario() {
  scenario::Scenario s;
  s.title = "invented for tests";
  s.file = "made in code";
  s.bit.name = "test bit";
  s.bit.layout = geometry::lay_out_blades(invented_blade_plan(), invented_shape());
  const Eigen::Index n = s.bit.layout.count();
  s.bit.starting_wear = Eigen::ArrayXd::Zero(n);
  s.bit.starting_damage = Eigen::ArrayXd::Zero(n);
  s.bit.kinds.front().grade = {"test grade",    exactly(1.0),   exactly(543.0),
                               exactly(3510.0), exactly(100.0), exactly(14900.0),
                               exactly(220.0),  exactly(4.5e9), exactly(400e6)};
  s.bit.lot = {"sound", exactly(1.0), exactly(1.0), exactly(1.0), exactly(0.15)};
  s.bit.body = {"steel",      exactly(42.7), exactly(7850.0), exactly(473.0), exactly(2.0),
                exactly(1.0), exactly(1.0),  exactly(750e6),  exactly(0.1)};
  s.bit.build.blade_height = 0.3 * s.bit.layout.bit_radius;
  s.bit.build.blade_thickness = 0.22 * s.bit.layout.bit_radius;
  s.bit.build.gauge_pad_length = 0.5 * s.bit.layout.bit_radius;
  s.bit.build.gauge_pad_width = 0.22 * s.bit.layout.bit_radius;
  s.fluid = {"water",        scenario::FluidKind::liquid, exactly(999.0), exactly(1.1e-3), exactly(0.59),
             exactly(4186.0)};
  s.inlet_temperature = 288.15;
  s.numbers = invented_numbers();
  s.column.temperature_gradient = 0.025;
  const auto layer = [&](double top, double bottom, const scenario::RockRecord& rock) {
    s.column.layers.push_back({top, bottom, rock, 0.0, {}});
  };
  layer(0.0, 40.0, invented_rock("shale", 30e6, 0.6));
  layer(40.0, 80.0, invented_rock("limestone", 80e6, 1.0));
  layer(80.0, 115.0, invented_rock("sandstone", 50e6, 2.5));
  layer(115.0, 120.0, invented_rock("hard stringer", 130e6, 3.5));
  scenario::OperatingInterval interval;
  interval.from = 0.0;
  interval.to = 120.0;
  interval.weight_on_bit = 33e3;
  interval.rotary_speed = 85.0 / 60.0;
  interval.flow = 60.0 * 3.785411784e-3 / 60.0;
  s.plan = {interval};
  s.weight_limit = 35e3;
  s.string.pipe_diameter = 0.09;
  s.repeat.holes = 1;
  s.repeat.stop_at = scenario::StopAt::last_hole;
  s.repeat.trip_time = 3600.0;
  s.repeat.connection_time = 300.0;
  s.rules.worn_height = 4e-3;
  s.rules.least_progress = 0.05 / 3600.0;
  return s;
}

}  // namespace dullcast::samples
