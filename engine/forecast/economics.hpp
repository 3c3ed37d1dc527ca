#pragma once

#include <optional>

#include "engine/run/outcome.hpp"
#include "engine/scenario/scenario.hpp"

namespace dullcast {

/// What a run costs, in the scenario's money, per metre of hole [hb: C = (B + R t)/F, see models/cost.hpp].
struct RunCost {
  double footage = 0.0;           // m the figures stand for: to rework due, or to the run's end
  double per_metre = 0.0;         // bit and rig time over footage
  double rig = 0.0;               // of it: rig time in all
  double energy = 0.0;            // J at the bit
  double fuel = 0.0;              // m3, 0 when no fuel is given
  std::optional<double> waiting;  // extra money of a new bit over a rework, once past repair
};

/// Costs up to rework due where it fell due, otherwise to the run's end. No footage gives no cost (nothing).
std::optional<RunCost> run_cost(const Scenario& scenario, const RunOutcome& outcome);

}  // namespace dullcast
