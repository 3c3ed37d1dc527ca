#include "engine/results/starting_state.hpp"

#include <gtest/gtest.h>

#include <functional>
#include <limits>

#include "engine/results/made_up_run.hpp"
#include "engine/results/result_error.hpp"
#include "engine/results/same_values.hpp"
#include "engine/results/write_result.hpp"

namespace dullcast {
namespace {

class StartingState : public testing::Test {
 protected:
  void SetUp() override {
    const made_up::Folder folder;
    write_result(folder / "earlier.h5", scenario, made_up::plain_outcome(6, 3));
    earlier = read_result(folder / "earlier.h5");
    earlier.path = "earlier.h5";
  }

  /// What is said when the changed scenario goes on from the changed result; the scenario must stay as it
  /// was.
  std::string refusal(const std::function<void(Scenario&, StoredRun&)>& change) const {
    Scenario changed = scenario;
    StoredRun run = earlier;
    change(changed, run);
    const Scenario before = changed;
    try {
      apply_starting_state(changed, run);
    } catch (const ResultError& error) {
      EXPECT_TRUE(same_values::same(changed.bit.starting_wear, before.bit.starting_wear));
      EXPECT_TRUE(same_values::same(changed.bit.starting_damage, before.bit.starting_damage));
      const std::string opening = "earlier.h5: the bit cannot go on from this result (bit 'made-up bit'): ";
      const std::string said = error.what();
      EXPECT_EQ(said.substr(0, opening.size()), opening);
      return said.substr(std::min(said.size(), opening.size()));
    }
    return "applied";
  }

  Scenario scenario = made_up::scenario(6);
  StoredRun earlier;
};

TEST_F(StartingState, TheBitBeginsWhereTheEarlierRunEnded) {
  apply_starting_state(scenario, earlier);
  const BitCondition end = made_up::plain_outcome(6, 3).end;
  EXPECT_TRUE(same_values::same(scenario.bit.starting_wear, end.worn_height));
  EXPECT_TRUE(same_values::same(scenario.bit.starting_damage, end.heat_damage));
}

TEST_F(StartingState, AChangeOfUnitsIsForgiven) {
  EXPECT_EQ(refusal([](Scenario& s, StoredRun&) {
              s.bit.layout.bit_radius *= 1.0 + 1e-9;
              s.bit.layout.radius += 4e-7;
            }),
            "applied");
}

TEST_F(StartingState, AnotherBitIsRefusedWithTheDifference) {
  EXPECT_EQ(refusal([](Scenario& s, StoredRun&) { s.bit.layout.bit_radius = 0.1079500; }),
            "the bit diameter is 200.000 mm there and 215.900 mm in the scenario");
  EXPECT_EQ(refusal([](Scenario& s, StoredRun&) { s.bit.layout = made_up::scenario(7).bit.layout; }),
            "it has 6 cutters there and 7 in the scenario");
  EXPECT_EQ(refusal([](Scenario& s, StoredRun&) { s.bit.layout.radius[3] += 2e-6; }),
            "the radius of cutter 4 on the bit is 25.000 mm there and 25.002 mm in the scenario");
  EXPECT_EQ(refusal([](Scenario& s, StoredRun&) { s.bit.layout.shape.radius = 0.0065; }),
            "the diameter of a cutter is 16.000 mm there and 13.000 mm in the scenario");
  EXPECT_EQ(refusal([](Scenario& s, StoredRun&) { s.bit.layout.shape.length = 0.008; }),
            "the length of a cutter is 13.000 mm there and 8.000 mm in the scenario");
}

TEST_F(StartingState, AStateThatIsNoNumberIsRefused) {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  EXPECT_EQ(refusal([&](Scenario&, StoredRun& r) { r.outcome.end.worn_height[2] = nan; }),
            "worn height of cutter 3 is not a number from 0 up");
  EXPECT_EQ(refusal([&](Scenario&, StoredRun& r) { r.outcome.end.heat_damage[0] = -1e-3; }),
            "heat damage of cutter 1 is not a number from 0 up");
  EXPECT_EQ(refusal([&](Scenario&, StoredRun& r) { r.layout.radius[5] = nan; }),
            "the radius of cutter 6 on the bit is nan mm there and 35.000 mm in the scenario");
  EXPECT_EQ(refusal([&](Scenario&, StoredRun& r) { r.outcome.end.worn_height.resize(0); }),
            "it ends with 0 values of worn height for 6 cutters");
}

}  // namespace
}  // namespace dullcast
