#include "engine/simulation/drive.hpp"

#include <algorithm>
#include <boost/math/tools/toms748_solve.hpp>
#include <boost/numeric/odeint/iterator/adaptive_time_iterator.hpp>
#include <cstdint>
#include <functional>
#include <stdexcept>
#include <utility>

#include "engine/simulation/resting_state.hpp"
#include "models/common/constants.hpp"

namespace dullcast::simulation {
namespace {

namespace odeint = boost::numeric::odeint;

constexpr double first_step =
    0.1;  // s: about the fastest that the network resolves; error control may go lower
constexpr double forever = 1e12;             // s
constexpr double least_row_distance = 1e-6;  // m, of a history row from the end of its stretch

/// An array of a starting condition that the scenario may leave out.
template <class Array>
Array or_zero(const Array& given, Eigen::Index n) {
  return given.size() == n ? given : Array(Array::Zero(n));
}

}  // namespace

Drive::Drive(const scenario::Scenario& scenario, const Progress& progress)
    : scenario_(scenario),
      progress_(progress),
      models_(assemble(scenario)),
      system_(models_),
      probe_(models_),
      stepper_(system_.layout().size(), scenario.stepping.relative_tolerance),
      judge_(scenario.rules, models_),
      recorder_(models_, scenario, outcome_),
      schedule_(scenario, models_),
      x_(State::Zero(system_.layout().size())),
      probe_slope_(x_),
      strengths_(retention_strengths(scenario, models_.bit)) {
  start_state();
}

void Drive::start_state() {
  const scenario::BitRecord& bit = scenario_.bit;
  const Eigen::Index n = layout().cutters;
  layout().worn(x_) = bit.starting_wear;
  layout().damage(x_) = bit.starting_damage;
  layout().chip_hazard(x_) = or_zero(bit.starting_chip_hazard, n);
  x_(layout().eroded()) = bit.starting_erosion;
  x_(layout().blade_wear()) = bit.starting_blade_wear;
  x_(layout().pad_wear()) = bit.starting_pad_wear;
  marks_.lost = or_zero(bit.starting_lost, n);
  marks_.table_gone = or_zero(bit.starting_table_gone, n);
  marks_.chips = Eigen::ArrayXi::Zero(n);
  marks_.pocket_load = marks_.bond_load = Eigen::ArrayXd::Zero(n);
  chip_at_ = layout().chip_hazard(x_);
  for (Eigen::Index i = 0; i < n; ++i) {
    chip_at_(i) += chip_allowance(scenario_.random_events, i, 0);
    if (layout().damage(x_)(i) >= 1.0 || marks_.table_gone(i)) ruin(i);
    if (marks_.lost(i)) on_all_systems([i](DrillingSystem& system) { system.set_lost(i); });
  }
}

RunOutcome Drive::drill_all() {
  for (int hole = 0; hole < scenario_.repeat.holes && !stopped_; ++hole) drill_hole(hole);
  if (!stopped_) outcome_.ended_by = EndedBy::last_hole;
  outcome_.footage = clock_.footage_before;
  outcome_.rotating_time = clock_.rotating_time;
  outcome_.elapsed_time = clock_.elapsed_time();
  outcome_.energy = clock_.energy_before;
  outcome_.end = condition();
  if (!outcome_.rework_due) outcome_.rules = judge_.uses(x_, marks_);
  outcome_.steps = stepper_.steps();
  outcome_.refused_steps = stepper_.refused();
  outcome_.right_hand_sides = system_.evaluations();
  return std::move(outcome_);
}

const DrillingSystem& Drive::probe(const State& x) {
  probe_(x, probe_slope_, 0.0);
  return probe_;
}

/// A trip cools the bit; a fresh hole is clean, full and at rest.
void Drive::rest() {
  dullcast::simulation::rest(models_, x_);
  const double lost_steel = x_(layout().eroded()) + x_(layout().blade_wear());
  on_all_systems([&](DrillingSystem& system) {
    if (lost_steel > 0.0) system.set_blade_loss(lost_steel);
  });
}

void Drive::drill_hole(int hole) {
  clock_.begin_hole(hole);
  rest();
  told_in_hole_.clear();
  packed_ = dry_ = steamed_ = false;
  standstill_from_ = clock_.time;
  every_step_until_ = 0.0;
  judge_.begin_hole();
  schedule_.begin_hole(hole, top());
  schedule_.follow(models_.intervals.front());
  entered_ = nullptr;
  system_.enter(schedule_.current());
  const double T_zero = models_.ground.inlet_temperature;
  const double heat_before = system_.stored_heat(x_, T_zero);
  for (const DrillingInterval& stretch : models_.intervals) {
    try {
      drill_interval(stretch);
    } catch (const std::exception& error) {
      throw std::runtime_error("hole " + std::to_string(hole + 1) + ", depth " + std::to_string(depth()) +
                               " m: " + error.what());
    }
    if (stopped_) break;
    if (progress_) {
      progress_(hole + (depth() - top()) / (models_.intervals.back().bottom - top()), scenario_.repeat.holes);
    }
  }
  if (!stopped_ && !outcome_.rework_due && judge_.worst(x_, marks_, true).used >= 1.0) rework_falls_due(true);
  outcome_.energy_residual += x_(layout().spent()) - x_(layout().carried()) - x_(layout().left_in_rock()) -
                              (system_.stored_heat(x_, T_zero) - heat_before);
  clock_.connections = schedule_.connections(depth());
  recorder_.finish_hole(x_, clock_, condition());
  if (!stopped_ || depth() >= models_.intervals.back().bottom) {
    ++outcome_.holes_finished;
    tell(EventKind::hole_finished, -1, "Hole finished; the bit is tripped out.");
  }
  clock_.finish_hole(scenario_.repeat.trip_time, depth() - top(), x_(layout().spent()));
}

/// The present settings' system, with the ledger kept: what a change of settings or rock takes away from the
/// warm skin or the fluid's amount stays in the ground.
void Drive::enter(const DrillingInterval& stretch) {
  const double T_zero = models_.ground.inlet_temperature;
  const double before = system_.stored_heat(x_, T_zero);
  system_.enter(stretch);
  probe_.enter(stretch);
  x_(layout().left_in_rock()) += before - system_.stored_heat(x_, T_zero);
  stepper_.restart();
  entered_ = &stretch;
}

void Drive::drill_interval(const DrillingInterval& stretch) {
  x_(layout().depth()) = stretch.top;
  if (entered_ != nullptr) meet_harder_rock(*entered_, stretch);
  schedule_.follow(stretch);
  enter(schedule_.current());
  recorder_.enter(schedule_.current(), x_, clock_);
  announce_layer(stretch);
  next_row_ = stretch.top + row_spacing();
  judge_.enter(probe(x_), clock_.rotating_time);
  arm(stretch);
  bottom_reached_ = false;
  double dt = first_step;
  while (!bottom_reached_ && !stopped_) {
    if (rearm_) arm(stretch);
    const DrillingInterval* before = entered_;
    if (clock_.time >= schedule_.next_time() - same_time) {
      change_settings();
    } else if (!act_on_what_is_already_due()) {
      step_until_something_happens(dt);
    }
    if (entered_ != before) dt = first_step;  // other settings: heat moves fast again
  }
  recorder_.leave(x_, clock_);
}

void Drive::step_until_something_happens(double& dt) {
  double until = std::min(schedule_.next_time(), clock_.time + forever);
  // A standstill that does not count yet will be looked at when it does.
  if (standstill_from_ > clock_.time) until = std::min(until, standstill_from_);
  auto step =
      odeint::make_adaptive_time_range(std::ref(stepper_), std::ref(system_), x_, clock_.time, until, dt)
          .first;
  int event = -1;
  while (event < 0 && clock_.time < until - same_time) {
    ++step;
    double t = (*step).second;
    event = locate_first(
        event_functions_, stepper_, system_,
        [this](const State& x) -> const DrillingSystem& { return probe(x); }, x_, t);
    record_rows(t, entered_->bottom);
    clock_.move_to(t, entered_->off_bottom);
    recorder_.note(x_, system_, clock_);
    judge_.note(system_, clock_.rotating_time);
    note_retention();
    if (schedule_.upset() || clock_.time < every_step_until_) recorder_.add_row(x_, clock_);
  }
  dt = stepper_.next_step();
  if (event >= 0) {
    act_on(event);
  } else if (clock_.time >= standstill_from_ - same_time) {
    rearm_ = true;
  }
}

double Drive::row_spacing() const {
  return scenario_.stepping.output_every > 0.0 ? scenario_.stepping.output_every : forever;
}

/// History rows at even depths inside the last step. One that falls on the stretch's end is left to the
/// row that is made there anyway.
void Drive::record_rows(double t, double stretch_bottom) {
  State between = x_;
  while (next_row_ < depth() && next_row_ < stretch_bottom - least_row_distance) {
    const auto above = [&](double when) {
      stepper_.interpolate(when, x_, layout().slow_from(), between);
      return between(layout().depth()) - next_row_;
    };
    double when = t;
    const double start = stepper_.last_start_time();
    const double above_at_start = above(start), above_at_end = above(t);
    // The ends may miss the row's depth by a last bit, and then they are it.
    if (above_at_start >= 0.0) {
      when = start;
    } else if (above_at_end > 0.0) {
      std::uintmax_t most_evaluations = 60;
      when = boost::math::tools::toms748_solve(
                 above, start, t, above_at_start, above_at_end,
                 [&](double low, double high) { return high - low <= 1e-9 * (t - start); }, most_evaluations)
                 .second;
    }
    above(when);
    RunClock then = clock_;
    then.move_to(when, false);
    recorder_.add_row(between, then);
    next_row_ += row_spacing();
  }
}

}  // namespace dullcast::simulation
