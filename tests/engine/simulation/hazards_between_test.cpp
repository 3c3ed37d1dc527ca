// Chip hazards over long settled steps, beside runs whose heat is followed with short ones.

#include "engine/simulation/hazards_between.hpp"

#include <gtest/gtest.h>

#include "engine/input/scenario_reader.hpp"
#include "engine/simulation/run.hpp"

namespace dullcast::simulation {
namespace {

scenario::Scenario target(const std::string& grade) {
  const std::string root = DULLCAST_SOURCE_DIR;
  std::vector<input::Warning> warnings;
  return input::read_scenario(root + "/tools/bench/target.yaml", root + "/scenarios/library",
                              {"bit.grade=" + grade}, warnings);
}

// Layers of 25 m in one or two steps: an edge goes from bevel to flat within them. By trapezoids, or by a
// pair of third order, the hazards of the second grade come out wrong by 9 % at the looser tolerance.
TEST(HazardsBetween, HazardsOfLongStepsAreThoseFollowedInTime) {
  for (const char* grade : {"standard", "premium"}) {
    scenario::Scenario s = target(grade);
    s.stepping.relative_tolerance = 1e-5;
    s.stepping.warming = scenario::Warming::followed;
    const RunOutcome followed = run(s, {}, Rows::left_out);
    const double right = followed.end.chip_hazard.sum();
    s.stepping.warming = scenario::Warming::where_it_matters;
    for (const double tolerance : {3e-2, 1e-2}) {
      s.stepping.relative_tolerance = tolerance;
      const RunOutcome settled = run(s, {}, Rows::left_out);
      EXPECT_LT(settled.steps, 20);
      EXPECT_NEAR(settled.end.chip_hazard.sum(), right, 0.02 * right) << grade << ", " << tolerance;
      EXPECT_LE((settled.end.chip_hazard - followed.end.chip_hazard).abs().maxCoeff(),
                0.05 * followed.end.chip_hazard.maxCoeff())
          << grade << ", " << tolerance;
      EXPECT_NEAR(settled.end.worn_height.maxCoeff(), followed.end.worn_height.maxCoeff(),
                  0.005 * followed.end.worn_height.maxCoeff());
    }
  }
}

}  // namespace
}  // namespace dullcast::simulation
