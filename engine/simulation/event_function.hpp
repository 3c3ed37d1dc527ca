#pragma once

#include <functional>
#include <string>
#include <vector>

#include "engine/simulation/drilling_system.hpp"
#include "engine/simulation/linearly_implicit_stepper.hpp"

namespace dullcast::simulation {

/// Something that happens when value(x, system) rises through 0; `system` has evaluated x. Located in time,
/// acted upon once, then disarmed.
struct EventFunction {
  std::function<double(const State& x, const DrillingSystem& system)> value;
  std::function<void()> act;
  bool needs_forces = false;  // the value needs the system at x, not x alone
  double tolerance = 1e-9;    // of the value, when located
  bool armed = true;
};

/// Evaluates a system at any state inside a step, for watches that need forces.
using Probe = std::function<const DrillingSystem&(const State& x)>;

/// After an accepted step that ends at (x, t): when armed watches have risen through 0, goes back to the
/// earliest crossing by retaking the step, changes x and t to it and returns the watch's number; otherwise
/// returns -1.
int locate_first(const std::vector<EventFunction>& watches, LinearlyImplicitStepper& stepper,
                 DrillingSystem& system, const Probe& probe, State& x, double& t);

}  // namespace dullcast::simulation
