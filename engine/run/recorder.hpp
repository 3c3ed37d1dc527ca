#pragma once

#include "engine/run/drilling_system.hpp"
#include "engine/run/outcome.hpp"

namespace dullcast {

/// Clocks and counters that run along with the state.
struct RunClock {
  int hole = 0;
  double rotating_time = 0.0;        // s, all holes
  double hole_start_rotating = 0.0;  // s
  double idle_time = 0.0;            // s of connections and trips before this hole
  double footage_before = 0.0;       // m drilled before this hole
  double energy_before = 0.0;        // J spent before this hole
  double connection_every = 0.0, connection_time = 0.0;

  int connections(double z) const;
  double elapsed_time(double z) const { return rotating_time + idle_time + connections(z) * connection_time; }
};

/// Watches a run and keeps what the results need. It never steers: it evaluates on a system of its own, so
/// that what is recorded, and how often, leaves the run's numbers untouched to the last bit.
class Recorder {
 public:
  Recorder(const RunModels& models, const Scenario& scenario, RunOutcome& outcome);

  void enter(const Stretch& stretch, const State& x, const RunClock& clock);
  /// Notes an accepted step's end; `system` has evaluated x.
  void note(const State& x, const DrillingSystem& system, const RunClock& clock);
  /// Adds a history row at x.
  void add_row(const State& x, const RunClock& clock);
  void leave(const State& x, const RunClock& clock);
  void finish_hole(const State& x, const RunClock& clock, const BitCondition& condition);
  void add_event(EventKind kind, const State& x, const RunClock& clock, int cutter, std::string text);
  void set_ruined(Eigen::Index cutter) { probe_.set_ruined(cutter); }

 private:
  const DrillingSystem& probe(const State& x);

  const Scenario* scenario_;
  RunOutcome* outcome_;
  StateLayout layout_;
  DrillingSystem probe_;
  State slope_;
  // Of the stretch being drilled:
  LayerPassage passage_;
  State entry_;
  double entry_time_ = 0.0, weight_time_ = 0.0, torque_time_ = 0.0;
  double last_time_ = 0.0, last_weight_ = 0.0, last_torque_ = 0.0;
  double hole_hottest_ = 0.0;
};

}  // namespace dullcast
