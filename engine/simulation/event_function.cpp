#include "engine/simulation/event_function.hpp"

#include <boost/math/tools/toms748_solve.hpp>
#include <cmath>
#include <cstdint>
#include <functional>

namespace dullcast::simulation {
namespace {

/// An event is located when its value is this near 0: metres, shares, kelvins.
constexpr double located_to = 1e-9;

/// Time inside the last step at which the interpolated state lets the event's value rise through 0.
double crossing_time(const EventFunction& event, const LinearlyImplicitStepper& stepper,
                     const DrillingSystem& system, const Probe& probe, const State& end, double end_time,
                     double end_value) {
  const double start_time = stepper.last_start_time();
  State between = end;
  const auto value = [&](double t) {
    stepper.interpolate(t, end, system.layout().slow_from(), between);
    return event.value(between, event.needs_forces() ? probe(between) : system);
  };
  const double start_value = value(start_time);
  if (!(start_value < 0.0)) return start_time;
  std::uintmax_t most_evaluations = 60;
  const double resolution = (event.needs_forces() ? 1e-6 : 1e-12) * (end_time - start_time);
  const auto bracket = boost::math::tools::toms748_solve(
      value, start_time, end_time, start_value, end_value,
      [resolution](double low, double high) { return high - low <= resolution; }, most_evaluations);
  return bracket.second;
}

}  // namespace

int locate_first(const EventFunctions& events, LinearlyImplicitStepper& stepper, DrillingSystem& system,
                 const Probe& probe, State& x, double& t) {
  const State end = x;
  const double end_time = t;
  int first = -1;
  double first_time = end_time;
  for (std::size_t k = 0; k < events.size(); ++k) {
    if (!events[k]->armed) continue;
    const double end_value = events[k]->value(end, system);
    if (!(end_value >= 0.0)) continue;
    const double when = end_value == 0.0
                            ? end_time
                            : crossing_time(*events[k], stepper, system, probe, end, end_time, end_value);
    if (first < 0 || when < first_time) {
      first = static_cast<int>(k);
      first_time = when;
    }
  }
  if (first < 0) return -1;

  // The interpolated crossing is as accurate as the step; retaking the step to it, and correcting by secants
  // on the retaken state, makes the event's state one that the method itself gives.
  const EventFunction& event = *events[static_cast<std::size_t>(first)];
  const double start_time = stepper.last_start_time();
  const double least = 1e-9 * (end_time - start_time);
  double size = std::max(first_time - start_time, least);
  double last_size = end_time - start_time, last_value = event.value(end, system);
  for (int trial = 0; trial < 8; ++trial) {
    stepper.retake(std::ref(system), x, t, size);
    const double value = event.value(x, system);
    if (event.needs_forces() || std::abs(value) <= located_to || size <= least) break;
    const double slope = (last_value - value) / (last_size - size);
    last_size = size;
    last_value = value;
    if (!(slope > 0.0)) break;
    size = std::clamp(size - value / slope, least, end_time - start_time);
  }
  return first;
}

}  // namespace dullcast::simulation
