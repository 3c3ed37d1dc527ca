#pragma once

#include <functional>
#include <limits>
#include <memory>
#include <vector>

#include "engine/simulation/drilling_system.hpp"
#include "engine/simulation/step_taken.hpp"

namespace dullcast::simulation {

struct RunInProgress;

/// Something that happens when its value rises through 0: located in time, acted upon once, then disarmed.
class EventFunction {
 public:
  EventFunction() = default;
  EventFunction(const EventFunction&) = delete;
  EventFunction& operator=(const EventFunction&) = delete;
  virtual ~EventFunction() = default;

  /// `system` has evaluated x.
  virtual double value(const State& x, const DrillingSystem& system) const = 0;
  /// Whether the value needs the system at x, not x alone.
  virtual bool needs_forces() const { return false; }
  /// How near to 0 its value is to be where it is located by the state alone: metres, shares, kelvins.
  virtual double located_to() const { return 1e-9; }
  /// Whether it is a place that no other event may be landed on beyond: where other rock or settings begin.
  virtual bool is_an_end() const { return false; }
  virtual void act(RunInProgress& run) = 0;

  bool armed = true;
  /// The value where the last step ended, and where that was, if it is known: where the next begins.
  double seen = 0.0, seen_at = std::numeric_limits<double>::quiet_NaN();
  /// The value where the step ends that is looked at, and whether it has risen there.
  double end_value = 0.0;
  bool has_risen = false;
};
using EventFunctions = std::vector<std::unique_ptr<EventFunction>>;

/// Evaluates a system at any state inside a step, for event functions that need forces.
using Probe = std::function<const DrillingSystem&(const State& x)>;

/// After an accepted step that ends at (x, t): when armed event functions have risen through 0, goes back to
/// the earliest crossing by retaking the step, changes x and t (s) to it and returns that event's number;
/// otherwise returns -1. No end of rock or settings is left behind there. Events that need forces
/// are found `within` a share of the step.
int locate_first(const EventFunctions& events, StepTaken& step, const DrillingSystem& system,
                 const Probe& probe, double within, State& x, double& t);

}  // namespace dullcast::simulation
