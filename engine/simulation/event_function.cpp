#include "engine/simulation/event_function.hpp"

#include <boost/math/tools/toms748_solve.hpp>
#include <cmath>
#include <cstdint>
#include <functional>

namespace dullcast::simulation {
namespace {

/// An event is located when its value is this near 0: metres, shares, kelvins.
constexpr double located_to = 1e-9;

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

}  // namespace

int locate_first(const EventFunctions& events, StepTaken& step, const DrillingSystem& system,
                 const Probe& probe, double within, State& x, double& t) {
  const double begins = step.begins(), ends = step.ends();
  const State end = x;
  int first = -1;
  double first_at = ends;
  for (std::size_t k = 0; k < events.size(); ++k) {
    if (!events[k]->armed) continue;
    const double end_value = events[k]->value(end, system);
    if (!(end_value >= 0.0)) continue;
    const double at =
        end_value == 0.0 ? ends : crossing(*events[k], step, system, probe, within, end, end_value);
    if (first < 0 || at < first_at) {
      first = static_cast<int>(k);
      first_at = at;
    }
  }
  if (first < 0 || first_at == ends) return first;

  // The interpolated crossing is as accurate as the step; retaking the step to it, and correcting by secants
  // on the retaken state, makes the event's state one that the method itself gives.
  const EventFunction& event = *events[static_cast<std::size_t>(first)];
  const double least = 1e-9 * (ends - begins);
  double size = std::max(first_at - begins, least);
  if (event.needs_forces()) {
    land_between(event, step, system, size, within, x, t);
    return first;
  }
  double last_size = ends - begins, last_value = event.value(end, system);
  for (int trial = 0; trial < 8; ++trial) {
    step.retake(size, x, t);
    const double value = event.value(x, system);
    if (std::abs(value) <= located_to || size <= least) break;
    const double slope = (last_value - value) / (last_size - size);
    last_size = size;
    last_value = value;
    if (!(slope > 0.0)) break;
    size = std::clamp(size - value / slope, least, ends - begins);
  }
  return first;
}

}  // namespace dullcast::simulation
