#include "engine/analysis/cooling_table.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "engine/analysis/layer_hole.hpp"
#include "engine/simulation/run.hpp"
#include "models/common/constants.hpp"
#include "support/short_scenario.hpp"

namespace dullcast::analysis {
namespace {

using samples::gallon_per_minute;

scenario::Scenario with_ports() {
  scenario::Scenario s = testing::short_scenario();
  s.bit.build.port_area = 3e-4;
  s.bit.build.port_diameter = 9.8e-3;
  return s;
}

TEST(FlowTable, TriesTwoToTwoHundredGallonsAndThePlansOwn) {
  scenario::Scenario s = with_ports();
  s.plan[0].flow = 62.0 * samples::gallon_per_minute;
  const std::vector<double> flows = flows_to_try(s);
  EXPECT_NEAR(flows.front() / samples::gallon_per_minute, 2.0, 1e-12);
  EXPECT_NEAR(flows.back() / samples::gallon_per_minute, 200.0, 1e-12);
  EXPECT_TRUE(std::is_sorted(flows.begin(), flows.end()));
  int planned = 0;
  for (const FlowRow& row : flow_table(s, flows).rows) {
    if (!row.planned) continue;
    ++planned;
    EXPECT_EQ(row.flow, s.plan[0].flow);
  }
  EXPECT_EQ(planned, 1);
}

/// API RP 13D: ports take rho Q^2/(2 C_d^2 A^2); velocities are flow over area.
TEST(FlowTable, FollowsContinuityAndThePortFormula) {
  const scenario::Scenario s = with_ports();
  const double R = s.bit.layout.bit_radius, hole = pi * R * R;
  const double annulus = hole - pi * 0.027 * 0.027, slots = 0.35 * hole;
  for (const FlowRow& row : flow_table(s, flows_to_try(s)).rows) {
    EXPECT_NEAR(row.uphole_velocity, row.flow / annulus, 1e-9 * row.flow / annulus);
    EXPECT_NEAR(row.slot_velocity, row.flow / slots, 1e-9 * row.flow / slots);
    const double in_ports = 999.0 * row.flow * row.flow / (2.0 * 0.95 * 0.95 * 3e-4 * 3e-4);
    EXPECT_GE(row.pressure_drop, in_ports * (1.0 - 1e-12));
    // Slots take one and a half velocity heads more: small beside the ports.
    EXPECT_LE(row.pressure_drop, in_ports + 1.5 * 0.5 * 999.0 * row.slot_velocity * row.slot_velocity + 1e-6);
  }
}

TEST(FlowTable, MoreFlowCoolsAndLiftsMore) {
  const FlowTable table = flow_table(with_ports(), flows_to_try(with_ports()));
  for (std::size_t k = 1; k < table.rows.size(); ++k) {
    EXPECT_GT(table.rows[k].convection, table.rows[k - 1].convection);
    EXPECT_GE(table.rows[k].lifted_share, table.rows[k - 1].lifted_share);
  }
  EXPECT_GT(table.rows.front().convection, 0.0);
  EXPECT_NEAR(table.radius, with_ports().bit.layout.radius.maxCoeff(), 0.0);
}

TEST(FlowTable, AGasIsTabledAboutItsPlan) {
  scenario::Scenario s = with_ports();
  s.fluid = samples::invented_air();
  s.plan[0].flow = 0.15;
  const auto flows = flows_to_try(s);
  EXPECT_NEAR(flows.front(), 0.0075, 1e-12);
  EXPECT_NEAR(flows.back(), 0.75, 1e-12);
  EXPECT_GT(flow_table(s, flows).rows.back().convection, flow_table(s, flows).rows.front().convection);
}

/// A rock and settings whose flats pass 350 C without much flow.
scenario::Scenario warm_work(double weight, double speed) {
  scenario::Scenario s = with_ports();
  s.stepping.relative_tolerance = 1e-2;
  testing::give_one_layer(s, 5.0, samples::invented_rock("hard sandstone", 120e6, 3.0));
  s.plan[0].weight_on_bit = weight;
  s.plan[0].rotary_speed = speed;
  return s;
}

TEST(LeastFlow, GentleWorkIsCoolAtAnyFlow) {
  scenario::Scenario s = warm_work(3e3, 0.5);
  s.column.layers[0].rock = samples::invented_rock("shale", 15e6, 0.3);
  const LeastFlow least = least_flow(s, 0, starting_condition(s), flows_to_try(s));
  EXPECT_EQ(least.coolable, Coolable::at_any_flow);
  EXPECT_NEAR(least.flow / samples::gallon_per_minute, 2.0, 1e-9);
  EXPECT_LT(least.hottest_at_plan, 350.0 + celsius_zero);
}

TEST(LeastFlow, BurningWorkIsHotAtAnyFlow) {
  scenario::Scenario s = warm_work(60e3, 8.0);
  s.column.layers[0].rock = samples::invented_rock("granite", 200e6, 5.0);
  const LeastFlow least = least_flow(s, 0, starting_condition(s), flows_to_try(s));
  EXPECT_EQ(least.coolable, Coolable::at_no_flow);
  EXPECT_GT(least.hottest_at_most_flow, 350.0 + celsius_zero);
}

TEST(LeastFlow, NoWeightDoesNotDrill) {
  const scenario::Scenario s = warm_work(0.0, 1.5);
  EXPECT_EQ(least_flow(s, 0, starting_condition(s), flows_to_try(s)).coolable, Coolable::does_not_drill);
}

/// The flow found keeps the flats under the limit in a run of its own; a tenth less does not. The limit is
/// put half way between the temperatures at the least and the greatest flow, so that there is such a flow.
TEST(LeastFlow, IsWhereTheLimitIsCrossed) {
  scenario::Scenario s = warm_work(25e3, 1.5);
  const auto flows = flows_to_try(s);
  const simulation::BitCondition start = starting_condition(s);
  const auto hottest = [&](double flow) {
    LayerHole hole = layer_hole(s, 0, start, cooling_trial);
    hole.scenario.numbers.abrasion_coefficient.central = 0.0;
    hole.scenario.plan[0].flow = flow;
    return simulation::run(hole.scenario).hottest.temperature;
  };
  const double coolest = hottest(flows.back()), warmest = hottest(flows.front());
  ASSERT_GT(warmest, coolest + 5.0);
  s.numbers.acceleration_temperature = samples::exactly(0.5 * (coolest + warmest));
  const LeastFlow least = least_flow(s, 0, start, flows);
  ASSERT_EQ(least.coolable, Coolable::between);
  EXPECT_LE(hottest(least.flow), least.limit);
  EXPECT_GT(hottest(least.flow / 1.1), least.limit);
}

TEST(WornToAllowance, GrowsWithTravelUpToTheRule) {
  scenario::Scenario s = with_ports();
  s.rules.worn_height = 2e-3;
  s.bit.starting_wear(0) = 1.9e-3;
  const simulation::BitCondition worn = worn_to_allowance(s);
  const Eigen::ArrayXd& r = s.bit.layout.radius;
  EXPECT_NEAR(worn.worn_height.maxCoeff(), 2e-3, 1e-15);
  EXPECT_EQ(worn.worn_height(0), 1.9e-3);
  for (Eigen::Index i = 1; i < r.size(); ++i)
    EXPECT_NEAR(worn.worn_height(i), 2e-3 * r(i) / r.maxCoeff(), 1e-15);
}

}  // namespace
}  // namespace dullcast::analysis
