#include "engine/simulation/event_function.hpp"

#include <boost/math/tools/toms748_solve.hpp>
#include <cmath>
#include <cstdint>
#include <functional>

namespace dullcast::simulation {
namespace {

/// Where inside the last step the interpolated state lets the event's value rise through 0.
double crossing(const EventFunction& event, const StepTaken& step, const DrillingSystem& system,
                const Probe& probe, double within, const State& end, double end_value) {
  const double begins = step.begins(), ends = step.ends();
  State between = end;
  const auto value = [&](double at) {
    step.between(at, end, between);
    return event.value(between, event.needs_forces() ? probe(between) : system);
  };
  const double start_value = value(begins);
  if (!(start_value < 0.0)) return begins;
  std::uintmax_t most_evaluations = 60;
  const double resolution = (event.needs_forces() ? within : 1e-12) * (ends - begins);
  const auto bracket = boost::math::tools::toms748_solve(
      value, begins, ends, start_value, end_value,
      [resolution](double low, double high) { return high - low <= resolution; }, most_evaluations);
  return bracket.second;
}

/// Lands on an event that needs forces, between a retaken step that ends before it and one that ends past it.
/// A film that leaps over a cutter comes where a balance ends, which a straight line between a long step's
/// ends may miss by most of the step; so where that line has the event is only where it is looked for first:
/// there, in ever longer strides from there, and by halving once it lies between two of them.
void land_between(const EventFunction& event, StepTaken& step, const DrillingSystem& system, double guess,
                  double within, State& x, double& t) {
  constexpr double longer = 4.0;
  const double whole = step.ends() - step.begins(), near = within * whole;
  double before = 0.0, past = whole, size = guess, stride = 2.0 * near;
  for (;;) {
    step.retake(size, x, t);
    const bool is_past = event.value(x, system) >= 0.0;
    (is_past ? past : before) = size;
    if (past - before <= near) break;
    const double next = is_past ? past - stride : before + stride;
    const bool halve = (before > 0.0 && past < whole) || !(next > before && next < past);
    size = halve ? 0.5 * (before + past) : next;
    stride *= longer;
  }
  if (size < past) step.retake(past, x, t);
}

/// Lands on an event that the state alone tells, correcting the interpolant's crossing by secants on the
/// retaken state, and by halving where they leave what its crossing is known to lie between. A retaken step
/// may leap where its size passes what settles, so that no size comes near enough to an end of rock; then it
/// is landed on before it, which is never too deep.
void land_by_secants(const EventFunction& event, StepTaken& step, const DrillingSystem& system, double size,
                     double least, State& x, double& t) {
  constexpr double nothing = 1e-10;  // of the step
  const int most_trials = event.is_an_end() ? 60 : 8;
  const double whole = step.ends() - step.begins();
  double before = 0.0, past = whole, last_size = whole, last_value = event.value(x, system), value = 0.0;
  for (int trial = 0; trial < most_trials && past - before > nothing * whole; ++trial) {
    step.retake(size, x, t);
    value = event.value(x, system);
    if (std::abs(value) <= event.located_to() || size <= least) return;
    (value < 0.0 ? before : past) = size;
    const double slope = (last_value - value) / (last_size - size);
    last_size = size;
    last_value = value;
    const double next = size - value / slope;
    size = next > before && next < past ? std::max(next, least) : 0.5 * (before + past);
  }
  if (!event.is_an_end()) return;
  // Forces that stand from another trial move where a step of the same length ends, by a micrometre or so.
  for (double less = 1e-9; value > event.located_to() && before > 0.0 && less < 0.5; less *= 4.0) {
    step.retake((1.0 - less) * before, x, t);
    value = event.value(x, system);
  }
}

/// The interpolated crossing is as accurate as the step; retaking the step to it makes the event's state one
/// that the method itself gives.
void land(const EventFunction& event, StepTaken& step, const DrillingSystem& system, double at, double within,
          State& x, double& t) {
  const double whole = step.ends() - step.begins(), least = 1e-9 * whole;
  const double size = std::max(at - step.begins(), least);
  if (event.needs_forces())
    land_between(event, step, system, size, within, x, t);
  else
    land_by_secants(event, step, system, size, least, x, t);
}

struct Crossing {
  int event = -1;
  double at = 0.0;
};

/// The earliest crossing of those events that `counts` and whose value has risen past 0 at x, the step's end.
template <class Counts>
Crossing earliest(const EventFunctions& events, const StepTaken& step, const DrillingSystem& system,
                  const Probe& probe, double within, const State& x, const Counts& counts) {
  Crossing first{-1, step.ends()};
  for (std::size_t k = 0; k < events.size(); ++k) {
    const EventFunction& event = *events[k];
    if (!event.armed) continue;
    const double end_value = event.value(x, system);
    if (!(end_value >= 0.0) || !counts(event, end_value)) continue;
    const double at =
        end_value == 0.0 ? step.ends() : crossing(event, step, system, probe, within, x, end_value);
    if (first.event < 0 || at < first.at) first = {static_cast<int>(k), at};
  }
  return first;
}

}  // namespace

int locate_first(const EventFunctions& events, StepTaken& step, const DrillingSystem& system,
                 const Probe& probe, double within, State& x, double& t) {
  const auto any = [](const EventFunction&, double) { return true; };
  Crossing first = earliest(events, step, system, probe, within, x, any);
  if (first.event < 0 || first.at == step.ends()) return first.event;
  for (std::size_t landed = 0; landed < events.size(); ++landed) {
    const EventFunction& event = *events[static_cast<std::size_t>(first.event)];
    land(event, step, system, first.at, within, x, t);
    // The retaken state may have it later than the interpolant had, and another clearly before it: a bit must
    // not drill past its layer to lose a cutter there.
    const Crossing before =
        earliest(events, step, system, probe, within, x, [&](const EventFunction& other, double value) {
          return &other != &event && other.is_an_end() && value > other.located_to();
        });
    if (before.event < 0) break;
    first = before;
  }
  return first.event;
}

}  // namespace dullcast::simulation
