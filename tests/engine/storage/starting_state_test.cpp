#include "engine/storage/starting_state.hpp"

#include <gtest/gtest.h>

#include <functional>
#include <limits>

#include "engine/base/file_error.hpp"
#include "engine/storage/made_up_run.hpp"
#include "engine/storage/same_values.hpp"
#include "engine/storage/write_result.hpp"

namespace dullcast::storage {
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
  std::string refusal(const std::function<void(scenario::Scenario&, StoredRun&)>& change) const {
    scenario::Scenario changed = scenario;
    StoredRun run = earlier;
    change(changed, run);
    const scenario::Scenario before = changed;
    try {
      apply_starting_state(changed, run);
    } catch (const base::FileError& error) {
      EXPECT_TRUE(same_values::same(changed.bit.starting_wear, before.bit.starting_wear));
      EXPECT_TRUE(same_values::same(changed.bit.starting_damage, before.bit.starting_damage));
      EXPECT_TRUE(same_values::same(changed.bit.starting_chip_hazard, before.bit.starting_chip_hazard));
      EXPECT_TRUE(same_values::same(changed.bit.starting_lost, before.bit.starting_lost));
      EXPECT_TRUE(same_values::same(changed.bit.starting_table_gone, before.bit.starting_table_gone));
      EXPECT_TRUE(same_values::same(changed.bit.starting_chipped, before.bit.starting_chipped));
      EXPECT_EQ(changed.bit.starting_erosion, before.bit.starting_erosion);
      EXPECT_EQ(changed.bit.starting_blade_wear, before.bit.starting_blade_wear);
      EXPECT_EQ(changed.bit.starting_pad_wear, before.bit.starting_pad_wear);
      const std::string opening = "earlier.h5: the bit cannot go on from this result (bit 'made-up bit'): ";
      const std::string said = error.what();
      EXPECT_EQ(said.substr(0, opening.size()), opening);
      return said.substr(std::min(said.size(), opening.size()));
    }
    return "applied";
  }

  scenario::Scenario scenario = made_up::scenario(6);
  StoredRun earlier;
};

TEST_F(StartingState, TheBitBeginsWhereTheEarlierRunEnded) {
  apply_starting_state(scenario, earlier);
  const simulation::BitCondition end = made_up::plain_outcome(6, 3).end;
  EXPECT_TRUE(same_values::same(scenario.bit.starting_wear, end.worn_height));
  EXPECT_TRUE(same_values::same(scenario.bit.starting_damage, end.heat_damage));
  EXPECT_TRUE(same_values::same(scenario.bit.starting_chip_hazard, end.chip_hazard));
  EXPECT_TRUE(same_values::same(scenario.bit.starting_lost, end.lost));
  EXPECT_TRUE(same_values::same(scenario.bit.starting_table_gone, end.table_gone));
  EXPECT_TRUE(same_values::same(scenario.bit.starting_chipped, Eigen::ArrayXi(end.chips.min(1))));
  EXPECT_EQ(end.chips.maxCoeff(), 5);  // more than one is one edge that has chipped all the same
  EXPECT_EQ(end.lost.sum(), 2);        // so that the comparisons above are not of zeros
  EXPECT_EQ(end.table_gone.sum(), 2);
  EXPECT_EQ(scenario.bit.starting_erosion, 2.5e-4);
  EXPECT_EQ(scenario.bit.starting_blade_wear, 3.5e-4);
  EXPECT_EQ(scenario.bit.starting_pad_wear, 1.5e-4);
}

TEST_F(StartingState, AChangeOfUnitsIsForgiven) {
  EXPECT_EQ(refusal([](scenario::Scenario& s, StoredRun&) {
              s.bit.layout.bit_radius *= 1.0 + 1e-9;
              s.bit.layout.radius += 4e-7;
            }),
            "applied");
}

