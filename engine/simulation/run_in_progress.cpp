#include "engine/simulation/run_in_progress.hpp"

#include <algorithm>
#include <utility>

namespace dullcast::simulation {
namespace {

/// The bit as the scenario starts it, anywhere in a hole.
State starting_state(const StateLayout& layout, const scenario::BitRecord& bit) {
  State x = State::Zero(layout.size());
  layout.worn(x) = bit.starting_wear;
  layout.damage(x) = bit.starting_damage;
  if (bit.starting_chip_hazard.size() == layout.cutters) layout.chip_hazard(x) = bit.starting_chip_hazard;
  x(layout.eroded()) = bit.starting_erosion;
  x(layout.blade_wear()) = bit.starting_blade_wear;
  x(layout.pad_wear()) = bit.starting_pad_wear;
  return x;
}

}  // namespace

RunInProgress::RunInProgress(const scenario::Scenario& given, Rows rows)
    : scenario(given),
      models(assemble(given)),
      system(models),
      looking_ahead(models, given.stepping.relative_tolerance),
      stepper(system.layout().size(), given.stepping.relative_tolerance),
      settled(system, given.stepping.relative_tolerance),
      x(starting_state(system.layout(), given.bit)),
      schedule(given, models),
      damage(given, models.bit.retention, system.layout().chip_hazard(x)),
      judge(given.rules, models),
      recorder(models, given, outcome, rows),
      probe_slope_(x) {
  system.let_forces_stand(given.stepping.relative_tolerance);
  for (Eigen::Index i = 0; i < layout().cutters; ++i) {
    if (layout().damage(x)(i) >= 1.0 || damage.marks().table_gone(i)) ruin_table(*this, i);
    if (damage.marks().lost(i)) on_all_systems([i](auto& each) { each.set_lost(i); });
  }
}

const DrillingSystem& RunInProgress::probe(const State& at) {
  return looking_ahead.at(at);
}

RodStops& RunInProgress::rod_stops() {
  if (!rod_stops_) {
    rod_stops_ = std::make_unique<RodStops>(models, system, scenario.stepping.relative_tolerance);
    for (Eigen::Index i = 0; i < layout().cutters; ++i) {
      if (system.ruined(i)) rod_stops_->on_systems([i](DrillingSystem& each) { each.set_ruined(i); });
      if (system.lost(i)) rod_stops_->on_systems([i](DrillingSystem& each) { each.set_lost(i); });
    }
  }
  if (stops_in_ != &system.interval()) {
    stops_in_ = &system.interval();
    lifted_ = schedule.while_connecting();
    rod_stops_->enter(*stops_in_, lifted_, scenario.repeat.connection_time);
  }
  return *rod_stops_;
}

void tell(RunInProgress& run, Event event) {
  run.recorder.add_event(std::move(event), run.x, run.clock);
}

bool was_told(const RunInProgress& run, EventKind kind) {
  const std::vector<EventKind>& told = run.regime.told;
  return std::find(told.begin(), told.end(), kind) != told.end();
}

bool tell_first_in_hole(RunInProgress& run, Event event) {
  if (was_told(run, event.kind)) return false;
  run.regime.told.push_back(event.kind);
  tell(run, std::move(event));
  return true;
}

BitCondition condition_of(const RunInProgress& run) {
  return run.judge.condition(run.x, run.damage.marks());
}

Milestone milestone(const RunInProgress& run, std::string rule, std::vector<int> cutters) {
  Milestone m;
  m.hole = run.clock.hole;
  m.depth = run.depth();
  m.footage = run.clock.footage_before + run.depth() - run.top();
  m.rotating_time = run.clock.rotating_time;
  m.elapsed_time = run.clock.elapsed_time();
  m.energy = run.clock.energy_before + run.x(run.layout().spent());
  m.rule = std::move(rule);
  m.cutters = std::move(cutters);
  m.condition = condition_of(run);
  return m;
}

Milestone milestone(const RunInProgress& run, const ReworkRule& rule) {
  return milestone(run, rule.name(), rule.cutters(run.judge.at(run.x, run.damage.marks())));
}

void stop(RunInProgress& run, EndedBy why) {
  run.outcome.ended_by = why;
  run.course.stopped = true;
}

void ruin_table(RunInProgress& run, Eigen::Index cutter) {
  run.on_all_systems([cutter](auto& system) { system.set_ruined(cutter); });
}

void lose_cutter(RunInProgress& run, Eigen::Index cutter) {
  run.damage.mark_lost(cutter);
  run.on_all_systems([cutter](auto& system) { system.set_lost(cutter); });
}

void rework_falls_due(RunInProgress& run, bool hole_done) {
  const BitCondition& marks = run.damage.marks();
  const ReworkRule& rule = *run.judge.worst(run.x, marks, hole_done).rule;
  run.outcome.rules = run.judge.uses(run.x, marks);
  run.outcome.rework_due = milestone(run, rule);
  Event event{EventKind::rework_due};
  const std::vector<int>& cutters = run.outcome.rework_due->cutters;
  event.cutter = cutters.empty() ? -1 : cutters.front();
  event.word = rule.name();
  tell(run, event);
  if (run.scenario.repeat.stop_at == scenario::StopAt::rework_due) stop(run, EndedBy::rework_due);
}

}  // namespace dullcast::simulation
