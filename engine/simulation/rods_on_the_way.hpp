#pragma once

#include <vector>

#include "engine/simulation/event_function.hpp"
#include "engine/simulation/step_taken.hpp"

namespace dullcast::simulation {

/// The stops for rods that lie on a settled step (rod_stops.hpp). Up to three are worked out where they lie;
/// of more the first, the middle and the last, and the others by the parabola through these, where that bends
/// by no more than the tolerance over all of them.
class RodsOnTheWay {
 public:
  /// Works out the stops on a step that ends at `end`. False where one must be followed instead, or where
  /// what they do would let an event happen that the step alone does not: run.course.rod_to_follow is then
  /// that rod's depth, and the step is to be taken anew up to there.
  /// Where warming again takes from what the step gained, it is taken from `end`, as far as the step gained
  /// anything.
  bool look(RunInProgress& run, const StepTaken& step, State& end, const EventFunctions& events);
  /// Adds what those do that lie no deeper than the run now is.
  void pass(RunInProgress& run, const StepTaken& step);

 private:
  struct Rod {
    double depth = 0.0;  // m
    State gained;
    double hottest_table = 0.0;  // K
    int hottest_cutter = 0;
    bool flow_returns = false;
  };
  bool work_out(RunInProgress& run, const StepTaken& step, const State& end, std::size_t k);
  bool between_three(const RunInProgress& run);
  void take_back(const StateLayout& layout, const State& start, State& end);
  std::vector<Rod> rods_;
  State x_;
};

}  // namespace dullcast::simulation