TEST_F(StartingState, AnotherBitIsRefusedWithTheDifference) {
  EXPECT_EQ(refusal([](scenario::Scenario& s, StoredRun&) { s.bit.layout.bit_radius = 0.1079500; }),
            "the bit diameter is 200.000 mm there and 215.900 mm in the scenario");
  EXPECT_EQ(
      refusal([](scenario::Scenario& s, StoredRun&) { s.bit.layout = made_up::scenario(7).bit.layout; }),
      "it has 6 cutters there and 7 in the scenario");
  EXPECT_EQ(refusal([](scenario::Scenario& s, StoredRun&) { s.bit.layout.radius[3] += 2e-6; }),
            "the radius of cutter 4 on the bit is 25.000 mm there and 25.002 mm in the scenario");
  EXPECT_EQ(refusal([](scenario::Scenario& s, StoredRun&) { s.bit.layout.shapes.front().radius = 0.0065; }),
            "the diameter of cutter 1 is 16.000 mm there and 13.000 mm in the scenario");
  EXPECT_EQ(refusal([](scenario::Scenario& s, StoredRun&) { s.bit.layout.shapes.front().length = 0.008; }),
            "the length of cutter 1 is 13.000 mm there and 8.000 mm in the scenario");
}

TEST_F(StartingState, AStateThatIsNoNumberIsRefused) {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  EXPECT_EQ(refusal([&](scenario::Scenario&, StoredRun& r) { r.outcome.end.worn_height[2] = nan; }),
            "worn height of cutter 3 is not a number from 0 up");
  EXPECT_EQ(refusal([&](scenario::Scenario&, StoredRun& r) { r.outcome.end.heat_damage[0] = -1e-3; }),
            "heat damage of cutter 1 is not a number from 0 up");
  EXPECT_EQ(refusal([&](scenario::Scenario&, StoredRun& r) { r.layout.radius[5] = nan; }),
            "the radius of cutter 6 on the bit is nan mm there and 35.000 mm in the scenario");
  EXPECT_EQ(refusal([&](scenario::Scenario&, StoredRun& r) { r.outcome.end.worn_height.resize(0); }),
            "it ends with 0 values of worn height for 6 cutters");
  EXPECT_EQ(refusal([&](scenario::Scenario&, StoredRun& r) { r.outcome.end.chip_hazard[1] = nan; }),
            "chip hazard of cutter 2 is not a number from 0 up");
  EXPECT_EQ(refusal([](scenario::Scenario&, StoredRun& r) { r.outcome.end.lost[4] = 2; }),
            "the mark of loss of cutter 5 is not 0 or 1");
  EXPECT_EQ(refusal([](scenario::Scenario&, StoredRun& r) { r.outcome.end.table_gone[0] = -1; }),
            "the mark of a lost table of cutter 1 is not 0 or 1");
  EXPECT_EQ(refusal([](scenario::Scenario&, StoredRun& r) { r.outcome.end.lost.resize(2); }),
            "it ends with 2 values of the mark of loss for 6 cutters");
  EXPECT_EQ(refusal([](scenario::Scenario&, StoredRun& r) { r.outcome.end.chips[2] = -1; }),
            "the chips of cutter 3 are below 0");
  EXPECT_EQ(refusal([&](scenario::Scenario&, StoredRun& r) { r.outcome.end.eroded = nan; }),
            "its erosion is not a number from 0 up");
  EXPECT_EQ(refusal([](scenario::Scenario&, StoredRun& r) { r.outcome.end.blade_wear = -1e-9; }),
            "the wear of its blades is not a number from 0 up");
  EXPECT_EQ(refusal([](scenario::Scenario&, StoredRun& r) { r.outcome.end.pad_wear = -1e-9; }),
            "the wear of its gauge pads is not a number from 0 up");
}

TEST_F(StartingState, AStateBeyondWhatTheBitHasIsRefused) {
  using Run = StoredRun;
  EXPECT_EQ(refusal([](scenario::Scenario&, Run& r) { r.outcome.end.worn_height[1] = 7.5e-3; }),
            "worn height of cutter 2 is 7.500 mm, beyond its exposure of 7.000 mm: past repair");
  EXPECT_EQ(refusal([](scenario::Scenario&, Run& r) { r.outcome.end.heat_damage[3] = 1.5; }),
            "heat damage of cutter 4 is more than 1, a ruined table's");
  EXPECT_EQ(refusal([](scenario::Scenario&, Run& r) { r.outcome.end.chip_hazard[0] = 2e3; }),
            "chip hazard of cutter 1 is more than 1000");
  EXPECT_EQ(refusal([](scenario::Scenario& s, Run& r) {
              s.bit.build.blade_thickness = 0.03;
              r.outcome.end.eroded = 10.0;
            }),
            "its erosion is 10000.000 mm, as much as the blade thickness of 30.000 mm: past repair");
  EXPECT_EQ(refusal([](scenario::Scenario& s, Run& r) {
              s.bit.build.blade_height = 0.04;
              r.outcome.end.blade_wear = 0.04;
            }),
            "the wear of its blades is 40.000 mm, as much as the blade height of 40.000 mm: past repair");
  EXPECT_EQ(refusal([](scenario::Scenario&, Run& r) { r.outcome.end.pad_wear = 0.2; }),
            "the wear of its gauge pads is 200.000 mm, as much as the bit radius of 100.000 mm: past repair");
  // At the bounds it goes on.
  EXPECT_EQ(refusal([](scenario::Scenario&, Run& r) {
              r.outcome.end.worn_height[1] = 7e-3;
              r.outcome.end.heat_damage[3] = 1.0;
            }),
            "applied");
}

