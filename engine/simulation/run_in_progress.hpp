#pragma once

#include <limits>
#include <memory>
#include <string>
#include <vector>

#include "engine/simulation/bit_damage.hpp"
#include "engine/simulation/linearly_implicit_stepper.hpp"
#include "engine/simulation/recorder.hpp"
#include "engine/simulation/rework_judge.hpp"
#include "engine/simulation/rod_stops.hpp"
#include "engine/simulation/schedule.hpp"
#include "engine/simulation/settled_stepper.hpp"

namespace dullcast::simulation {

/// What has been seen at the bottom of this hole and what it is like now.
struct BottomRegime {
  bool packed = false, dry = false, filmed = false;
  std::vector<EventKind> told;  // what comes and goes is told when it first comes
};

/// What decides how far the stepping goes on.
struct Course {
  bool bottom_reached = false, stopped = false;
  bool events_changed = false;    // event functions are to be made anew
  double standstill_from = 0.0;   // s: a standstill counts from then
  double every_step_until = 0.0;  // s: every step is kept until then
  bool heavy_string_told = false;
  double rod_to_follow = 0.0;  // m: a settled bit's steps go over the rods before it, where it lies ahead
  bool every_rod = false;      // each is to be followed in this interval
};

/// One run under way: its parts, each of which keeps its own affairs. What happens on the way (event
/// functions, changes of settings) acts upon it.
struct RunInProgress {
  RunInProgress(const scenario::Scenario& scenario, Rows rows);
  RunInProgress(const RunInProgress&) = delete;
  RunInProgress& operator=(const RunInProgress&) = delete;

  const scenario::Scenario& scenario;
  RunModels models;
  DrillingSystem system;
  SpareSystem looking_ahead;  // so that looking leaves the stepped system alone, and not the recorder's,
                              // so that what is recorded does not matter here
  LinearlyImplicitStepper stepper;
  SettledStepper settled;
  State x;
  RunClock clock;
  Schedule schedule;
  BitDamage damage;
  ReworkJudge judge;
  BottomRegime regime;
  Course course;
  RunOutcome outcome;
  Recorder recorder;

  const StateLayout& layout() const { return system.layout(); }
  double depth() const { return x(layout().depth()); }
  double top() const { return models.intervals.front().top; }
  /// The system at x, for what needs forces at a trial state.
  const DrillingSystem& probe(const State& at);
  /// The stepped system, evaluated at x: its forces are kept for the step that follows.
  const DrillingSystem& evaluated() {
    system.find_fast_rates(x, probe_slope_);
    return system;
  }
  /// Rates of what is fast at x, from evaluated().
  const State& fast_rates() const { return probe_slope_; }
  /// A system that has evaluated x: the stepped one where it has just done so.
  const DrillingSystem& here() { return settled.settled() ? system : probe(x); }
  /// The state or the system has jumped: steppers forget what they know of it.
  void begin_afresh() {
    stepper.restart();
    settled.restart();
  }
  /// Depth of the next change of settings that the run has to stop at, m: a settled bit's steps go over rods.
  double next_change() const {
    const double rod = schedule.next_connection();
    if (!settled.settled() || !may_settle() || course.every_rod) return std::min(schedule.next_upset(), rod);
    const bool ahead = course.rod_to_follow >= rod - same_depth;
    return std::min(schedule.next_upset(),
                    ahead ? course.rod_to_follow : std::numeric_limits<double>::infinity());
  }
  /// What stops for rods do in the present interval. Made when first asked for.
  RodStops& rod_stops();
  /// Whether heat may be taken at its balance now. A bit that is being waited for is followed.
  bool may_settle() const {
    return scenario.stepping.warming == scenario::Warming::where_it_matters && schedule.as_planned() &&
           clock.time >= course.standstill_from;
  }
  /// Acts on all three systems; the stepper begins afresh.
  template <class Do>
  void on_all_systems(Do&& act) {
    act(system);
    act(looking_ahead);
    recorder.on_system(act);
    if (rod_stops_) rod_stops_->on_systems(act);
    begin_afresh();
  }

 private:
  std::unique_ptr<RodStops> rod_stops_;
  const DrillingInterval* stops_in_ = nullptr;  // the interval that they were last asked for in
  DrillingInterval lifted_;
  State probe_slope_;
};

/// Tells an event that happens now.
void tell(RunInProgress& run, Event event);
/// Whether it was told in this hole already, of what is told when it first comes: nobody need look for it
/// any more, which steps that land on it would be spent on.
bool was_told(const RunInProgress& run, EventKind kind);
/// Tells it the first time in this hole only; true when it was told.
bool tell_first_in_hole(RunInProgress& run, Event event);
BitCondition condition_of(const RunInProgress& run);
/// Where the run is when something falls due, and the cutters it is about.
Milestone milestone(const RunInProgress& run, std::string rule, std::vector<int> cutters);
Milestone milestone(const RunInProgress& run, const ReworkRule& rule);
void stop(RunInProgress& run, EndedBy why);

/// A table wears like carbide from here.
void ruin_table(RunInProgress& run, Eigen::Index cutter);
void lose_cutter(RunInProgress& run, Eigen::Index cutter);
/// Rework falls due by its worst rule; `hole_done`: the whole hole is drilled, so that its speed can be
/// judged.
void rework_falls_due(RunInProgress& run, bool hole_done);

/// The present settings' systems, with the ledger kept: what a change of settings or rock takes away from the
/// warm skin or the fluid's amount stays in the ground.
void enter_interval(RunInProgress& run, const DrillingInterval& interval);
/// Makes the changes of the schedule that are due, with what they do to hot edges.
void change_settings(RunInProgress& run);
/// A harder layer's top comes and goes under the bit for a while and strikes its edges.
void meet_harder_rock(RunInProgress& run, const DrillingInterval& before, const DrillingInterval& after);

}  // namespace dullcast::simulation
