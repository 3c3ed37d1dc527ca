#include "engine/simulation/event_function.hpp"

#include <algorithm>
#include <array>
#include <boost/math/tools/toms748_solve.hpp>
#include <cmath>
#include <cstdint>
#include <functional>
#include <limits>

namespace dullcast::simulation {
namespace {

/// Below this a value is far from 0 without saying how far: no line goes through it.
constexpr double tells_nothing = -999.0;

/// Where inside the last step the interpolated state lets the event's value rise through 0. What needs forces
/// and is `alone` is looked for on retaken steps from there: a straight line between both ends' values will
/// do.
double crossing(const EventFunction& event, const StepTaken& step, const DrillingSystem& system,
                const Probe& probe, double within, const State& end, bool alone) {
  const double begins = step.begins(), ends = step.ends();
  State between = end;
  const auto value = [&](double at) {
    step.between(at, end, between);
    return event.value(between, event.needs_forces() ? probe(between) : system);
  };
  const double start_value = event.seen_at == begins ? event.seen : value(begins);
  if (!(start_value < 0.0)) return begins;
  if (alone && event.needs_forces() && start_value > tells_nothing)
    return begins + (ends - begins) * (start_value / (start_value - event.end_value));
  std::uintmax_t most_evaluations = 60;
  const double resolution = (event.needs_forces() ? within : 1e-12) * (ends - begins);
  const auto bracket = boost::math::tools::toms748_solve(
      value, begins, ends, start_value, event.end_value,
      [resolution](double low, double high) { return high - low <= resolution; }, most_evaluations);
  return bracket.second;
}

/// Lands on an event that needs forces, between a retaken step that ends before it and one that ends past it:
/// looked for where a straight line has it through the values on either side, of which one that has stood for
/// two looks counts half (the Illinois method: Dowell & Jarratt, BIT 11, 1971 [pub]), or, where that before
/// tells nothing, through the last two past it; a little to the side that was not landed on last; and in the
/// middle, where three looks have not halved what it lies between, as for a film that leaps over a cutter.
void land_between(const EventFunction& event, StepTaken& step, const DrillingSystem& system, double guess,
                  double within, State& x, double& t) {
  constexpr double aside = 0.3, never = std::numeric_limits<double>::infinity();
  struct Place {
    double size, value;
  };
  const double whole = step.ends() - step.begins(), near = within * whole;
  Place before{0.0, event.seen_at == step.begins() ? event.seen : -never};
  Place past{whole, event.end_value}, past_before = past;
  double size = std::clamp(guess, aside * near, whole - aside * near);
  std::array<double, 3> looks_ago{never, never, never};
  bool was_past = true;
  for (bool first = true;; first = false) {
    step.retake(size, x, t);
    const double value = event.value(x, system);
    const bool is_past = value >= 0.0;
    if (is_past) past_before = past;
    (is_past ? past : before) = {size, value};
    const double between = past.size - before.size;
    if (between <= near) break;
    if (!first && is_past == was_past) (is_past ? before : past).value *= 0.5;
    was_past = is_past;
    const Place& from = before.value > tells_nothing ? before : past_before;
    const double line = past.size - past.value * (past.size - from.size) / (past.value - from.value);
    const bool slow = between > 0.5 * looks_ago[2] || !std::isfinite(line);
    size = slow ? before.size + 0.5 * between
                : std::clamp(line + (is_past ? -aside : aside) * near, before.size + aside * near,
                             past.size - aside * near);
    looks_ago = slow ? std::array{never, never, never} : std::array{between, looks_ago[0], looks_ago[1]};
  }
  if (size < past.size) step.retake(past.size, x, t);
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
  int risen = 0;
  for (const auto& event : events) {
    event->has_risen = false;
    if (!event->armed) continue;
    event->end_value = event->value(x, system);
    event->has_risen = event->end_value >= 0.0 && counts(*event);
    risen += event->has_risen ? 1 : 0;
  }
  for (std::size_t k = 0; risen > 0 && k < events.size(); ++k) {
    const EventFunction& event = *events[k];
    if (!event.has_risen) continue;
    const double at =
        event.end_value == 0.0 ? step.ends() : crossing(event, step, system, probe, within, x, risen == 1);
    if (first.event < 0 || at < first.at) first = {static_cast<int>(k), at};
  }
  return first;
}

}  // namespace

int locate_first(const EventFunctions& events, StepTaken& step, const DrillingSystem& system,
                 const Probe& probe, double within, State& x, double& t) {
  const auto any = [](const EventFunction&) { return true; };
  Crossing first = earliest(events, step, system, probe, within, x, any);
  if (first.event < 0) {
    for (const auto& event : events) {
      event->seen = event->end_value;
      event->seen_at = event->armed ? step.ends() : std::numeric_limits<double>::quiet_NaN();
    }
  }
  if (first.event < 0 || first.at == step.ends()) return first.event;
  for (std::size_t landed = 0; landed < events.size(); ++landed) {
    const EventFunction& event = *events[static_cast<std::size_t>(first.event)];
    land(event, step, system, first.at, within, x, t);
    // The retaken state may have it later than the interpolant had, and another clearly before it: a bit must
    // not drill past its layer to lose a cutter there.
    const Crossing before = earliest(events, step, system, probe, within, x, [&](const EventFunction& other) {
      return &other != &event && other.is_an_end() && other.end_value > other.located_to();
    });
    if (before.event < 0) break;
    first = before;
  }
  return first.event;
}

}  // namespace dullcast::simulation
