#include "engine/simulation/rods_on_the_way.hpp"

#include <algorithm>
#include <cmath>

#include "engine/simulation/event_policies.hpp"
#include "engine/simulation/run_in_progress.hpp"

namespace dullcast::simulation {

bool RodsOnTheWay::work_out(RunInProgress& run, const StepTaken& step, const State& end, std::size_t k) {
  Rod& rod = rods_[k];
  x_ = end;
  step.between(rod.depth, end, x_);
  RodStops::Stop stop;
  if (!run.rod_stops().stop(x_, stop)) {
    // What must be followed here must be so for the rest of the way, like as not.
    run.course.rod_to_follow = rods_.front().depth;
    run.course.every_rod = true;
    return false;
  }
  rod.gained = std::move(stop.gained);
  rod.hottest_table = stop.hottest_table;
  rod.hottest_cutter = static_cast<int>(stop.hottest_cutter);
  rod.flow_returns = stop.flow_returns;
  return true;
}

/// Fills in the rods between the first, the middle and the last; false where the parabola bends too much.
bool RodsOnTheWay::between_three(const RunInProgress& run) {
  const std::size_t last = rods_.size() - 1, middle = last / 2;
  const Rod &a = rods_.front(), &b = rods_[middle], &c = rods_[last];
  const double at_b = static_cast<double>(middle) / static_cast<double>(last);
  const auto slow = run.system.error_scale().tail(a.gained.size()).array();
  const auto bend = (b.gained - (1.0 - at_b) * a.gained - at_b * c.gained).array().abs();
  if (!((bend / slow).maxCoeff() * static_cast<double>(rods_.size()) <=
        run.scenario.stepping.relative_tolerance))
    return false;
  for (std::size_t k = 1; k < last; ++k) {
    if (k == middle) continue;
    const double s = static_cast<double>(k) / static_cast<double>(last);
    const double to_a = (s - at_b) * (s - 1.0) / at_b, to_b = s * (s - 1.0) / (at_b * (at_b - 1.0)),
                 to_c = s * (s - at_b) / (1.0 - at_b);
    rods_[k].gained = to_a * a.gained + to_b * b.gained + to_c * c.gained;
    rods_[k].hottest_table = to_a * a.hottest_table + to_b * b.hottest_table + to_c * c.hottest_table;
    rods_[k].hottest_cutter = b.hottest_cutter;
    rods_[k].flow_returns = b.flow_returns;
  }
  return true;
}

/// What all rods take, the rest of what they do being gains.
void RodsOnTheWay::take_back(const StateLayout& layout, const State& start, State& end) {
  for (Rod& rod : rods_) {
    auto gained = layout.scars(rod.gained);
    layout.scars(end) += gained.cwiseMin(0.0);
    gained = gained.cwiseMax(0.0);
  }
  layout.scars(end) = layout.scars(end).cwiseMax(layout.scars(start));
}

bool RodsOnTheWay::look(RunInProgress& run, const StepTaken& step, State& end, const EventFunctions& events) {
  rods_.clear();
  const double every = run.scenario.repeat.connection_every, next = run.schedule.next_connection();
  for (double depth = next; depth < step.ends() - same_depth; depth = next + every * double(rods_.size()))
    rods_.push_back({depth, {}, 0.0, 0, false});
  if (rods_.empty()) return true;
  const std::size_t n = rods_.size();
  if (n > 3) {
    for (const std::size_t k : {std::size_t{0}, (n - 1) / 2, n - 1})
      if (!work_out(run, step, end, k)) return false;
  }
  if (n <= 3 || !between_three(run)) {
    for (std::size_t k = 0; k < n; ++k)
      if (rods_[k].gained.size() == 0 && !work_out(run, step, end, k)) return false;
  }
  x_ = end;
  const Eigen::Index slow = run.layout().slow_from();
  for (const Rod& rod : rods_) {
    x_.tail(x_.size() - slow) += rod.gained;
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
    run.x.tail(run.x.size() - layout.slow_from()) += rod.gained;
    run.schedule.pass_connection();
    waited += seconds;
    if (!rod.flow_returns || !(rod.hottest_table - inlet > policy::telling_quench)) continue;
    Event event{EventKind::quench};
    event.value = rod.hottest_table;
    event.cutter = rod.hottest_cutter;
    RunClock then = run.clock;
    then.time = std::min(step.time_at(rod.depth), before) + waited;
    x_ = run.x;
    x_(layout.depth()) = rod.depth;
    run.recorder.add_event(std::move(event), x_, then);
  }
  run.clock.move_to(before + waited, true);
  rods_.clear();
}

}  // namespace dullcast::simulation
