#pragma once

#include <optional>

#include "engine/scenario/scenario.hpp"
#include "engine/simulation/outcome.hpp"

namespace dullcast::analysis {

/// What a run costs, in the scenario's money, per metre of hole [hb: C = (B + R t)/F, see
/// models/condition/cost.hpp].
struct RunCost {
  double footage = 0.0;           // m the figures stand for: to rework due, or to the run's end
  double per_metre = 0.0;         // bit and rig time over footage
  double rig = 0.0;               // of it: rig time in all
  double energy = 0.0;            // J at the bit
  double fuel = 0.0;              // m3, 0 when no fuel is given
  std::optional<double> waiting;  // extra money of a new bit over a rework, once past repair
};

/// Costs up to rework due where it fell due, otherwise to the run's end. No footage gives no cost (nothing).
std::optional<RunCost> run_cost(const scenario::Scenario& scenario, const simulation::RunOutcome& outcome);

/// What one metre of hole takes.
struct PerMetre {
  double rotating = 0.0;   // s drilling
  double elapsed = 0.0;    // s with connections and trips
  double fuel_heat = 0.0;  // J of fuel burned
  double money = 0.0;      // rig time, and bit or consumables; fuel is not in it (it has no price here)
};

/// This bit beside the scenario's other method, over the metres that run_cost stands for.
struct MethodComparison {
  PerMetre bit, other;
  bool fuel_known = false;  // false: no engine efficiency is given, and the bit's fuel_heat is its work alone
};

/// Nothing where the scenario names no other method or nothing was drilled. Connections and trips take either
/// the same time a metre: the rods and the hole are the same. The other method's figures are the scenario's
/// own; nothing here knows how it drills.
std::optional<MethodComparison> compare_methods(const scenario::Scenario& scenario,
                                                const simulation::RunOutcome& outcome);

}  // namespace dullcast::analysis
