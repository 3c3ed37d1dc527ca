#include "engine/simulation/rods_on_the_way.hpp"

#include <algorithm>
#include <utility>

#include "engine/simulation/event_policies.hpp"
#include "engine/simulation/run_in_progress.hpp"

namespace dullcast::simulation {

namespace {

/// Of the difference between a step's ends, what a straight line may be wrong by on the way.
constexpr double bend_of_difference = 0.25;

/// How much the tolerance allows, over all of so many rods, is wrong where each is by so much.
bool is_little(const RunInProgress& run, const State& each, double rods) {
  const auto slow = run.system.error_scale().tail(each.size()).array();
  return (each.array().abs() / slow).maxCoeff() * rods <= run.scenario.stepping.relative_tolerance;
}

}  // namespace

/// What must be followed here must be so for the rest of the way, like as not.
bool RodsOnTheWay::follow_all(RunInProgress& run) {
  run.course.rod_to_follow = run.schedule.next_connection();
  run.course.every_rod = true;
  return false;
}

/// At x, where the stepped system stands.
bool RodsOnTheWay::work_out(RunInProgress& run, const State& x, Known& known) {
  known.in = nullptr;
  if (!run.rod_stops().stop_here(x, run.settled.slope(), known.stop)) return false;
  known.in = &run.system.interval();
  known.depth = x(run.layout().depth());
  return true;
}

bool RodsOnTheWay::begin(RunInProgress& run) {
  if (here_.in == &run.system.interval() && here_.depth == run.depth()) return true;
  return work_out(run, run.x, here_) || follow_all(run);
}

bool RodsOnTheWay::work_out_each(RunInProgress& run, const StepTaken& step, const State& end) {
  x_ = end;
  for (Rod& rod : rods_) {
    step.between(rod.depth, end, x_);
    if (!run.rod_stops().stop(x_, rod.stop)) return follow_all(run);
  }
  return true;
}

/// Fills in all rods by what stops do at the step's ends, and in its middle where these differ much.
bool RodsOnTheWay::lay_between(RunInProgress& run, const StepTaken& step, const State& end) {
  const auto n = static_cast<double>(rods_.size());
  const RodStops::Stop &a = here_.stop, &c = ahead_.stop;
  const bool straight = is_little(run, bend_of_difference * (c.gained - a.gained), n);
  RodStops::Stop b;
  if (!straight) {
    x_ = end;
    step.between(0.5 * (step.begins() + step.ends()), end, x_);
    if (!run.rod_stops().stop(x_, b)) return follow_all(run);
    // Of a parabola the middle bends most.
    if (!is_little(run, b.gained - 0.5 * (a.gained + c.gained), n)) return work_out_each(run, step, end);
  }
  for (Rod& rod : rods_) {
    const double s = (rod.depth - step.begins()) / (step.ends() - step.begins());
    const double to_a = straight ? 1.0 - s : (1.0 - s) * (1.0 - 2.0 * s), to_b = 4.0 * s * (1.0 - s),
                 to_c = straight ? s : s * (2.0 * s - 1.0);
    rod.stop = s < 0.5 ? a : c;
    rod.stop.gained = to_a * a.gained + to_c * c.gained;
    rod.stop.hottest_table = to_a * a.hottest_table + to_c * c.hottest_table;
    if (straight) continue;
    rod.stop.gained += to_b * b.gained;
    rod.stop.hottest_table += to_b * b.hottest_table;
  }
  return true;
}

/// What all rods take, the rest of what they do being gains.
void RodsOnTheWay::take_back(const StateLayout& layout, const State& start, State& end) {
  for (Rod& rod : rods_) {
    auto gained = layout.scars(rod.stop.gained);
    layout.scars(end) += gained.cwiseMin(0.0);
    gained = gained.cwiseMax(0.0);
  }
  layout.scars(end) = layout.scars(end).cwiseMax(layout.scars(start));
}

bool RodsOnTheWay::look(RunInProgress& run, const StepTaken& step, State& end, const EventFunctions& events) {
  rods_.clear();
  ahead_.in = nullptr;
  const double every = run.scenario.repeat.connection_every, next = run.schedule.next_connection();
  for (double depth = next; depth < step.ends() - same_depth; depth = next + every * double(rods_.size()))
    rods_.push_back({depth, {}});
  if (rods_.empty()) return true;
  if (!work_out(run, end, ahead_)) return follow_all(run);
  if (!lay_between(run, step, end)) return false;
  x_ = end;
  const Eigen::Index slow = run.layout().slow_from();
  for (const Rod& rod : rods_) {
    x_.tail(x_.size() - slow) += rod.stop.gained;
    for (const auto& event : events) {
      if (!event->armed || event->value(x_, run.system) < 0.0 || event->value(end, run.system) >= 0.0)
        continue;
      run.course.rod_to_follow = rod.depth;
      return false;
    }
  }
  step.between(step.begins(), end, x_);
  take_back(run.layout(), x_, end);
  return true;
}

void RodsOnTheWay::pass(RunInProgress& run, const StepTaken& step) {
  const StateLayout& layout = run.layout();
  const double inlet = run.models.ground.inlet_temperature, seconds = run.scenario.repeat.connection_time;
  const double before = run.clock.time;
  double waited = 0.0;
  for (const Rod& rod : rods_) {
    if (rod.depth > run.depth() + same_depth) break;
    run.x.tail(run.x.size() - layout.slow_from()) += rod.stop.gained;
    run.schedule.pass_connection();
    waited += seconds;
    if (!rod.stop.flow_returns || !(rod.stop.hottest_table - inlet > policy::telling_quench)) continue;
    Event event{EventKind::quench};
    event.value = rod.stop.hottest_table;
    event.cutter = static_cast<int>(rod.stop.hottest_cutter);
    RunClock then = run.clock;
    then.time = std::min(step.time_at(rod.depth), before) + waited;
    x_ = run.x;
    x_(layout.depth()) = rod.depth;
    run.recorder.add_event(std::move(event), x_, then);
  }
  run.clock.move_to(before + waited, true);
  rods_.clear();
  std::swap(here_, ahead_);
}

}  // namespace dullcast::simulation
