#pragma once

#include "engine/simulation/drilling_events.hpp"
#include "engine/simulation/run.hpp"
#include "engine/simulation/run_in_progress.hpp"

namespace dullcast::simulation {

/// Steps one run hole after hole. What happens on the way is in the files of events.
class Drive {
 public:
  Drive(const scenario::Scenario& scenario, const Progress& progress);
  RunOutcome drill_all();

 private:
  void drill_hole(int hole);
  void drill_interval(const DrillingInterval& planned, const DrillingInterval* above);
  void step_until_something_happens(double& dt);
  /// Acts on the first event whose value has risen already; false when there is none.
  bool act_on_what_is_already_due();
  void act_on(EventFunction& event);
  double row_spacing() const;
  void record_rows(double t, double bottom);

  const Progress& progress_;
  RunInProgress run_;
  EventFunctions events_;
  double next_row_ = 0.0;  // m
};

}  // namespace dullcast::simulation
