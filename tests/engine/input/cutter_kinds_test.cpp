#include <gtest/gtest.h>

#include "engine/input/reading.hpp"
#include "models/common/constants.hpp"
#include "support/numbers.hpp"

// Bits as shops build and describe them: several kinds of cutter, chamfers, the twist of wings.
namespace dullcast::input {
namespace {

using testing::errors_of;
using testing::Messages;
using testing::plain_text;
using testing::scenario_of;
using testing::with;
using testing::with_bit;

using testing::degree;

geometry::BitLayout layout_of(const std::string& keys) {
  return scenario_of(with_bit(keys)).bit.layout;
}

TEST(CutterKinds, OneThatSaysLittleIsAsTheUsualCutterElsewhere) {
  const scenario::BitRecord bit =
      scenario_of(
          with_bit("cutter: {leach_depth: 0.1 mm}, cutter_kinds: {shoulder: {size: 1308, leach_depth: "
                   "0.3 mm, grade: premium}, spare: {chamfer: 0.5 mm x 30 deg}}"))
          .bit;
  ASSERT_EQ(bit.kinds.size(), 3u);
  ASSERT_EQ(bit.layout.shapes.size(), 3u);
  EXPECT_EQ(bit.kinds[0].name, "usual");
  EXPECT_EQ(bit.kinds[1].name, "shoulder");
  EXPECT_EQ(bit.kinds[2].name, "spare");
  EXPECT_EQ(bit.kinds[0].grade.name, "standard");
  EXPECT_EQ(bit.kinds[1].grade.name, "premium");
  EXPECT_GT(bit.kinds[1].grade.wear_resistance.central, bit.kinds[0].grade.wear_resistance.central);
  EXPECT_EQ(bit.kinds[2].grade.name, "standard");
  const geometry::CutterShape &usual = bit.layout.shapes[0], &shoulder = bit.layout.shapes[1],
                              &spare = bit.layout.shapes[2];
  EXPECT_NEAR(shoulder.radius, 6.5e-3, 1e-15);
  EXPECT_NEAR(shoulder.length, 8e-3, 1e-15);
  EXPECT_NEAR(shoulder.leach_depth, 0.3e-3, 1e-15);
  EXPECT_EQ(shoulder.bevel_width, usual.bevel_width);
  EXPECT_EQ(spare.radius, usual.radius);
  EXPECT_NEAR(spare.leach_depth, 0.1e-3, 1e-15);
  EXPECT_NEAR(spare.bevel_width, 0.5e-3, 1e-15);
  EXPECT_NEAR(spare.bevel_angle, 30.0 * degree, 1e-15);
  EXPECT_TRUE((bit.layout.kind == 0).all()) << "none is fitted";
}

TEST(CutterKinds, ZonesAndFittedCuttersSayWhereTheySit) {
  const geometry::BitLayout bit = layout_of(
      "cutter_kinds: {shoulder: {size: 1308}, spare: {leach_depth: 0.2 mm}}, blades: {kinds: [{from: "
      "0.7, kind: shoulder}]}, fitted: [{cutters: [2, 17], kind: spare}, {cutters: [18], kind: usual}]");
  ASSERT_EQ(bit.count(), 18);
  for (Eigen::Index i = 0; i < 18; ++i) {
    const int expected = i == 1 || i == 16 ? 2 : i == 17 ? 0 : bit.radius(i) >= 0.7 * bit.radius(17) ? 1 : 0;
    EXPECT_EQ(bit.kind(i), expected) << i;
  }
  const geometry::BitLayout bare =
      scenario_of(with(plain_text(), "like: four_blade_7_7_8",
                       "diameter: 200 mm, cutter: {size: 1613}, cutter_kinds: {small: {size: 1308}}, blades: "
                       "{cutters_per_blade: [5, 4, 5, 4], kinds: [{from: 0.7, kind: small}]}"))
          .bit.layout;
  for (Eigen::Index i = 0; i < 18; ++i) EXPECT_EQ(bare.exposure(i), bare.shape(i).radius) << i;
}

TEST(CutterKinds, AListedCutterNamesItsOwn) {
  const std::string text = with(
      plain_text(), "like: four_blade_7_7_8",
      "diameter: 60 mm, cutter: {size: 1613}, cutter_kinds: {small: {size: 1308}}, cutters: [{radius: 6 mm, "
      "azimuth: 0 deg, back_rake: 15 deg}, {radius: 14 mm, azimuth: 180 deg, back_rake: 15 deg}, {radius: 23 "
      "mm, azimuth: 90 deg, back_rake: 15 deg, kind: small}]");
  const geometry::BitLayout bit = scenario_of(text).bit.layout;
  EXPECT_EQ(bit.kind(0), 0);
  EXPECT_EQ(bit.kind(2), 1);
  EXPECT_NEAR(bit.exposure(0), 8e-3, 1e-15);
  EXPECT_NEAR(bit.exposure(2), 6.5e-3, 1e-15);
  EXPECT_EQ(scenario_of(with(text, "cutters: [{", "fitted: [{cutters: [1], kind: small}], cutters: [{"))
                .bit.layout.kind(0),
            1);
}

TEST(CutterKinds, EachGradeIsCountedOnceAmongTheUncertainNumbers) {
  scenario::Scenario scenario = scenario_of(
      with_bit("cutter_kinds: {one: {grade: premium}, other: {grade: premium, leach_depth: 0.2 mm}}, fitted: "
               "[{cutters: [3], kind: one}, {cutters: [4], kind: other}]"));
  int standard = 0, premium = 0;
  scenario::for_each_number(scenario, [&](const std::string& name, scenario::Quantity& quantity) {
    if (name == "grade standard: wear_resistance") ++standard;
    if (name != "grade premium: wear_resistance") return;
    ++premium;
    quantity.central = 7.0;
  });
  EXPECT_EQ(standard, 1);
  EXPECT_EQ(premium, 1);
  EXPECT_EQ(scenario.bit.kinds[1].grade.wear_resistance.central, 7.0);
  EXPECT_EQ(scenario.bit.kinds[2].grade.wear_resistance.central, 7.0);
  EXPECT_NE(scenario.bit.kinds[0].grade.wear_resistance.central, 7.0);
}

TEST(CutterKinds, ASideRakeFarFromUsualWarnsAndRuns) {
  EXPECT_EQ(
      testing::warnings_of(with_bit("blades: {side_rake: -25 deg}")),
      Messages{"well.yaml:2:39: bit.blades: a side rake of 25 deg is far from the usual 0 to 10 deg (common "
               "practice)"});
  EXPECT_EQ(testing::warnings_of(with_bit("blades: {side_rake: 20 deg}")), Messages{});
}

TEST(CutterKinds, MistakesAreNamedWithTheirPlace) {
  EXPECT_EQ(
      errors_of(with_bit("cutter_kinds: {usual: {size: 1308}}")),
      Messages{"well.yaml:2:53: bit.cutter_kinds.usual: is what the cutters of cutter: are called; take "
               "another name"});
  EXPECT_EQ(
      errors_of(with_bit("cutter_kinds: {small: {size: 1308}}, fitted: [{cutters: [3], kind: smal}]")),
      Messages{"well.yaml:2:98: bit.fitted.0.kind: there is no kind of cutter on this bit \"smal\"; did "
               "you mean small?"});
  EXPECT_EQ(errors_of(with_bit("cutter_kinds: {small: {size: 1308}}, fitted: [{cutters: [19, 3, 3, x], kind: "
                               "small}]")),
            (Messages{"well.yaml:2:76: bit.fitted: names cutter 19; this bit has 18",
                      "well.yaml:2:95: bit.fitted.0.cutters.2: names cutter 3 twice; keep one of them",
                      "well.yaml:2:98: bit.fitted.0.cutters.3: \"x\" is no cutter; count them from 1"}));
  EXPECT_EQ(
      errors_of(with_bit("cutter_kinds: {small: {size: 1308}}, blades: {kinds: [{from: 0.7, kind: small}, "
                         "{from: 0.5, kind: usual}]}")),
      Messages{"well.yaml:2:118: bit.blades.kinds.1.from: does not lie further out than the one before; "
               "list zones from the axis outward"});
  EXPECT_EQ(errors_of(with_bit("cutter_kinds: {small: {size: 1308, grade: gold}}"))[0].substr(0, 77),
            "well.yaml:2:73: bit.cutter_kinds.small.grade: there is no cutter grade \"gold\"");
  EXPECT_EQ(errors_of(with_bit("cutter_kinds: {small: {size: 1308, colour: red}}")).size(), 1u);
}

TEST(Chamfer, IsItsWidthOnTheFaceByItsAngle) {
  for (const char* text : {"0.4 mm x 45 deg", "0.01574803149606299 in x 45 deg", "400 um x 45 deg"}) {
    const geometry::CutterShape shape =
        layout_of("cutter: {chamfer: " + std::string(text) + "}").shapes.front();
    EXPECT_NEAR(shape.bevel_width, 0.4e-3, 1e-12) << text;
    EXPECT_NEAR(shape.bevel_angle, 45.0 * degree, 1e-15) << text;
  }
  const geometry::CutterShape none = layout_of("cutter: {chamfer: none}").shapes.front();
  EXPECT_EQ(none.bevel_width, 0.0);
  EXPECT_EQ(none.bevel_angle, 0.0);
}

TEST(Chamfer, MistakesAreNamedWithTheirPlace) {
  EXPECT_EQ(
      errors_of(with_bit("cutter: {chamfer: 0.4 mm}")),
      Messages{"well.yaml:2:49: bit.cutter.chamfer: \"0.4 mm\" is no chamfer; write its width by its angle, "
               "such as 0.4 mm x 45 deg, or none"});
  EXPECT_EQ(errors_of(with_bit("cutter: {chamfer: 0.4 mm x 45 deg, bevel_width: 0.4 mm}")),
            Messages{"well.yaml:2:79: bit.cutter.bevel_width: is given beside chamfer:; keep one of them"});
  EXPECT_EQ(errors_of(with_bit("cutter: {chamfer: 0.4 x 45 deg}")).size(), 1u);
  EXPECT_EQ(
      errors_of(with_bit("cutter: {chamfer: 1 mm x 80 deg}")),
      Messages{"well.yaml:2:49: bit.cutter.chamfer: reaches deeper than the table's thickness of 2 mm; a "
               "usual bevel is 0.4 mm by 45 deg"});
}

TEST(WingTwist, TurnsAWingFromItsInnermostToItsOutermostCutter) {
  const auto turned = [](const geometry::BitLayout& bit, int blade) {
    double first = 0.0, last = 0.0;
    bool found = false;
    for (Eigen::Index i = 0; i < bit.count(); ++i) {
      if (bit.blade(i) != blade) continue;
      if (!found) first = bit.azimuth(i);
      found = true;
      last = bit.azimuth(i);
    }
    const double turn = std::fmod(first - last + two_pi, two_pi);
    return turn > pi ? turn - two_pi : turn;
  };
  const geometry::BitLayout by_angle = layout_of("blades: {wing_twist: 35 deg}");
  const geometry::BitLayout by_arc = layout_of("blades: {wing_twist: 30 mm}");
  const geometry::BitLayout each = layout_of("blades: {wing_twist: [10 deg, 20 deg, 30 mm, -5 deg]}");
  for (int blade = 0; blade < 4; ++blade) {
    EXPECT_NEAR(turned(by_angle, blade), 35.0 * degree, 1e-12) << blade;
    EXPECT_NEAR(turned(by_arc, blade), 30e-3 / by_arc.bit_radius, 1e-12) << blade;
  }
  EXPECT_NEAR(turned(each, 0), 10.0 * degree, 1e-12);
  EXPECT_NEAR(turned(each, 1), 20.0 * degree, 1e-12);
  EXPECT_NEAR(turned(each, 2), 30e-3 / each.bit_radius, 1e-12);
  EXPECT_NEAR(turned(each, 3), -5.0 * degree, 1e-12);
  EXPECT_EQ(errors_of(with_bit("blades: {wing_twist: 20 deg, wing_sweep: 20 deg}")),
            Messages{"well.yaml:2:52: bit.blades.wing_twist: is given beside wing_sweep:; keep one of them"});
  EXPECT_EQ(
      errors_of(with_bit("blades: {wing_twist: [20 deg]}")),
      Messages{"well.yaml:2:52: bit.blades.wing_twist: has 1 values for 4 blades; write one for all, or one "
               "a blade"});
  EXPECT_EQ(errors_of(with_bit("blades: {wing_twist: 20}")).size(), 1u);
}

}  // namespace
}  // namespace dullcast::input
