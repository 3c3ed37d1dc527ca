#include "engine/simulation/rows_on_the_way.hpp"

#include <algorithm>
#include <boost/math/tools/toms748_solve.hpp>
#include <cmath>
#include <cstdint>
#include <limits>

namespace dullcast::simulation {
namespace {

constexpr double infinite = std::numeric_limits<double>::infinity();
constexpr double least_row_distance = 1e-6;  // m, of a history row from the end of its interval
constexpr double first_time = 0.02;          // s after a change: the fastest that heat moves
constexpr double last_time = 3600.0;         // s: bodies are warm long before
constexpr double worth_showing = 1.0;        // K that a jump to the balance moves a flat

}  // namespace

RowsOnTheWay::RowsOnTheWay(const scenario::Stepping& stepping, std::size_t passages, Rows kept)
    : every_(kept == Rows::kept ? stepping.output_every.value_or(0.0) : 0.0) {
  const bool chosen = kept == Rows::kept && !stepping.output_every;
  if (!chosen && !(every_ > 0.0)) return;
  const auto share = static_cast<std::size_t>(most_chosen_rows_in_all) / std::max<std::size_t>(passages, 1);
  const int rows = static_cast<int>(std::min<std::size_t>(share, most_chosen_rows));
  most_jumps_ = (rows + 3) / 4;
  if (!chosen) return;
  depths_ = rows / 4;
  most_times_ = rows - depths_ - most_jumps_;
  growth_ = std::pow(last_time / first_time, 1.0 / std::max(most_times_ - 1, 1));
}

void RowsOnTheWay::enter(double top, double bottom, double time) {
  bottom_ = bottom;
  spacing_ = every_ > 0.0 ? every_ : depths_ > 0 ? (bottom - top) / (depths_ + 1) : infinite;
  next_depth_ = top + spacing_;
  since_ = time;
  next_time_ = first_time;
  times_ = most_times_;
  jumps_ = most_jumps_;
  last_depth_ = top;
  at_start_ = true;
  begins_anew_ = false;
}

void RowsOnTheWay::find_depths(const StepTaken& step, const RunInProgress& run) {
  const Eigen::Index place = run.layout().depth();
  State between = run.x;
  while (next_depth_ < run.depth() && next_depth_ < bottom_ - least_row_distance) {
    const auto above = [&](double at) {
      step.between(at, run.x, between);
      return between(place) - next_depth_;
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
    places_.push_back(at);
    next_depth_ += spacing_;
  }
}

void RowsOnTheWay::find_times(const StepTaken& step, const RunInProgress& run) {
  // A settled bit has nothing to show within seconds; one whose heat moves again has.
  const bool settled = &step == static_cast<const StepTaken*>(&run.settled);
  if (begins_anew_ && !settled) {
    since_ = step.begins();
    next_time_ = first_time;
  }
  begins_anew_ = settled;
  if (settled) return;
  if (run.system.interval().off_bottom && !run.schedule.upset()) {
    // A stop for a rod cools the bit; what is looked for is how it heats, at a layer's top after the stop.
    begins_anew_ = times_ == most_times_;
    return;
  }
  for (; times_ > 0 && since_ + next_time_ < step.ends(); next_time_ *= growth_) {
    if (since_ + next_time_ < step.begins()) continue;
    places_.push_back(since_ + next_time_);
    --times_;
  }
}

void RowsOnTheWay::record(const StepTaken& step, RunInProgress& run) {
  at_start_ = false;
  places_.clear();
  find_depths(step, run);
  find_times(step, run);
  std::sort(places_.begin(), places_.end());
  if (places_.empty()) return;
  const StateLayout& layout = run.layout();
  State last = run.x, between = run.x;
  step.between(step.begins(), run.x, last);
  for (const double at : places_) {
    step.between(at, run.x, between);
    // Wear, damage, hazards, depth and energy never fall; an interpolant turns back by a last bit near an end
    // of the step, and within a long one by what that may be wrong by.
    for (Eigen::Index k = layout.slow_from(); k < layout.carried(); ++k)
      between(k) = std::clamp(between(k), std::min(last(k), run.x(k)), run.x(k));
    last = between;
    RunClock then = run.clock;
    then.move_to(step.time_at(at), run.system.interval().off_bottom);
    run.recorder.add_row(between, then);
    last_depth_ = between(layout.depth());
  }
}

void RowsOnTheWay::settled(const State& before, RunInProgress& run) {
  const int rows = at_start_ ? 1 : 2;
  if (jumps_ < rows ||
      std::abs(run.recorder.hottest_flat(before) - run.recorder.hottest_flat(run.x)) < worth_showing)
    return;
  jumps_ -= rows;
  // A change of settings puts the bit at its depth to the last bit, which a row just before may have passed.
  for (const State* each : {&before, static_cast<const State*>(&run.x)}) {
    if (at_start_ && each == &before) continue;
    State shown = *each;
    shown(run.layout().depth()) = std::max(shown(run.layout().depth()), last_depth_);
    run.recorder.add_row(shown, run.clock);
  }
}

}  // namespace dullcast::simulation
