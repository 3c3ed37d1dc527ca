#pragma once

#include "engine/scenario/scenario.hpp"
#include "tools/samples/invented_scenario.hpp"

/// A small bit in a short hole: what a run does, in hundredths of a second. Every number is invented.
namespace dullcast::testing {

inline void give_layout(scenario::Scenario& s, const geometry::BladePlan& plan,
                        const geometry::CutterShape& shape) {
  s.bit.layout = geometry::lay_out_blades(plan, shape);
  s.bit.starting_wear = Eigen::ArrayXd::Zero(s.bit.layout.count());
  s.bit.starting_damage = Eigen::ArrayXd::Zero(s.bit.layout.count());
}

/// Gives the column one rock from the surface down to `bottom` (m), and the plan the same end.
inline void give_one_layer(scenario::Scenario& s, double bottom, const scenario::RockRecord& rock) {
  s.column.layers.assign(1, {0.0, bottom, rock, 0.0, {}});
  s.plan.resize(1);
  s.plan[0].to = bottom;
}

/// Seven cutters of 13 mm on three blades of a 120 mm bit; 3 m of limestone over 2 m of sandstone; 20 kN,
/// 85 rpm; one hole; no rule for rework falls due.
inline scenario::Scenario short_scenario() {
  scenario::Scenario s = samples::invented_scenario();
  geometry::BladePlan plan = samples::invented_blade_plan();
  plan.bit_diameter = 0.12;
  plan.cutters_per_blade.resize(3);
  plan.cutters_per_blade << 3, 2, 2;
  geometry::CutterShape shape = samples::invented_shape();
  shape.radius = 6.5e-3;
  shape.length = 8e-3;
  give_layout(s, plan, shape);
  give_one_layer(s, 5.0, samples::invented_rock("limestone", 80e6, 1.0));
  s.column.layers[0].bottom = 3.0;
  s.column.layers.push_back({3.0, 5.0, samples::invented_rock("sandstone", 50e6, 2.5), 0.0, {}});
  s.string.pipe_diameter = 0.054;
  s.plan[0].weight_on_bit = 20e3;
  s.rules.least_progress = 0.0;
  s.stepping.relative_tolerance = 1e-4;
  s.repeat.trip_time = 1800.0;
  s.repeat.connection_every = 2.0;
  s.repeat.connection_time = 120.0;
  return s;
}

/// Limestone from end to end, no stops for rods, and hardly any wear: whatever differs is what a test
/// changes.
inline scenario::Scenario even_hole(double bottom) {
  scenario::Scenario s = short_scenario();
  give_one_layer(s, bottom, samples::invented_rock("limestone", 80e6, 1.0));
  s.repeat.connection_time = 0.0;
  s.numbers.abrasion_coefficient = samples::exactly(1e-22);
  return s;
}

/// The short scenario where abrasion is so fast that a hole or two wears the cutters by millimetres.
inline scenario::Scenario fast_wearing_scenario() {
  scenario::Scenario s = short_scenario();
  s.numbers.abrasion_coefficient = samples::exactly(3e-14);
  return s;
}

/// Hard rock at several times the usual weight and speed, hardly cooled: 1 m that burns cutters.
inline scenario::Scenario burning_scenario() {
  scenario::Scenario s = short_scenario();
  give_one_layer(s, 1.0, samples::invented_rock("granite", 200e6, 5.0));
  s.plan[0].weight_on_bit = 60e3;
  s.plan[0].rotary_speed = 8.0;
  s.plan[0].flow = 0.0;
  // Seats that hold whatever comes: heat alone acts.
  s.numbers.braze_strength = samples::exactly(1e12);
  s.bit.kinds.front().grade.bond_strength = samples::exactly(1e12);
  s.bit.body.strength = samples::exactly(1e12);
  return s;
}

}  // namespace dullcast::testing
