#include "engine/analysis/cooling_table.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "engine/analysis/layer_hole.hpp"
#include "engine/analysis/resting_bit.hpp"
#include "engine/simulation/run.hpp"
#include "models/common/constants.hpp"
#include "models/hydraulics/hole_cleaning.hpp"

namespace dullcast::analysis {
namespace {

constexpr double gallon_per_minute = 3.785411784e-3 / 60.0;  // m3/s

bool same_flow(double a, double b) {
  return std::abs(a - b) <= 1e-6 * std::max(a, b);
}

bool is_planned(const scenario::Scenario& scenario, double flow) {
  return std::any_of(
      scenario.plan.begin(), scenario.plan.end(),
      [flow](const scenario::OperatingInterval& interval) { return same_flow(interval.flow, flow); });
}

/// Least flow in [low, high] for which ok(flow) holds, when it holds at high and not at low.
template <class Ok>
double least_between(double low, double high, Ok&& ok) {
  while (high > flow_closeness * low) {
    const double middle = std::sqrt(low * high);
    (ok(middle) ? high : low) = middle;
  }
  return high;
}

double flow_to_clean(const scenario::Scenario& scenario, const std::vector<double>& flows) {
  RestingBit bit(scenario);
  const simulation::DrillingInterval& interval = bit.intervals().front();
  const double R = scenario.bit.layout.bit_radius;
  const auto cleans = [&](double flow) {
    const simulation::Evaluation& now = bit.on(interval, flow);
    return hydraulics::cleans_hole(now.bottom.lifted_share,
                                   hydraulics::cleaning_index(now.bottom.slot.flow, now.bottom.lifted_share,
                                                              now.rate_of_penetration * pi * R * R));
  };
  if (cleans(flows.front())) return flows.front();
  if (!cleans(flows.back())) return std::numeric_limits<double>::infinity();
  return least_between(flows.front(), flows.back(), cleans);
}

}  // namespace

std::vector<double> flows_to_try(const scenario::Scenario& scenario) {
  std::vector<double> flows;
  if (scenario.fluid.kind == scenario::FluidKind::liquid) {
    for (const double gallons : {2.0, 3.0, 5.0, 7.0, 10.0, 15.0, 20.0, 30.0, 50.0, 70.0, 100.0, 150.0, 200.0})
      flows.push_back(gallons * gallon_per_minute);
  } else {
    double greatest = 0.0;
    for (const scenario::OperatingInterval& interval : scenario.plan)
      greatest = std::max(greatest, interval.flow);
    for (const double share : {0.05, 0.1, 0.2, 0.35, 0.5, 0.7, 1.0, 1.5, 2.0, 3.0, 5.0})
      flows.push_back(share * greatest);
  }
  for (const scenario::OperatingInterval& interval : scenario.plan) {
    const bool there =
        std::any_of(flows.begin(), flows.end(), [&](double flow) { return same_flow(flow, interval.flow); });
    if (!there && interval.flow > 0.0) flows.push_back(interval.flow);
  }
  std::sort(flows.begin(), flows.end());
  return flows;
}

FlowTable flow_table(const scenario::Scenario& scenario, const std::vector<double>& flows) {
  RestingBit bit(scenario);
  const auto& intervals = bit.intervals();
  const simulation::DrillingInterval& longest =
      *std::max_element(intervals.begin(), intervals.end(),
                        [](const simulation::DrillingInterval& a, const simulation::DrillingInterval& b) {
                          return a.bottom - a.top < b.bottom - b.top;
                        });
  FlowTable table;
  table.layer = longest.layer;
  table.rotary_speed = longest.rotary_speed;
  Eigen::Index outermost = 0;
  table.radius = scenario.bit.layout.radius.maxCoeff(&outermost);
  table.outermost_cutter = static_cast<int>(outermost);
  for (const double flow : flows) {
    FlowRow row;
    row.flow = flow;
    row.planned = is_planned(scenario, flow);
    row.lifted_share = 1.0;
    for (const simulation::DrillingInterval& interval : intervals) {
      const simulation::Evaluation& now = bit.on(interval, flow);
      if (now.rate_of_penetration > 0.0)
        row.lifted_share = std::min(row.lifted_share, now.bottom.lifted_share);
    }
    const simulation::Evaluation& now = bit.on(longest, flow);
    row.convection = now.cooling.convection(outermost);
    row.slot_velocity = now.bottom.slot.slot_velocity;
    row.uphole_velocity = now.bottom.slot.annulus_velocity;
    row.pressure_drop = now.bottom.slot.pressure_drop;
    table.rows.push_back(row);
  }
  return table;
}

LeastFlow least_flow(const scenario::Scenario& scenario, int layer, const simulation::BitCondition& condition,
                     const std::vector<double>& flows) {
  LayerHole hole = layer_hole(scenario, layer, condition, cooling_trial);
  scenario::Scenario& s = hole.scenario;
  s.numbers.abrasion_coefficient.central = 0.0;
  // Coarser than a forecast: 1 K is near enough to a limit of wear that sets in by degrees.
  s.stepping.relative_tolerance = std::max(s.stepping.relative_tolerance, 1e-2);
  LeastFlow least;
  least.layer = layer;
  least.rock = s.column.layers.front().rock.name;
  least.limit = scenario.numbers.acceleration_temperature.central;
  least.planned_flow = s.plan.front().flow;
  if (!(hole.rate_of_penetration > 0.0)) {
    least.coolable = Coolable::does_not_drill;
    return least;
  }
  bool stood = false;
  const auto hottest = [&](double flow) {
    s.plan.front().flow = flow;
    const simulation::RunOutcome run = dullcast::simulation::run(s, {}, simulation::Rows::left_out);
    stood = run.ended_by != simulation::EndedBy::last_hole;
    return run.hottest.temperature;
  };
  const auto keeps_cool = [&](double flow) { return hottest(flow) <= least.limit && !stood; };
  least.hottest_at_plan = hottest(least.planned_flow);
  least.hottest_at_most_flow = hottest(flows.back());
  const bool drills_at_most_flow = !stood;
  if (!drills_at_most_flow && least.hottest_at_most_flow <= least.limit) {
    least.coolable = Coolable::does_not_drill;
  } else if (least.hottest_at_most_flow > least.limit) {
    least.coolable = Coolable::at_no_flow;
    least.flow = flows.back();
  } else if (keeps_cool(flows.front())) {
    least.coolable = Coolable::at_any_flow;
    least.flow = flows.front();
  } else {
    least.flow = least_between(flows.front(), flows.back(), keeps_cool);
  }
  s.plan.front().flow = least.planned_flow;
  least.flow_to_clean = flow_to_clean(s, flows);
  return least;
}

simulation::BitCondition worn_to_allowance(const scenario::Scenario& scenario) {
  const geometry::BitLayout& bit = scenario.bit.layout;
  simulation::BitCondition condition = starting_condition(scenario);
  for (Eigen::Index i = 0; i < bit.count(); ++i) {
    const double allowance =
        scenario.rules.worn_height.value_or(scenario.rules.beyond_repair_share * bit.exposure(i));
    condition.worn_height(i) =
        std::max(condition.worn_height(i), allowance * bit.radius(i) / bit.radius.maxCoeff());
  }
  return condition;
}

}  // namespace dullcast::analysis
