#include <gtest/gtest.h>

#include <cmath>

#include "engine/input/cutter_findings.hpp"
#include "engine/input/reading.hpp"
#include "engine/input/same_scenario.hpp"

// A bit that starts as an inspection found it, and one that goes on from an earlier result rebuilt.
namespace dullcast::input {
namespace {

using testing::errors_of;
using testing::Messages;
using testing::plain_text;
using testing::scenario_of;
using testing::warnings_of;
using testing::with;
using testing::with_bit;

/// A list of 18 findings: those given, and `rest` for all others.
std::string wear_of(std::vector<std::string> first, const std::string& rest = "0.2 mm") {
  std::string list;
  for (std::size_t i = 0; i < 18; ++i) list += (i > 0 ? ", " : "") + (i < first.size() ? first[i] : rest);
  return "starting_wear: [" + list + "]";
}

int only_one(const Eigen::ArrayXi& marks) {
  Eigen::Index at = -1;
  return marks.sum() == 1 && marks.maxCoeff(&at) == 1 ? static_cast<int>(at) + 1 : 0;
}

TEST(InspectedStart, EachCutterIsReadAsItWasFound) {
  const scenario::BitRecord bit =
      scenario_of(with_bit(wear_of({"0.4 mm", "lost", "0.6 mm", "new", "chipped 0.5 mm", "table gone 1 mm"}) +
                           ", starting_damage: 0.1, starting_chip_hazard: 0.2"))
          .bit;
  EXPECT_NEAR(bit.starting_wear(0), 0.4e-3, 1e-15);
  EXPECT_EQ(bit.starting_wear(1), 0.0);
  EXPECT_EQ(bit.starting_wear(3), 0.0);
  EXPECT_NEAR(bit.starting_wear(4), 0.5e-3, 1e-15);
  EXPECT_NEAR(bit.starting_wear(5), 1e-3, 1e-15);
  EXPECT_NEAR(bit.starting_wear(17), 0.2e-3, 1e-15);
  EXPECT_EQ(only_one(bit.starting_lost), 2);
  EXPECT_EQ(only_one(bit.starting_chipped), 5);
  EXPECT_EQ(only_one(bit.starting_table_gone), 6);
  // A new cutter has borne nothing, whatever is said of all.
  EXPECT_EQ(bit.starting_damage(3), 0.0);
  EXPECT_EQ(bit.starting_chip_hazard(3), 0.0);
  EXPECT_EQ(bit.starting_damage(0), 0.1);
  EXPECT_EQ(bit.starting_chip_hazard(4), 0.2);
}

TEST(InspectedStart, WhatWasNotMeasuredLiesBetweenItsNeighboursAndSaysSo) {
  const std::string text = with_bit(
      wear_of({"not measured", "0.4 mm", "chipped 3 mm", "not measured", "new", "lost", "0.8 mm", "chipped"},
              "not measured"));
  const scenario::BitRecord bit = scenario_of(text).bit;
  const Eigen::ArrayXd& r = bit.layout.radius;
  EXPECT_NEAR(bit.starting_wear(0), 0.4e-3, 1e-15) << "only one side was measured";
  // Between cutters 2 and 7, past a chip, a new one and a gap, which tell nothing of wear.
  EXPECT_NEAR(bit.starting_wear(3), 0.4e-3 + 0.4e-3 * (r(3) - r(1)) / (r(6) - r(1)), 1e-15);
  EXPECT_NEAR(bit.starting_wear(7), 0.8e-3, 1e-15);
  EXPECT_EQ(bit.starting_chipped.sum(), 2);
  const auto warnings = warnings_of(text);
  ASSERT_EQ(warnings.size(), 1u);
  EXPECT_NE(warnings[0].find("taken from the nearest that were: cutter 1 (0.4 mm), 4 ("), std::string::npos)
      << warnings[0];
  EXPECT_NE(warnings[0].find("8 (0.8 mm, chipped)"), std::string::npos) << warnings[0];
}

TEST(InspectedStart, MistakesAreNamedWithTheirPlace) {
  EXPECT_EQ(errors_of(with_bit(wear_of({"lots"}))),
            Messages{"well.yaml:2:47: bit.starting_wear.0: \"lots\" says nothing of a cutter; write its worn "
                     "height, such as 0.4 mm, or new, lost, chipped 0.5 mm, table gone or not measured"});
  EXPECT_EQ(errors_of(with_bit(wear_of({"chippedness 1 mm"}))).size(), 1u);
  EXPECT_EQ(errors_of(with_bit(wear_of({"chipped 1"}))),
            Messages{"well.yaml:2:47: bit.starting_wear.0: \"1\" has no unit, and a length is wanted; write "
                     "13 mm or 0.5 in"});
  EXPECT_EQ(errors_of(with_bit(wear_of({"chipped 9 mm"}))),
            Messages{"well.yaml:2:46: bit.starting_wear: cutter 1 is worn 9 mm, beyond its exposure of 8 mm: "
                     "past repair"});
  EXPECT_EQ(errors_of(with_bit(wear_of({"new", "lost", "chipped 1 mm"}, "not measured"))),
            Messages{"well.yaml:2:46: bit.starting_wear: has no measured height from which the cutters not "
                     "measured could be taken; give one at least"});
  EXPECT_EQ(errors_of(with_bit(wear_of({}, "lost"))),
            Messages{"well.yaml:2:46: bit.starting_wear: leaves no cutter on the bit; name those that are "
                     "missing only"});
  EXPECT_EQ(errors_of(with_bit(wear_of({"new"}) + ", starting_lost: [1]")),
            Messages{"well.yaml:2:46: bit.starting_wear: calls cutter 1 new, and another key calls it lost, "
                     "chipped or without its table; keep one of them"});
  EXPECT_EQ(errors_of(with_bit("rebuilt: {new_cutters: [1]}")),
            Messages{"well.yaml:2:40: bit.rebuilt: belongs beside continues:, an earlier result; without "
                     "one, say what each cutter is like under starting_wear, new among them"});
}

TEST(InspectedStart, AChipThatTookNothingIsWarnedOf) {
  const auto warnings = warnings_of(with_bit("starting_chipped: [4, 9], starting_wear: " +
                                             wear_of({"0 mm", "0 mm", "0 mm", "0 mm"}).substr(15)));
  ASSERT_EQ(warnings.size(), 1u);
  EXPECT_NE(warnings[0].find("cutter 4 is chipped, but nothing is off its edge"), std::string::npos);
  EXPECT_EQ(scenario_of(with_bit("starting_chipped: [4, 9]")).bit.starting_chipped.sum(), 2);
}

TEST(InspectedStart, TheSameListServesACalibration) {
  std::string readings = wear_of({"0.4 mm", "lost", "new", "chipped 3 mm", "not measured"}).substr(15);
  const scenario::Scenario scenario =
      scenario_of(std::string(plain_text()) + "calibrate_from: {scenario: " + testing::scenario_folder() +
                  "/one_shallow_well.yaml, worn_height: " + readings + "}\n");
  const Eigen::ArrayXd& read = scenario.calibrate_from.value().worn_height;
  EXPECT_NEAR(read(0), 0.4e-3, 1e-15);
  for (const Eigen::Index i : {1, 2, 3, 4}) EXPECT_TRUE(std::isnan(read(i))) << i;
  EXPECT_NEAR(read(5), 0.2e-3, 1e-15);
}

TEST(RebuiltBit, WhatWasFoundAndDoneStandsBesideTheResult) {
  const scenario::BitRecord bit =
      scenario_of(with_bit(wear_of({"new", "0.4 mm", "lost", "chipped"}, "not measured") +
                           ", continues: a.h5, starting_chipped: [9], starting_table_gone: [10], rebuilt: "
                           "{new_cutters: [3, 7], turned: [5, 9], blades_built_up: yes, pads_built_up: yes}"))
          .bit;
  const scenario::SinceResult& since = bit.since_result;
  EXPECT_TRUE(std::isnan(since.worn_height(0)) && std::isnan(since.worn_height(17)));
  EXPECT_NEAR(since.worn_height(1), 0.4e-3, 1e-15);
  EXPECT_EQ(only_one(since.lost), 3);
  EXPECT_EQ(only_one(since.table_gone), 10);
  EXPECT_EQ(since.chipped(3) + since.chipped(8), since.chipped.sum());
  EXPECT_EQ(since.renewed(0) + since.renewed(2) + since.renewed(6), 3);
  EXPECT_EQ(since.renewed.sum(), 3);
  EXPECT_EQ(since.turned(4) + since.turned(8), since.turned.sum());
  EXPECT_TRUE(since.blades_built_up && since.pads_built_up);
  // Nothing is known of the start before the result is read.
  EXPECT_EQ(bit.starting_wear.abs().sum() + bit.starting_lost.sum() + bit.starting_chipped.sum() +
                bit.starting_table_gone.sum(),
            0.0);
}

TEST(RebuiltBit, MistakesAreNamedWithTheirPlace) {
  EXPECT_EQ(
      errors_of(with_bit("continues: a.h5, rebuilt: {new_cutters: [19], turned: 3, polished: yes}")),
      (Messages{"well.yaml:2:72: bit.rebuilt.new_cutters.0: \"19\" is no cutter of this bit; count them "
                "from 1 to 18, from the axis outward",
                "well.yaml:2:85: bit.rebuilt.turned: is \"3\"; write a list, one \"- \" to an item",
                "well.yaml:2:88: bit.rebuilt.polished: is not a key here; the keys are blades_built_up, "
                "new_cutters, pads_built_up or turned"}));
  EXPECT_EQ(errors_of(with_bit("continues: a.h5, starting_lost: [4], rebuilt: {new_cutters: [3], turned: [3, "
                               "4]}"))
                .size(),
            2u);
  EXPECT_EQ(
      errors_of(with_bit("continues: a.h5, starting_wear: 1 mm")),
      Messages{"well.yaml:2:63: bit.starting_wear: is one value beside continues:, which brings the wear "
               "along; keep one of them, or list what was measured, with not measured where the result "
               "is to stand"});
  // A cutter that was found lost and is new now is no contradiction.
  EXPECT_EQ(errors_of(with_bit("continues: a.h5, starting_lost: [3], rebuilt: {new_cutters: [3]}")),
            Messages{});
}

TEST(RebuiltBit, TheResolvedTextKeepsFindingsAndRebuild) {
  for (const std::string& keys :
       {wear_of({"new", "0.37 mm", "lost", "chipped"}, "not measured") +
            ", continues: a.h5, starting_chipped: [9], rebuilt: {turned: [5], pads_built_up: yes}",
        std::string("continues: a.h5, rebuilt: {new_cutters: [3, 7]}"),
        wear_of({"not measured", "0.37 mm", "lost", "chipped 0.41 mm", "new"}, "0.3 mm")}) {
    const scenario::Scenario one = scenario_of(with_bit(keys)), again = scenario_of(one.text);
    EXPECT_EQ(one.text, again.text);
    EXPECT_EQ(one.bit.continues, again.bit.continues);
    testing::expect_same_layout(one.bit, again.bit);
    const scenario::SinceResult &a = one.bit.since_result, &b = again.bit.since_result;
    EXPECT_TRUE(a.worn_height.size() == b.worn_height.size() &&
                (a.worn_height == b.worn_height || (a.worn_height.isNaN() && b.worn_height.isNaN())).all());
    EXPECT_TRUE((one.bit.starting_chipped == again.bit.starting_chipped).all());
    if (one.bit.continues.empty()) continue;
    EXPECT_TRUE((a.lost == b.lost).all() && (a.chipped == b.chipped).all() && (a.turned == b.turned).all());
    EXPECT_TRUE((a.renewed == b.renewed).all());
    EXPECT_EQ(a.pads_built_up, b.pads_built_up);
    EXPECT_EQ(a.blades_built_up, b.blades_built_up);
  }
}

TEST(RebuiltBit, ItsStartAsChangesNeedsNoResultAnyMore) {
  const std::string text = with_bit("continues: a.h5, rebuilt: {new_cutters: [3]}");
  scenario::Scenario ready = scenario_of(text);
  ready.bit.starting_wear = Eigen::ArrayXd::LinSpaced(18, 0.0, 1.0 / 3000.0);
  ready.bit.starting_damage(4) = 0.1 / 3.0;
  ready.bit.starting_lost(5) = ready.bit.starting_table_gone(6) = ready.bit.starting_chipped(7) = 1;
  ready.bit.starting_erosion = 1e-3 / 7.0;
  const scenario::Scenario changed = scenario_of(text, start_as_sets(ready.bit));
  EXPECT_TRUE(changed.bit.continues.empty());
  testing::expect_same_layout(ready.bit, changed.bit);
  EXPECT_TRUE((changed.bit.starting_lost == ready.bit.starting_lost).all());
  EXPECT_TRUE((changed.bit.starting_table_gone == ready.bit.starting_table_gone).all());
  EXPECT_TRUE((changed.bit.starting_chipped == ready.bit.starting_chipped).all());
  EXPECT_EQ(changed.bit.starting_erosion, ready.bit.starting_erosion);
  EXPECT_EQ(errors_of(changed.text), Messages{});
}

}  // namespace
}  // namespace dullcast::input
