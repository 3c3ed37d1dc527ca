#include "engine/simulation/spare_system.hpp"

#include <gtest/gtest.h>

#include "engine/simulation/bench.hpp"
#include "support/short_scenario.hpp"

namespace dullcast::simulation {
namespace {

// Asked for late or early, after cutters were ruined and lost in another layer.
TEST(SpareSystem, IsAsIfItHadBeenThereAllAlong) {
  testing::Bench bench(testing::short_scenario());
  const RunModels& models = bench.models;
  SpareSystem early(models, 1e-3), late(models, 1e-3);
  EXPECT_EQ(&early.system(), &early.system());
  for (SpareSystem* each : {&early, &late}) {
    each->enter(models.intervals[0]);
    each->set_ruined(2);
    each->set_lost(4);
    each->enter(models.intervals[1]);
  }
  testing::RandomStates random = bench.random();
  for (int k = 0; k < 5; ++k) {
    const State x = random.draw();
    State one = x, other = x;
    early.system()(x, one, 0.0);
    late.system()(x, other, 0.0);
    EXPECT_EQ(one, other);
    EXPECT_TRUE(late.system().ruined(2) && late.system().lost(4) && !late.system().lost(2));
    EXPECT_EQ(&late.system().interval(), &models.intervals[1]);
    EXPECT_EQ(late.system().layout().worn(other)(4), 0.0) << "what is lost wears no more";
  }
}

}  // namespace
}  // namespace dullcast::simulation
