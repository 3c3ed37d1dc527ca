#include "engine/simulation/drive.hpp"

#include <algorithm>
#include <boost/math/tools/toms748_solve.hpp>
#include <boost/numeric/odeint/iterator/adaptive_time_iterator.hpp>
#include <cstdint>
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
constexpr double followed_again = 1.0;       // s, first step of a bit whose heat no longer stands settled
constexpr double forever = 1e12;             // s
constexpr double least_row_distance = 1e-6;  // m, of a history row from the end of its interval

/// A change of settings within one layer is no new layer.
void tell_layer(RunInProgress& run, const DrillingInterval& planned, const DrillingInterval* above) {
  if (above != nullptr && above->layer == planned.layer) return;
  Event event{EventKind::layer_entered};
  event.word = run.scenario.column.layers[static_cast<std::size_t>(planned.layer)].rock.name;
  tell(run, event);
}

}  // namespace

Drive::Drive(const scenario::Scenario& scenario, const Progress& progress, Rows rows,
             long most_steps_in_a_row)
    : progress_(progress), most_steps_in_a_row_(most_steps_in_a_row), run_(scenario, rows) {}

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
  next_row_ = planned.top + row_spacing();
  run_.judge.enter(at_top, run_.clock.rotating_time);
  if (run_.may_settle()) settle();
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

bool Drive::settle() {
  if (!run_.settled.settle(run_.x, run_.clock.time)) return false;
  run_.recorder.settle(run_.system, run_.x);
  return true;
}

int Drive::finish_step(StepTaken& step) {
  RunClock& clock = run_.clock;
  State& x = run_.x;
  const Probe probe = [this](const State& at) -> const DrillingSystem& { return run_.probe(at); };
  double t = step.time_at(step.ends());
  const int event = locate_first(events_, step, run_.system, probe, x, t);
  record_rows(step, run_.system.interval().bottom);
  clock.move_to(t, run_.system.interval().off_bottom);
  run_.recorder.note(x, run_.system, clock);
  run_.judge.note(run_.system, clock.rotating_time);
  run_.recorder.note_retention(run_.damage.note_loads(run_.system, x));
  if (run_.schedule.upset() || clock.time < run_.course.every_step_until) run_.recorder.add_row(x, clock);
  return event;
}

void Drive::drill_settled(double& dt) {
  for (long steps = 0; steps < most_steps_in_a_row_; ++steps) {
    double t = run_.clock.time;
    const double to = std::min(run_.system.interval().bottom, run_.next_change());
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
  for (const auto& event : events_) {
    if (event->armed && event->value(run_.x, now) >= 0.0) {
      act_on(*event);
      return true;
    }
  }
  return false;
}

double Drive::row_spacing() const {
  const double every = run_.scenario.stepping.output_every;
  return every > 0.0 ? every : forever;
}

/// History rows at even depths inside the last step. One that falls on the interval's end is left to the
/// row that is made there anyway.
void Drive::record_rows(const StepTaken& step, double bottom) {
  const StateLayout& layout = run_.layout();
  State between = run_.x;
  while (next_row_ < run_.depth() && next_row_ < bottom - least_row_distance) {
    const auto above = [&](double at) {
      step.between(at, run_.x, between);
      return between(layout.depth()) - next_row_;
    };
    const double start = step.begins(), end = step.ends();
    double at = end;
    const double above_at_start = above(start), above_at_end = above(end);
    // The ends may miss the row's depth by a last bit, and then they are it.
    if (above_at_start >= 0.0) {
      at = start;
    } else if (above_at_end > 0.0) {
      std::uintmax_t most_evaluations = 60;
      at = boost::math::tools::toms748_solve(
               above, start, end, above_at_start, above_at_end,
               [&](double low, double high) { return high - low <= 1e-9 * (end - start); }, most_evaluations)
               .second;
    }
    above(at);
    RunClock then = run_.clock;
    then.move_to(step.time_at(at), false);
    run_.recorder.add_row(between, then);
    next_row_ += row_spacing();
  }
}

}  // namespace dullcast::simulation
