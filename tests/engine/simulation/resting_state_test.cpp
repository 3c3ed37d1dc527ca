#include "engine/simulation/resting_state.hpp"

#include <gtest/gtest.h>

#include <limits>

#include "support/short_scenario.hpp"

namespace dullcast::simulation {
namespace {

TEST(RestingState, SetsAllButWhatABitCarriesFromHoleToHole) {
  const RunModels models = assemble(testing::short_scenario());
  const StateLayout layout(models.bit.bit.count());
  State x = State::Constant(layout.size(), std::numeric_limits<double>::quiet_NaN());
  layout.worn(x) = 1e-3;
  layout.damage(x) = 0.25;
  layout.chip_hazard(x) = 0.5;
  x(layout.eroded()) = x(layout.blade_wear()) = x(layout.pad_wear()) = 2e-3;
  rest(models, x);
  EXPECT_TRUE(x.allFinite());
  EXPECT_TRUE((layout.worn(x) == 1e-3).all() && (layout.damage(x) == 0.25).all());
  EXPECT_TRUE((layout.chip_hazard(x) == 0.5).all());
  EXPECT_EQ(x(layout.pad_wear()), 2e-3);
  EXPECT_TRUE((layout.table(x) == models.ground.inlet_temperature).all());
  EXPECT_EQ(x(layout.warm()), models.ground.rock_temperature(0.0));
  for (const Eigen::Index none :
       {layout.solids(), layout.plug(), layout.spent(), layout.carried(), layout.left_in_rock()}) {
    EXPECT_EQ(x(none), 0.0);
  }
}

TEST(RestingState, AHoleWithoutFlowAboveTheStandingWaterIsDry) {
  const auto water = [](double flow, double level, scenario::FluidKind kind) {
    scenario::Scenario s = testing::short_scenario();
    s.plan[0].flow = flow;
    s.column.water_level = level;
    s.fluid.kind = kind;
    const RunModels models = assemble(s);
    const StateLayout layout(models.bit.bit.count());
    State x = State::Zero(layout.size());
    rest(models, x);
    return x(layout.water());
  };
  EXPECT_EQ(water(0.0, 10.0, scenario::FluidKind::liquid), 0.0);
  EXPECT_EQ(water(0.0, 0.0, scenario::FluidKind::liquid), 1.0);
  EXPECT_EQ(water(1e-3, 10.0, scenario::FluidKind::liquid), 1.0);
  EXPECT_EQ(water(0.0, 10.0, scenario::FluidKind::gas), 1.0) << "a gas always fills it";
}

}  // namespace
}  // namespace dullcast::simulation
