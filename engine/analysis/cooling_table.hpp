#pragma once

#include <string>
#include <vector>

#include "engine/scenario/scenario.hpp"
#include "engine/simulation/outcome.hpp"

namespace dullcast::analysis {

/// What one flow does at the bit: steady, clean slots, everything cold.
struct FlowRow {
  double flow = 0.0;             // m3/s as a plan states it
  bool planned = false;          // it is one of the plan's flows
  double convection = 0.0;       // W/(m2 K) at the outermost cutter, single phase
  double slot_velocity = 0.0;    // m/s
  double uphole_velocity = 0.0;  // m/s in the annulus
  double pressure_drop = 0.0;    // Pa, ports and slots
  double lifted_share = 0.0;     // 1, of the cuttings, least over the column's layers
};

/// Convection and cleaning against flow. Velocities and convection are those of the drilling interval that
/// makes the most metres, at its planned rotary speed.
struct FlowTable {
  int layer = 0;              // of that interval
  double rotary_speed = 0.0;  // rev/s
  int outermost_cutter = 0;
  double radius = 0.0;  // m, of that cutter on the bit
  std::vector<FlowRow> rows;
};

/// Flows worth tabling, smallest first: 2 to 200 gal/min in steps of about a half (a liquid), or from a
/// twentieth to five times the plan's greatest flow (a gas, with the plan's mist); the plan's own among them.
std::vector<double> flows_to_try(const scenario::Scenario& scenario);

/// The cutters are worn as at the scenario's start.
FlowTable flow_table(const scenario::Scenario& scenario, const std::vector<double>& flows);

/// Whether some flow keeps the flats cool enough.
enum class Coolable { between, at_any_flow, at_no_flow, does_not_drill };

/// The least flow for one layer, at the plan's weight and rotary speed of its middle.
struct LeastFlow {
  int layer = 0;
  std::string rock;
  double limit = 0.0;  // K, the acceleration temperature
  Coolable coolable = Coolable::between;
  double flow = 0.0;  // m3/s; the least flow tried where every flow does, the greatest where none does
  double hottest_at_most_flow = 0.0;  // K
  double hottest_at_plan = 0.0;       // K, hottest flat at the plan's flow
  double planned_flow = 0.0;          // m3/s
  /// Least flow that cleans the hole (hydraulics::cleans_hole), at the speed of clean slots; infinity where
  /// none tried does.
  double flow_to_clean = 0.0;  // m3/s
};
/// Rotating time of the short hole that a flow is tried on [asm: heat and cuttings settle in it].
inline constexpr double cooling_trial = 600.0;  // s
/// How closely the least flow is found, as a ratio of flows.
inline constexpr double flow_closeness = 1.03;

/// Finds by halving, between the first and the last of `flows`, the least flow that keeps every flat under
/// the acceleration temperature for cooling_trial of drilling in that layer alone (see layer_hole), with the
/// bit in `condition` and without abrasion. A flow on which the bit comes to a stand does not count as cool
/// enough. Deterministic.
LeastFlow least_flow(const scenario::Scenario& scenario, int layer, const simulation::BitCondition& condition,
                     const std::vector<double>& flows);

/// A bit worn to its rule: the outermost cutters worn by the allowance (the worn_height rule, or the share of
/// the exposure at which repair ends), inner ones in proportion to their radius, as the length of their
/// travel has it; never less than it starts with.
simulation::BitCondition worn_to_allowance(const scenario::Scenario& scenario);

}  // namespace dullcast::analysis
