#pragma once

#include "engine/simulation/outcome.hpp"
#include "engine/simulation/spare_system.hpp"

namespace dullcast::simulation {

/// Clocks and counters that run along with the state.
struct RunClock {
  int hole = 0;
  double time = 0.0;           // s that the stepper has come: on bottom, adding rods, waiting out upsets
  double rotating_time = 0.0;  // s of it on bottom, all holes
  double hole_start_rotating = 0.0;  // s
  double hole_start = 0.0;           // s
  double trips_before = 0.0;         // s of trips before this hole
  double footage_before = 0.0;       // m drilled before this hole
  double energy_before = 0.0;        // J spent before this hole
  int connections = 0;               // rods added in this hole

  double elapsed_time() const { return time + trips_before; }
  void move_to(double t, bool off_bottom) {
    if (!off_bottom) rotating_time += t - time;
    time = t;
  }
  void begin_hole(int number) {
    hole = number;
    hole_start_rotating = rotating_time;
    hole_start = time;
    connections = 0;
  }
  void finish_hole(double trip_time, double footage, double energy) {
    trips_before += trip_time;
    footage_before += footage;
    energy_before += energy;
  }
};

/// Watches a run and keeps what the results need. It never steers: it evaluates on a system of its own, so
/// that what is recorded, and how often, leaves the run's numbers untouched to the last bit.
class Recorder {
 public:
  Recorder(const RunModels& models, const scenario::Scenario& scenario, RunOutcome& outcome, Rows rows);

  /// Begins a passage; `now` has evaluated x in it.
  void enter(const DrillingSystem& now, const State& x, const RunClock& clock);
  /// Notes an accepted step's end; `system` has evaluated x.
  void note(const State& x, const DrillingSystem& system, const RunClock& clock);
  /// Adds a history row at x, where rows are kept.
  void add_row(const State& x, const RunClock& clock);
  /// Hottest flat at x under the settings that hold, K: so that what is recorded may depend on it.
  double hottest_flat(const State& x) { return probe(x).evaluation().heats.flat_temperature.maxCoeff(); }
  /// What is averaged over the passage stands at other values from here on: heat has settled without any
  /// time.
  void settle(const DrillingSystem& now, const State& x);
  /// Other settings over the same passage; `now` has evaluated x under them.
  void change(const DrillingSystem& now);
  /// Greatest load over median strength of any pocket, bond or blade at the step noted last.
  void note_retention(double greatest);
  void leave(const State& x, const RunClock& clock);
  void finish_hole(const State& x, const RunClock& clock, const BitCondition& condition);
  /// Adds an event with its place and time.
  void add_event(Event event, const State& x, const RunClock& clock);
  /// Carries what has become of cutters over to the recorder's own system.
  void on_system(const auto& act) { act(probe_); }

 private:
  const DrillingSystem& probe(const State& x);
  /// What means are taken from next.
  void stand_at(const Evaluation& now);
  void note_heat(const State& x, const DrillingSystem& system, const RunClock& clock);
  void note_cleaning(const DrillingSystem& system, const State& x);

  const scenario::Scenario* scenario_;
  RunOutcome* outcome_;
  Rows rows_;
  StateLayout layout_;
  SpareSystem probe_;
  // Of the interval being drilled:
  LayerPassage passage_;
  State entry_;
  double entry_time_ = 0.0, weight_time_ = 0.0, torque_time_ = 0.0;
  double last_time_ = 0.0, last_weight_ = 0.0, last_torque_ = 0.0;
  double last_clock_ = 0.0, last_solids_ = 0.0, solids_time_ = 0.0;
  Eigen::ArrayXd film_time_;  // s, one per cutter
  double hole_hottest_ = 0.0;
};

}  // namespace dullcast::simulation
