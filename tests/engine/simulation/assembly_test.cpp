// What a scenario's numbers become before the first step.

#include "engine/simulation/assembly.hpp"

#include <gtest/gtest.h>

#include "engine/simulation/event_policies.hpp"
#include "support/short_scenario.hpp"

namespace dullcast::simulation {
namespace {

TEST(Assembly, TheGroundWarmsWithDepth) {
  scenario::Scenario s = testing::short_scenario();
  s.column.surface_temperature = 285.0;
  s.column.temperature_gradient = 0.03;
  const Ground ground = assemble(s).ground;
  EXPECT_EQ(ground.rock_temperature(0.0), 285.0);
  EXPECT_DOUBLE_EQ(ground.rock_temperature(200.0), 291.0);
}

// Choices of this program: one that is changed is changed on purpose, here too.
TEST(EventPolicies, AreAsTheyWereChosen) {
  EXPECT_EQ(policy::patience, 300.0);
  EXPECT_EQ(policy::afterwards_share, 2.0);
  EXPECT_EQ(policy::packed_from, 0.9);
  EXPECT_EQ(policy::clear_from, 0.5);
  EXPECT_EQ(policy::dry_from, 0.02);
  EXPECT_EQ(policy::harder_by, 1.2);
  EXPECT_EQ(policy::quenching_flow, 2.0);
  EXPECT_EQ(policy::telling_quench, 50.0);
}

}  // namespace
}  // namespace dullcast::simulation