TEST_F(StartingState, ABitThatLostItsCuttersOrABladeIsRefused) {
  EXPECT_EQ(refusal([](scenario::Scenario&, StoredRun& r) { r.outcome.end.lost.setOnes(); }),
            "it ends with no cutter on the bit");
  EXPECT_EQ(refusal([](scenario::Scenario&, StoredRun& r) {
              r.outcome.ended_by = simulation::EndedBy::blade_sheared;
            }),
            "a blade sheared off there");
}

/// 1 at the cutters named, counted from 1.
Eigen::ArrayXi at(std::initializer_list<Eigen::Index> cutters) {
  Eigen::ArrayXi marks = Eigen::ArrayXi::Zero(6);
  for (const Eigen::Index number : cutters) marks(number - 1) = 1;
  return marks;
}

TEST_F(StartingState, WhatIsNotSaidOfARebuildStaysAsTheResultLeftIt) {
  earlier.outcome.end.lost = at({2, 4});
  earlier.outcome.end.table_gone = at({3});
  earlier.outcome.end.chips << 0, 0, 0, 0, 2, 1;
  scenario.bit.since_result.renewed = at({2, 3, 6});
  scenario.bit.since_result.turned = at({5});
  scenario.bit.since_result.pads_built_up = true;
  apply_starting_state(scenario, earlier);
  const simulation::BitCondition& end = earlier.outcome.end;
  const scenario::BitRecord& bit = scenario.bit;
  for (const Eigen::Index i : {1, 2, 5}) {
    EXPECT_EQ(bit.starting_wear(i), 0.0) << i;
    EXPECT_EQ(bit.starting_damage(i), 0.0) << i;
    EXPECT_EQ(bit.starting_chip_hazard(i), 0.0) << i;
    EXPECT_GT(end.worn_height(i) * end.heat_damage(i) * end.chip_hazard(i), 0.0) << i;
  }
  EXPECT_EQ(bit.starting_wear(4), 0.0);
  EXPECT_EQ(bit.starting_chip_hazard(4), 0.0);
  EXPECT_EQ(bit.starting_damage(4), end.heat_damage(4)) << "the whole table was hot";
  for (const Eigen::Index i : {0, 3}) {
    EXPECT_EQ(bit.starting_wear(i), end.worn_height(i)) << i;
    EXPECT_EQ(bit.starting_damage(i), end.heat_damage(i)) << i;
    EXPECT_EQ(bit.starting_chip_hazard(i), end.chip_hazard(i)) << i;
  }
  EXPECT_TRUE(same_values::same(bit.starting_lost, at({4})));
  EXPECT_TRUE(same_values::same(bit.starting_table_gone, at({})));
  EXPECT_TRUE(same_values::same(bit.starting_chipped, at({})));
  EXPECT_EQ(bit.starting_erosion, end.eroded);
  EXPECT_EQ(bit.starting_blade_wear, end.blade_wear);
  EXPECT_EQ(bit.starting_pad_wear, 0.0);
  scenario.bit.since_result.blades_built_up = true;
  apply_starting_state(scenario, earlier);
  EXPECT_EQ(scenario.bit.starting_erosion, 0.0);
  EXPECT_EQ(scenario.bit.starting_blade_wear, 0.0);
}

