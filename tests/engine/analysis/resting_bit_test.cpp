// A bit put on its column at once, cold and clean: what a run finds at the collar.

#include "engine/analysis/resting_bit.hpp"

#include <gtest/gtest.h>

#include "engine/analysis/cooling_table.hpp"
#include "engine/simulation/run.hpp"
#include "support/short_scenario.hpp"

namespace dullcast::analysis {
namespace {

TEST(RestingBit, DrillsAsARunsFirstRowDoes) {
  scenario::Scenario s = testing::short_scenario();
  s.bit.starting_wear.setConstant(0.3e-3);
  s.bit.starting_lost = Eigen::ArrayXi::Zero(s.bit.layout.count());
  s.bit.starting_lost(5) = 1;
  const simulation::HistoryRow first = simulation::run(s).history.rows.front();
  RestingBit bit(s);
  const simulation::Evaluation& now = bit.on(bit.intervals().front());
  EXPECT_GT(now.rate_of_penetration, 0.0);
  // The balance's root is known to 1e-8 of itself.
  EXPECT_NEAR(now.rate_of_penetration, first.rate_of_penetration, 1e-7 * first.rate_of_penetration);
  EXPECT_NEAR(now.torque, first.torque, 1e-7 * first.torque);
  EXPECT_EQ(now.bottom.plug.height, 0.0);
  EXPECT_EQ(now.bottom.slot.packing, 0.0);
}

TEST(RestingBit, ChangesTheFlowAlone) {
  const scenario::Scenario s = testing::short_scenario();
  RestingBit bit(s);
  const simulation::DrillingInterval& planned = bit.intervals().front();
  const double rate = bit.on(planned).rate_of_penetration, flow = bit.on(planned).bottom.slot.flow;
  const simulation::Evaluation& doubled = bit.on(planned, 2.0 * planned.flow);
  EXPECT_NEAR(doubled.bottom.slot.flow, 2.0 * flow, 1e-12 * flow);
  EXPECT_NEAR(doubled.rate_of_penetration, rate, 1e-7 * rate);
}

// The table is of the bit that drills: its least lifted share is the one that a run of the same flow meets.
TEST(RestingBit, TheFlowTablesLiftIsARunsLift) {
  scenario::Scenario s = testing::short_scenario();
  s.repeat.connection_time = 0.0;
  s.numbers.abrasion_coefficient = samples::exactly(1e-22);
  const FlowTable table = flow_table(s, {s.plan[0].flow});
  double least = 1.0;
  for (const simulation::LayerPassage& passage : simulation::run(s).passages)
    least = std::min(least, passage.lifted_share);
  EXPECT_LT(least, 1.0);
  EXPECT_NEAR(table.rows.at(0).lifted_share, least, 1e-3 * least) << "solids in the slots move it a little";
}

}  // namespace
}  // namespace dullcast::analysis
