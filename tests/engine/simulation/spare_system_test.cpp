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
    const DrillingSystem &one = early.at(x), &other = late.at(x);
    EXPECT_TRUE((one.evaluation().heats.flat_temperature == other.evaluation().heats.flat_temperature).all());
    EXPECT_EQ(one.evaluation().forces.balance.depth_of_cut, other.evaluation().forces.balance.depth_of_cut);
    EXPECT_TRUE(other.ruined(2) && other.lost(4) && !other.lost(2));
    EXPECT_EQ(&other.interval(), &models.intervals[1]);
    EXPECT_EQ(other.evaluation().chip_hazard_rate(4), 0.0) << "what is lost chips no more";
  }
}

// The same state again is not worked out again, unless something else has changed meanwhile.
TEST(SpareSystem, LooksOnceAtAState) {
  testing::Bench bench(testing::short_scenario());
  SpareSystem spare(bench.models, 1e-3);
  spare.enter(bench.models.intervals[0]);
  const State x = bench.random().draw();
  const long evaluations = spare.at(x).evaluations();
  EXPECT_EQ(spare.at(x).evaluations(), evaluations);
  State other = x;
  other(other.size() - 1) += 1.0;
  EXPECT_EQ(spare.at(other).evaluations(), evaluations + 1);
  spare.set_lost(3);
  EXPECT_EQ(spare.at(other).evaluations(), evaluations + 2);
  spare.set_ruined(2);
  EXPECT_EQ(spare.at(other).evaluations(), evaluations + 3);
  spare.enter(bench.models.intervals[1]);
  EXPECT_EQ(spare.at(other).evaluations(), evaluations + 4);
}

}  // namespace
}  // namespace dullcast::simulation
