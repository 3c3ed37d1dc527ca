#include "engine/simulation/drive.hpp"

#include <algorithm>
#include <boost/numeric/odeint/iterator/adaptive_time_iterator.hpp>
#include <functional>
#include <new>
#include <stdexcept>
#include <string>
#include <utility>

#include "engine/simulation/resting_state.hpp"

namespace dullcast::simulation {
namespace {

namespace odeint = boost::numeric::odeint;

constexpr double first_step =
    0.1;  // s: about the fastest that the network resolves; error control may go lower
constexpr double followed_again = 1.0;  // s, first step of a bit whose heat no longer stands settled
constexpr double forever = 1e12;        // s

/// A change of settings within one layer is no new layer.
void tell_layer(RunInProgress& run, const DrillingInterval& planned, const DrillingInterval* above) {
  if (above != nullptr && above->layer == planned.layer) return;
  Event event{EventKind::layer_entered};
  event.word = run.scenario.column.layers[static_cast<std::size_t>(planned.layer)].rock.name;
  tell(run, event);
}

}  // namespace

Drive::Drive(const scenario::Scenario& scenario, const Progress& progress, Rows rows,
             long most_steps_in_a_row, const std::atomic<bool>* give_up)
    : progress_(progress),
      most_steps_in_a_row_(most_steps_in_a_row),
      give_up_(give_up),
      run_(scenario, rows),
      located_within_(std::clamp(scenario.stepping.relative_tolerance, 1e-6, 3e-2)),
      rows_(scenario.stepping, static_cast<std::size_t>(scenario.repeat.holes) * run_.models.intervals.size(),
            rows) {}

RunOutcome Drive::drill_all() {
  for (int hole = 0; hole < run_.scenario.repeat.holes && !run_.course.stopped; ++hole) drill_hole(hole);
  RunOutcome& outcome = run_.outcome;
  if (!run_.course.stopped) outcome.ended_by = EndedBy::last_hole;
  outcome.footage = run_.clock.footage_before;
  outcome.rotating_time = run_.clock.rotating_time;
  outcome.elapsed_time = run_.clock.elapsed_time();
  outcome.energy = run_.clock.energy_before;
  outcome.end = condition_of(run_);
  if (!outcome.rework_due) outcome.rules = run_.judge.uses(run_.x, run_.damage.marks());
  outcome.steps = run_.stepper.steps() + run_.settled.steps();
  outcome.refused_steps = run_.stepper.refused() + run_.settled.refused();
  outcome.right_hand_sides = run_.system.evaluations();
  return std::move(outcome);
}

void Drive::drill_hole(int hole) {
  RunClock& clock = run_.clock;
  State& x = run_.x;
  const StateLayout& layout = run_.layout();
  const std::vector<DrillingInterval>& intervals = run_.models.intervals;
  clock.begin_hole(hole);
  rest(run_.models, run_.x);  // a trip cools the bit; a fresh hole is clean, full and at rest
  run_.regime = {};
  run_.course.standstill_from = clock.time;
  run_.course.every_step_until = 0.0;
  run_.judge.begin_hole();
  run_.schedule.begin_hole(hole, run_.top());
  run_.schedule.follow(intervals.front());
  run_.system.enter(run_.schedule.current());
  const double T_zero = run_.models.ground.inlet_temperature;
  const double heat_before = run_.system.stored_heat(x, T_zero);
  const DrillingInterval* above = nullptr;
  for (const DrillingInterval& planned : intervals) {
    try {
      drill_interval(planned, above);
    } catch (const std::bad_alloc&) {
      throw;  // no memory: the machine's fault, wherever the bit stands
    } catch (const RunGivenUp&) {
      throw;
    } catch (const std::exception& error) {
      throw std::runtime_error("hole " + std::to_string(hole + 1) + ", depth " +
                               std::to_string(run_.depth()) + " m: " + error.what());
    }
    if (run_.course.stopped) break;
    if (progress_) {
      progress_(hole + (run_.depth() - run_.top()) / (intervals.back().bottom - run_.top()),
                run_.scenario.repeat.holes);
    }
    above = &planned;
  }
  if (!run_.course.stopped && !run_.outcome.rework_due &&
      run_.judge.worst(x, run_.damage.marks(), true).used >= 1.0)
    rework_falls_due(run_, true);
  run_.outcome.energy_residual += x(layout.spent()) - x(layout.carried()) - x(layout.left_in_rock()) -
                                  (run_.system.stored_heat(x, T_zero) - heat_before);
  clock.connections = run_.schedule.connections(run_.depth());
  run_.recorder.finish_hole(x, clock, condition_of(run_));
  if (!run_.course.stopped || run_.depth() >= intervals.back().bottom) {
    ++run_.outcome.holes_finished;
    tell(run_, {EventKind::hole_finished});
  }
  clock.finish_hole(run_.scenario.repeat.trip_time, run_.depth() - run_.top(), x(layout.spent()));
}

void Drive::drill_interval(const DrillingInterval& planned, const DrillingInterval* above) {
  Course& course = run_.course;
  run_.x(run_.layout().depth()) = planned.top;
  // What holds above may have been changed for a while.
  if (above != nullptr) meet_harder_rock(run_, run_.system.interval(), planned);
  run_.schedule.follow(planned);
  enter_interval(run_, run_.schedule.current());
  // What the layer above left hot is met by what drills this one.
  const DrillingSystem& at_top = run_.may_settle() ? run_.evaluated() : run_.probe(run_.x);
  run_.recorder.enter(at_top, run_.x, run_.clock);
  tell_layer(run_, planned, above);
  rows_.enter(planned.top, planned.bottom, run_.clock.time);
  run_.judge.enter(at_top, run_.clock.rotating_time);
  if (run_.may_settle()) settle(&run_.fast_rates());
  course.bottom_reached = course.every_rod = false;
  course.events_changed = true;
  double dt = first_step;
  while (!course.bottom_reached && !course.stopped) {
    if (course.events_changed) {
      course.events_changed = false;
      events_ = events_of(run_, planned);
    }
    const DrillingInterval* before = &run_.system.interval();
    if (run_.clock.time >= run_.schedule.next_time() - same_time) {
      change_settings(run_);
    } else if (!act_on_what_is_already_due()) {
      step_until_something_happens(dt);
    }
    if (&run_.system.interval() != before) dt = first_step;  // other settings: heat moves fast again
  }
  run_.recorder.leave(run_.x, run_.clock);
}

bool Drive::settle(const State* slope) {
  const State before = run_.x;
  if (!run_.settled.settle(run_.x, run_.clock.time, slope)) return false;
  rods_.forget();
  run_.recorder.settle(run_.system, run_.x);
  rows_.settled(before, run_);
  return true;
}

void Drive::go_on() const {
  if (give_up_ != nullptr && give_up_->load(std::memory_order_relaxed)) throw RunGivenUp();
}

int Drive::finish_step(StepTaken& step) {
  RunClock& clock = run_.clock;
  State& x = run_.x;
  const Probe probe = [this](const State& at) -> const DrillingSystem& { return run_.probe(at); };
  double t = step.time_at(step.ends());
  const int event = locate_first(events_, step, run_.system, probe, located_within_, x, t);
  rows_.record(step, run_);
  clock.move_to(t, run_.system.interval().off_bottom);
  run_.recorder.note(x, run_.system, clock);
  run_.judge.note(run_.system, clock.rotating_time);
  run_.recorder.note_retention(run_.damage.note_loads(run_.system, x));
  if (run_.schedule.upset() || clock.time < run_.course.every_step_until) run_.recorder.add_row(x, clock);
  return event;
}

void Drive::drill_settled(double& dt) {
  for (long steps = 0; steps < most_steps_in_a_row_; ++steps) {
    go_on();
    double t = run_.clock.time;
    double to = std::min(run_.system.interval().bottom, run_.next_change());
    if (run_.schedule.next_connection() < to - same_depth && !rods_.begin(run_)) {
      to = std::min(run_.system.interval().bottom, run_.next_change());
      if (run_.depth() >= to - same_depth) return change_settings(run_);
    }
    if (!run_.settled.step(run_.x, t, to)) {
      run_.stepper.restart();
      dt = followed_again;
      return;
    }
    if (!rods_.look(run_, run_.settled, run_.x, events_)) {
      run_.settled.undo(run_.x);
      if (run_.depth() < run_.next_change() - same_depth) continue;
      // It stands at the rod that has to be followed.
      change_settings(run_);
      return;
    }
    const int event = finish_step(run_.settled);
    rods_.pass(run_, run_.settled);
    if (event < 0) continue;
    act_on(*events_[static_cast<std::size_t>(event)]);
    run_.stepper.restart();
    return;
  }
  throw std::runtime_error("the run gets no further: " + std::to_string(most_steps_in_a_row_) +
                           " settled steps in a row without an event");
}

void Drive::step_until_something_happens(double& dt) {
  if (run_.may_settle()) {
    if (run_.settled.settled()) return drill_settled(dt);
    if (run_.settled.worth_trying(run_.clock.time)) {
      // What the balance brings about is looked at before going on.
      if (settle()) return;
      run_.stepper.restart();
    }
  }
  RunClock& clock = run_.clock;
  State& x = run_.x;
  double until = std::min(run_.schedule.next_time(), clock.time + forever);
  // A standstill that does not count yet will be looked at when it does.
  if (run_.course.standstill_from > clock.time) until = std::min(until, run_.course.standstill_from);
  auto step = odeint::make_adaptive_time_range(std::ref(run_.stepper), std::ref(run_.system), x, clock.time,
                                               until, dt)
                  .first;
  StepInTime taken(run_.stepper, run_.system);
  int event = -1;
  for (long steps = 0; event < 0 && clock.time < until - same_time; ++steps) {
    if (steps >= most_steps_in_a_row_) {
      throw std::runtime_error("the run gets no further: " + std::to_string(most_steps_in_a_row_) +
                               " steps in a row without an event; the last was of " +
                               std::to_string(run_.stepper.next_step()) + " s");
    }
    go_on();
    ++step;
    event = finish_step(taken);
    if (event < 0 && run_.may_settle() && run_.settled.worth_trying(clock.time)) break;
  }
  dt = run_.stepper.next_step();
  if (event >= 0) {
    act_on(*events_[static_cast<std::size_t>(event)]);
  } else if (clock.time >= run_.course.standstill_from - same_time) {
    run_.course.events_changed = true;
  }
}

void Drive::act_on(EventFunction& event) {
  event.armed = false;
  event.act(run_);
}

bool Drive::act_on_what_is_already_due() {
  const DrillingSystem& now = run_.here();
  const double at = run_.settled.settled() ? run_.depth() : run_.clock.time;
  for (const auto& event : events_) {
    if (!event->armed) continue;
    event->seen = event->value(run_.x, now);
    event->seen_at = at;
    if (event->seen >= 0.0) {
      act_on(*event);
      return true;
    }
  }
  return false;
}

}  // namespace dullcast::simulation
