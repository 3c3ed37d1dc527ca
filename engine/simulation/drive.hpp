#pragma once

#include <limits>
#include <string>
#include <vector>

#include "engine/simulation/assembly.hpp"
#include "engine/simulation/event_function.hpp"
#include "engine/simulation/linearly_implicit_stepper.hpp"
#include "engine/simulation/recorder.hpp"
#include "engine/simulation/retention.hpp"
#include "engine/simulation/rules.hpp"
#include "engine/simulation/run.hpp"
#include "engine/simulation/schedule.hpp"

namespace dullcast::simulation {

/// One run under way: state, clocks, what changes along the way and what watches it. Steps hole after hole;
/// what happens on the way is in drive_watches.cpp and
/// drive_failures.cpp.
class Drive {
 public:
  Drive(const scenario::Scenario& scenario, const Progress& progress);
  Drive(const Drive&) = delete;
  Drive& operator=(const Drive&) = delete;

  RunOutcome drill_all();

 private:
  const StateLayout& layout() const { return system_.layout(); }
  double depth() const { return x_(layout().depth()); }
  double top() const { return models_.intervals.front().top; }

  // The way down (drive.cpp):
  void start_state();
  void rest();
  void drill_hole(int hole);
  void drill_interval(const DrillingInterval& stretch);
  void step_until_something_happens(double& dt);
  void enter(const DrillingInterval& stretch);
  double row_spacing() const;
  void record_rows(double t, double stretch_bottom);

  // What happens (drive_watches.cpp):
  void arm(const DrillingInterval& stretch);
  void arm_conditions();
  void arm_failures();
  void arm_cooling();
  void arm_heavy_string(const DrillingInterval& stretch);
  void act_on(int event);
  bool act_on_what_is_already_due();
  void change_settings();
  void tell_change(const Schedule::Change& change);
  void quench(const DrillingInterval& before, const DrillingInterval& after);
  void meet_harder_rock(const DrillingInterval& before, const DrillingInterval& after);
  void note_retention();
  void chip(Eigen::Index cutter);
  void something_lets_go();
  void lose_cutter(Eigen::Index cutter);
  void lose_table(Eigen::Index cutter);
  void shear_blade(Eigen::Index blade);
  void film_changes();
  void slots_change();
  void ruin(Eigen::Index cutter);
  void table_is_ruined(Eigen::Index cutter);
  void rework_falls_due(bool hole_done);
  void passes_repair();
  void blade_starts_to_rub();
  void fluid_boils();
  void stop_drilling();
  void announce_layer(const DrillingInterval& stretch);
  void stop(EndedBy why);
  void tell(EventKind kind, int cutter, std::string text);
  /// True once a hole for each kind: what comes and goes is told when it first comes.
  bool first_in_hole(EventKind kind);
  Milestone milestone(const std::string& rule);
  BitCondition condition() const;

  /// The system at x, for events that need forces at a trial state: a second object, so that looking ahead
  /// leaves the stepped system alone, and not the recorder's, so that what is recorded does not matter here.
  const DrillingSystem& probe(const State& x);
  template <class Do>
  void on_all_systems(Do&& act) {
    act(system_);
    act(probe_);
    recorder_.on_system(act);
    stepper_.restart();
  }

  const scenario::Scenario& scenario_;
  const Progress& progress_;
  RunModels models_;
  DrillingSystem system_, probe_;
  LinearlyImplicitStepper stepper_;
  ReworkJudge judge_;
  RunOutcome outcome_;
  Recorder recorder_;
  Schedule schedule_;
  State x_, probe_slope_;
  RunClock clock_;
  std::vector<EventFunction> event_functions_;
  RetentionStrengths strengths_;
  RetentionLoads loads_, trial_loads_;
  BitCondition marks_;      // chips, lost cutters and greatest loads so far
  Eigen::ArrayXd chip_at_;  // hazard at which each edge chips next
  const DrillingInterval* entered_ = nullptr;
  double next_row_ = 0.0;
  double every_step_until_ = 0.0;  // s: every step is kept until then
  double standstill_from_ = 0.0;   // s: a standstill counts from then
  bool bottom_reached_ = false, stopped_ = false, heavy_string_told_ = false, packed_ = false, dry_ = false,
       steamed_ = false;
  bool rearm_ = false;
  std::vector<EventKind> told_in_hole_;
};

}  // namespace dullcast::simulation
