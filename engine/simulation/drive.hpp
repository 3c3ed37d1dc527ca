#pragma once

#include "engine/simulation/drilling_events.hpp"
#include "engine/simulation/rods_on_the_way.hpp"
#include "engine/simulation/rows_on_the_way.hpp"
#include "engine/simulation/run.hpp"
#include "engine/simulation/run_in_progress.hpp"

namespace dullcast::simulation {

/// Steps without an event or a change of settings: a long hole between two rods takes some dozens, a slow
/// table's burning some thousands. A run that takes more goes nowhere and says so (std::runtime_error).
inline constexpr long usual_most_steps = 200000;

/// Steps one run hole after hole. What happens on the way is in the files of events.
class Drive {
 public:
  Drive(const scenario::Scenario& scenario, const Progress& progress, Rows rows = Rows::kept,
        long most_steps_in_a_row = usual_most_steps, const std::atomic<bool>* give_up = nullptr);
  RunOutcome drill_all();

 private:
  void drill_hole(int hole);
  void drill_interval(const DrillingInterval& planned, const DrillingInterval* above);
  void step_until_something_happens(double& dt);
  void drill_settled(double& dt);
  bool settle(const State* slope = nullptr);
  /// Throws RunGivenUp once that is asked for.
  void go_on() const;
  /// What an accepted step leaves behind, and the event that cuts it short, -1 for none.
  int finish_step(StepTaken& step);
  /// Acts on the first event whose value has risen already; false when there is none.
  bool act_on_what_is_already_due();
  void act_on(EventFunction& event);

  const Progress& progress_;
  long most_steps_in_a_row_;
  const std::atomic<bool>* give_up_;
  RunInProgress run_;
  EventFunctions events_;
  RodsOnTheWay rods_;
  double located_within_;  // share of a step, of events that need forces
  RowsOnTheWay rows_;
};

}  // namespace dullcast::simulation
