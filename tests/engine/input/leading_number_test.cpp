#include "engine/input/leading_number.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "engine/input/reading.hpp"

namespace dullcast::input {
namespace {

using base::dimension::force;
using base::dimension::length;

double metres(const std::string& text) {
  return UnitParser().parse(text, length);
}

/// Why a text is refused; empty when it is read.
std::string refusal(const std::string& text, const base::Dimension& wanted) {
  try {
    UnitParser().parse(text, wanted);
  } catch (const UnitError& error) {
    return error.what();
  }
  return {};
}

TEST(LeadingNumber, FractionsOfTheTradeAreReadAsTheyAreWritten) {
  constexpr double inch = 0.0254;
  EXPECT_NEAR(metres("6-1/8 in"), 6.125 * inch, 1e-15);
  EXPECT_NEAR(metres("7 7/8 in"), 7.875 * inch, 1e-15);
  EXPECT_NEAR(metres("7  7/8in"), 7.875 * inch, 1e-15);
  EXPECT_NEAR(metres("1/2 in"), 0.5 * inch, 1e-15);
  EXPECT_NEAR(metres("63/64 in"), 63.0 / 64.0 * inch, 1e-15);
  EXPECT_NEAR(metres("13/8 in"), 1.625 * inch, 1e-15);
  EXPECT_NEAR(UnitParser().parse("-1/2 K", base::dimension::temperature_difference), -0.5, 1e-15);
  EXPECT_NEAR(UnitParser().parse("-1 1/2 K", base::dimension::temperature_difference), -1.5, 1e-15);
}

TEST(LeadingNumber, WhatIsNoFractionIsRefused) {
  for (const char* text :
       {"7 9/8 in", "7 8/8 in", "7-0/8 in", "1/0 in", "7 1/0 in", "1.5 1/2 in", "7 -1/8 in", "7- 1/8 in",
        "7 1/8.5 in", "1/2", "7 7/8", "1/2/3 in", "12345/2 in"}) {
    EXPECT_NE(refusal(text, length), "") << text;
  }
}

TEST(LeadingNumber, WithASpaceInItIsRefusedAndNotMultiplied) {
  // A space that does not break, and a narrow one, stand where some write thousands apart.
  for (const char* text : {"6 750 lbf", "12 500 N", "6\u00a0750 lbf", "6\u202f750 lbf", "1 20 kN", "5 .5 kN",
                           "6750 -3 lbf", "6750.5.3 lbf", "6750-3 lbf", "6'750 lbf", "12 10^3 N"}) {
    const std::string why = refusal(text, force);
    EXPECT_NE(why.find("write a number without spaces or commas (6750, not 6 750)"), why.npos)
        << text << ": " << why;
  }
  EXPECT_NE(refusal("6,750 lbf", force).find("has a comma in its number"), std::string::npos);
  EXPECT_NE(refusal("6 ,750 lbf", force).find("has a comma in its number"), std::string::npos);
  EXPECT_NEAR(UnitParser().parse("6750\u00a0N", force), 6750.0, 1e-9);
}

TEST(LeadingNumber, ASecondNumberWithinTheUnitIsRefused) {
  for (const char* text : {"12 m 2", "5 ft 6", "3 m*2", "3 m.2", "3 (2 m)/(1 2)"})
    EXPECT_NE(refusal(text, length), "") << text;
  EXPECT_NE(refusal("1 K/1 000 m", base::dimension::temperature_gradient), "");
}

TEST(LeadingNumber, ExponentsAndWhatANumberIsPerAreNone) {
  const UnitParser units;
  EXPECT_NEAR(units.parse("3 degC/100 m", base::dimension::temperature_gradient), 0.03, 1e-15);
  EXPECT_NEAR(units.parse("3 K/(100 m)", base::dimension::temperature_gradient), 0.03, 1e-15);
  EXPECT_NEAR(units.parse("2 1/m", base::dimension::per_length), 2.0, 1e-15);
  EXPECT_NEAR(units.parse("2 m-1", base::dimension::per_length), 2.0, 1e-15);
  EXPECT_NEAR(units.parse("2 m^-1", base::dimension::per_length), 2.0, 1e-15);
  EXPECT_NEAR(units.parse("14 m3/s", base::dimension::flow), 14.0, 1e-14);
  EXPECT_NEAR(units.parse("1e-8 mm3/(N m)", base::dimension::abrasion), 1e-17, 1e-30);
}

TEST(LeadingNumber, ASpaceIsRefusedWhereverAScenarioHasANumber) {
  struct Key {
    const char* set;
    const char* path;
  };
  for (const Key& key :
       {Key{"plan.0.weight_on_bit=6 750 lbf", "plan.0.weight_on_bit"},
        Key{"plan.0.rotary_speed=1 20 rpm", "plan.0.rotary_speed"}, Key{"costs.bit=1 900 $", "costs.bit"},
        Key{"costs.rig=$1 085/h", "costs.rig"}, Key{"repeat.holes=1 000", "repeat.holes"},
        Key{"rework.heat_damage=0 5", "rework.heat_damage"},
        Key{"models.flat_friction={central: 0.3 5}", "models.flat_friction.central"}}) {
    const auto errors = testing::errors_of(testing::plain_text(), {key.set});
    ASSERT_EQ(errors.size(), 1u) << key.set;
    EXPECT_NE(errors[0].find(std::string(": ") + key.path + ": "), std::string::npos) << errors[0];
  }
  const std::string text = testing::with(testing::plain_text(), "6000 lbf", "6 000 lbf");
  EXPECT_EQ(
      testing::errors_of(text),
      testing::Messages{
          "well.yaml:5:21: plan.0.weight_on_bit: \"6 000 lbf\" has more than one number in it: write a "
          "number without spaces or commas (6750, not 6 750), a fraction as 7-7/8; write 6750 lbf or 30 kN"});
}

}  // namespace
}  // namespace dullcast::input
