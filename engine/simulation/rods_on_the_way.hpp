#pragma once

#include <vector>

#include "engine/simulation/event_function.hpp"
#include "engine/simulation/rod_stops.hpp"
#include "engine/simulation/step_taken.hpp"

namespace dullcast::simulation {

/// The stops for rods that lie on a settled step (rod_stops.hpp). Stops at its two ends are worked out, where
/// forces are known, and those on the way lie on a straight line between them; where the ends differ by more
/// than the tolerance over all of them, on a parabola through the middle one too; where that bends by more
/// than the tolerance, each is worked out.
class RodsOnTheWay {
 public:
  /// The bit has come to a balance anew: what was worked out before does not hold.
  void forget() { here_.in = ahead_.in = nullptr; }
  /// Works out what a stop does where a step begins that may go over rods: the stepped system stands there.
  /// False where rods have to be followed in this interval (run.course).
  bool begin(RunInProgress& run);
  /// Works out the stops on a step that ends at `end`, where the stepped system stands. False where one must
  /// be followed instead, or where what they do would let an event happen that the step alone does not:
  /// run.course.rod_to_follow is then that rod's depth, and the step is to be taken anew up to there.
  /// Where warming again takes from what the step gained, it is taken from `end`, as far as the step gained
  /// anything.
  bool look(RunInProgress& run, const StepTaken& step, State& end, const EventFunctions& events);
  /// Adds what those do that lie no deeper than the run now is.
  void pass(RunInProgress& run, const StepTaken& step);

 private:
  struct Rod {
    double depth = 0.0;  // m
    RodStops::Stop stop;
  };
  /// What a stop does at one depth of one interval.
  struct Known {
    double depth = 0.0;  // m
    const DrillingInterval* in = nullptr;
    RodStops::Stop stop;
  };
  bool work_out(RunInProgress& run, const State& x, Known& known);
  bool work_out_each(RunInProgress& run, const StepTaken& step, const State& end);
  bool lay_between(RunInProgress& run, const StepTaken& step, const State& end);
  void take_back(const StateLayout& layout, const State& start, State& end);
  static bool follow_all(RunInProgress& run);
  std::vector<Rod> rods_;
  Known here_, ahead_;
  State x_;
};

}  // namespace dullcast::simulation