TEST_F(StartingState, WhatWasFoundIsPutOverTheResultBeforeWhatWasDone) {
  constexpr double nan = std::numeric_limits<double>::quiet_NaN();
  earlier.outcome.end.lost = earlier.outcome.end.table_gone = at({6});
  earlier.outcome.end.chips.setZero();
  scenario::SinceResult& since = scenario.bit.since_result;
  since.worn_height = Eigen::ArrayXd::Constant(6, nan);
  since.worn_height(1) = 0.3e-3;
  since.worn_height(2) = 0.7e-3;
  since.lost = at({1, 4});
  since.table_gone = at({5});
  since.chipped = at({2});
  since.renewed = at({1});
  apply_starting_state(scenario, earlier);
  EXPECT_EQ(scenario.bit.starting_wear(0), 0.0);
  EXPECT_EQ(scenario.bit.starting_wear(1), 0.3e-3);
  EXPECT_EQ(scenario.bit.starting_wear(2), 0.7e-3);
  EXPECT_EQ(scenario.bit.starting_wear(3), earlier.outcome.end.worn_height(3));
  EXPECT_TRUE(same_values::same(scenario.bit.starting_lost, at({4, 6}))) << "found lost, and new now";
  EXPECT_TRUE(same_values::same(scenario.bit.starting_table_gone, at({5, 6})));
  EXPECT_TRUE(same_values::same(scenario.bit.starting_chipped, at({2})));
}

TEST_F(StartingState, ANewCutterMayBeOfAnotherKindAndAKeptOneMayNot) {
  const auto with_spare = [](scenario::Scenario& s, double bevel_width, const char* grade) {
    s.bit.layout.shapes.push_back(s.bit.layout.shapes.front());
    s.bit.layout.shapes.back().bevel_width = bevel_width;
    s.bit.kinds.push_back({"spare", s.bit.kinds.front().grade});
    s.bit.kinds.back().grade.name = grade;
    s.bit.layout.kind(3) = 1;
  };
  const std::string refused =
      "cutter 4 is of the kind usual there and spare in the scenario; if it is a new one, name it under "
      "bit.rebuilt.new_cutters";
  EXPECT_EQ(refusal([&](scenario::Scenario& s, StoredRun&) { with_spare(s, 0.5e-3, "standard"); }), refused);
  EXPECT_EQ(refusal([&](scenario::Scenario& s, StoredRun&) { with_spare(s, 0.4e-3, "premium"); }), refused);
  EXPECT_EQ(refusal([&](scenario::Scenario& s, StoredRun&) { with_spare(s, 0.4e-3, "standard"); }), "applied")
      << "only the name differs";
  EXPECT_EQ(refusal([&](scenario::Scenario& s, StoredRun&) {
              with_spare(s, 0.5e-3, "premium");
              s.bit.layout.shapes.back().length = 8e-3;
              s.bit.since_result.renewed = at({4});
            }),
            "applied");
}

TEST_F(StartingState, ACutterThatCannotBeTurnedIsNamed) {
  const auto turned = [this](const std::function<void(simulation::BitCondition&)>& change) {
    return refusal([&](scenario::Scenario& s, StoredRun& r) {
      r.outcome.end.lost.setZero();
      r.outcome.end.table_gone.setZero();
      s.bit.since_result.turned = at({3});
      change(r.outcome.end);
    });
  };
  EXPECT_EQ(turned([](simulation::BitCondition&) {}), "applied");
  EXPECT_EQ(turned([](simulation::BitCondition& end) { end.lost(2) = 1; }),
            "cutter 3 is lost or without its diamond there, so it cannot be turned");
  EXPECT_EQ(turned([](simulation::BitCondition& end) { end.table_gone(2) = 1; }),
            "cutter 3 is lost or without its diamond there, so it cannot be turned");
  EXPECT_EQ(turned([](simulation::BitCondition& end) { end.worn_height(2) = 8.1e-3; }),
            "cutter 3 is worn past its middle there, so it has no fresh edge to be turned to");
}

TEST_F(StartingState, ABitWhoseCuttersAreAllLostGoesOnWhenItHasANewOne) {
  scenario.bit.since_result.renewed = at({2});
  earlier.outcome.end.lost.setOnes();
  apply_starting_state(scenario, earlier);
  EXPECT_EQ(scenario.bit.starting_lost.sum(), 5);
}

}  // namespace
}  // namespace dullcast::storage
