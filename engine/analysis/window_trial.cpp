#include "engine/analysis/window_trial.hpp"

#include <algorithm>
#include <cmath>
#include <exception>
#include <limits>
#include <new>

#include "engine/analysis/layer_hole.hpp"
#include "engine/analysis/resting_bit.hpp"
#include "engine/analysis/suitability.hpp"
#include "engine/simulation/run.hpp"

namespace dullcast::analysis {
namespace {

constexpr double infinite = std::numeric_limits<double>::infinity();
constexpr double not_a_number = std::numeric_limits<double>::quiet_NaN();

/// value/limit for limits that cap; nothing is used of a limit that is not there.
double share_of(double value, double limit) {
  return std::isinf(limit) ? 0.0 : value / limit;
}

/// limit/value for limits that ask for at least so much.
double shortfall(double value, double limit) {
  return limit > 0.0 ? limit / value : 0.0;
}

bool told(const simulation::RunOutcome& run, simulation::EventKind kind) {
  return std::any_of(run.events.begin(), run.events.end(),
                     [kind](const simulation::Event& event) { return event.kind == kind; });
}

void read_rows(const scenario::Scenario& hole, const simulation::RunOutcome& run, WindowCell& cell) {
  for (const simulation::HistoryRow& row : run.history.rows) {
    if (row.weight > 0.0) cell.blade_share = std::max(cell.blade_share, row.blade_weight / row.weight);
    // A pump at its limit passes less; asked is what the whole flow would take, by the square of the flow.
    double pressure = row.bit_pressure_drop;
    if (hole.fluid.kind == scenario::FluidKind::liquid && row.flow_past_bit > 0.0)
      pressure *= std::pow(row.flow / row.flow_past_bit, 2.0);
    cell.pressure = std::max(cell.pressure, pressure);
  }
  if (!run.history.rows.empty()) cell.depth_of_cut = run.history.rows.back().depth_of_cut;
}

void read_run(const scenario::Scenario& hole, double whole_layer, const WindowLimits& limits,
              const simulation::RunOutcome& run, WindowCell& cell) {
  const simulation::LayerPassage& passage = run.passages.at(0);
  const double drilled = passage.bottom - passage.top;
  cell.stopped = run.ended_by != simulation::EndedBy::last_hole;
  if (!(drilled > 0.0) || !(passage.rotating_time > 0.0)) return;
  cell.rotating_time = passage.rotating_time;
  cell.weight_reached = passage.mean_weight;
  cell.rate_of_penetration = passage.mean_rate_of_penetration;
  cell.hottest_flat = passage.hottest_flat;
  cell.wear_per_metre = passage.greatest_wear_gain / drilled;
  cell.metres_to_allowance =
      cell.wear_per_metre > 0.0 ? limits.wear_allowance / cell.wear_per_metre : infinite;
  cell.chips_per_metre = passage.chip_hazard / drilled;
  cell.chips_per_pass = cell.chips_per_metre * whole_layer;
  cell.load_share = passage.greatest_load_share;
  cell.solids_fraction = passage.mean_solids_fraction;
  const double packed = hole.numbers.packed_fraction.central;
  cell.packing = packed > 0.0 ? cell.solids_fraction / packed : 0.0;
  cell.time_in_film = passage.time_in_film;
  cell.torque = passage.mean_torque;
  cell.ran_dry = told(run, simulation::EventKind::runs_dry);
  read_rows(hole, run, cell);
  const scenario::Costs& money = hole.costs;
  if (money.bit > 0.0 && money.rig_per_second > 0.0)
    cell.cost_per_metre =
        money.rig_per_second / cell.rate_of_penetration + money.bit / cell.metres_to_allowance;
}

void find_uses(const scenario::Scenario& hole, const WindowLimits& limits, WindowCell& cell) {
  const auto use = [&](WindowLimit which) -> double& { return cell.uses[static_cast<std::size_t>(which)]; };
  use(WindowLimit::weight) = share_of(cell.weight, limits.weight);
  if (!(cell.rate_of_penetration > 0.0)) {
    use(WindowLimit::standstill) = infinite;
    return;
  }
  use(WindowLimit::heat) =
      share_of(cell.hottest_flat - hole.inlet_temperature, limits.hottest_flat - hole.inlet_temperature);
  use(WindowLimit::wear) = shortfall(cell.metres_to_allowance, limits.metres_to_allowance);
  use(WindowLimit::chips) =
      std::pow(share_of(cell.chips_per_pass, limits.chips), 1.0 / hole.numbers.weibull_modulus.central);
  use(WindowLimit::retention) = share_of(cell.load_share, limits.load_share);
  use(WindowLimit::progress) = shortfall(cell.rate_of_penetration, limits.least_progress);
  use(WindowLimit::packing) = share_of(cell.packing, limits.packing);
  // Seconds under steam add up as long as the trial lasts: past the limit they count as a share of it.
  const double film = share_of(cell.time_in_film, limits.film);
  use(WindowLimit::film) = film > 1.0 ? 1.0 + (cell.time_in_film - limits.film) / cell.rotating_time : film;
  // Dry within less than the seconds of film allowed is dry all the same.
  if (cell.ran_dry && !std::isinf(limits.film))
    use(WindowLimit::film) = std::max(use(WindowLimit::film), 1.0);
  use(WindowLimit::rubbing) =
      cell.blade_share > 0.0 ? 1.0 / (1.0 - cell.blade_share) : cell.depth_of_cut / cell.depth_to_rub;
  use(WindowLimit::pressure) = share_of(cell.pressure, limits.pressure);
  if (cell.stopped) use(WindowLimit::standstill) = infinite;
}

void judge(WindowCell& cell) {
  double most = 0.0;
  for (std::size_t k = 0; k < cell.uses.size(); ++k) {
    if (std::isnan(cell.uses[k])) {
      cell.limit = WindowLimit::failed;
      cell.failure = std::string("the share of the ") + window_limit_name(static_cast<WindowLimit>(k)) +
                     " limit that is used came out as no number";
      return;
    }
    if (cell.uses[k] >= 1.0 && cell.uses[k] > most) {
      most = cell.uses[k];
      cell.limit = static_cast<WindowLimit>(k);
    }
  }
}

}  // namespace

const char* window_limit_name(WindowLimit limit) {
  switch (limit) {
    case WindowLimit::inside:
      return "inside";
    case WindowLimit::heat:
      return "heat";
    case WindowLimit::wear:
      return "wear";
    case WindowLimit::chips:
      return "chips";
    case WindowLimit::retention:
      return "seats";
    case WindowLimit::progress:
      return "progress";
    case WindowLimit::standstill:
      return "standstill";
    case WindowLimit::packing:
      return "packing";
    case WindowLimit::film:
      return "film";
    case WindowLimit::rubbing:
      return "rubbing";
    case WindowLimit::weight:
      return "weight";
    case WindowLimit::pressure:
      return "pressure";
    case WindowLimit::failed:
      return "failed";
  }
  return "";
}

WindowLimits usual_window_limits(const scenario::Scenario& scenario) {
  namespace at = suitability_limit;
  WindowLimits limits;
  limits.hottest_flat = scenario.numbers.acceleration_temperature.central;
  limits.metres_to_allowance = at::care_metres;
  limits.wear_allowance = wear_allowance(scenario);
  limits.chips = at::care_chips;
  limits.load_share = care_load_share(scenario);
  limits.least_progress = std::max(at::care_progress, scenario.rules.least_progress);
  limits.packing = at::care_packing;
  limits.film = at::care_film;
  limits.weight = scenario.weight_limit > 0.0 ? scenario.weight_limit : infinite;
  limits.pressure = scenario.pump_pressure_limit > 0.0 ? scenario.pump_pressure_limit : infinite;
  return limits;
}

scenario::Scenario at_setting(const scenario::Scenario& scenario, const WindowSetting& setting) {
  scenario::Scenario s = scenario;
  for (scenario::OperatingInterval& interval : s.plan) {
    interval.weight_on_bit = setting.weight;
    interval.pull_down = interval.holdback = 0.0;
    interval.rotary_speed = setting.rotary_speed;
    interval.flow = setting.flow;
    if (!setting.keep_feed_limit) interval.feed_limit.reset();
  }
  return s;
}

WindowCell try_plan(const scenario::Scenario& scenario, int layer, const simulation::BitCondition& condition,
                    const WindowLimits& limits, double seconds) {
  const scenario::Layer& whole = scenario.column.layers.at(static_cast<std::size_t>(layer));
  WindowCell cell;
  cell.depth_to_rub = infinite;
  cell.wear_per_metre = cell.metres_to_allowance = cell.chips_per_metre = cell.chips_per_pass = not_a_number;
  try {
    LayerHole hole = layer_hole(scenario, layer, condition, seconds);
    scenario::Scenario& s = hole.scenario;
    s.stepping.relative_tolerance = std::max(s.stepping.relative_tolerance, 1e-2);
    cell.rotary_speed = s.plan.front().rotary_speed;
    cell.hottest_flat = s.inlet_temperature;
    {
      RestingBit bit(s);
      const simulation::Evaluation& now = bit.on(bit.intervals().front());
      cell.weight = now.weight_asked;
      cell.depth_to_rub = now.forces.rubbing.depth_of_cut;
    }
    if (hole.rate_of_penetration > 0.0)
      read_run(s, whole.bottom - whole.top, limits, dullcast::simulation::run(s), cell);
    find_uses(s, limits, cell);
    judge(cell);
  } catch (const std::bad_alloc&) {
    throw;  // the machine's fault, which says nothing of the setting
  } catch (const std::exception& error) {
    cell.limit = WindowLimit::failed;
    cell.failure = error.what();
  }
  return cell;
}

WindowCell try_setting(const scenario::Scenario& scenario, int layer,
                       const simulation::BitCondition& condition, const WindowLimits& limits,
                       const WindowSetting& setting, double seconds) {
  WindowCell cell = try_plan(at_setting(scenario, setting), layer, condition, limits, seconds);
  // What was asked for stands even where the trial failed before it came to it.
  cell.weight = setting.weight;
  cell.rotary_speed = setting.rotary_speed;
  return cell;
}

}  // namespace dullcast::analysis
