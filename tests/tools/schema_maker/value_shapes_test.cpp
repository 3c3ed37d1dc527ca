#include "tools/schema_maker/value_shapes.hpp"

#include <gtest/gtest.h>

#include <regex>

#include "engine/input/units.hpp"

namespace dullcast::schema_maker {
namespace {

/// Whether a schema's number takes a text; its pattern is one of ECMA-262, which std::regex reads.
bool fits(const base::Dimension& wanted, const std::string& text) {
  const Json shape = number_shape(wanted, base::range::any);
  const Json& of_text = shape.contains("anyOf") ? shape["anyOf"][1] : shape;
  return std::regex_search(text, std::regex(of_text["pattern"].get<std::string>()));
}

TEST(ValueShapes, TakeEveryNumberThatReadersTake) {
  namespace dimension = base::dimension;
  const input::UnitParser units;
  const std::vector<std::pair<const base::Dimension*, std::vector<std::string>>> texts = {
      {&dimension::length,
       {"13 mm", "0.5 in", ".5 in", "5. mm", "7-7/8 in", "7 7/8 in", "1/2 in", "1e-3 m", "1E+2 mm", "-3 mm",
        "+3 mm", "13mm", " 13 mm ", "2 ft"}},
      {&dimension::force, {"6750 lbf", "30 kN", "3 t", "1e3 lbf", "6750lbs"}},
      {&dimension::pressure, {"12 MPa", "1740 psi", "0 Pa"}},
      {&dimension::temperature, {"10 degC", "-5 degC", "50 F", "300 K"}},
      {&dimension::temperature_gradient, {"25 K/km", "3 degC/100m"}},
      {&dimension::flow, {"60 gal/min", "350 ft3/min", "0 gal/min", "60 gpm"}},
      {&dimension::rotary_speed, {"90 rpm", "1.5 rev/s"}},
      {&dimension::conductivity, {"2.7 W/(m K)"}},
      {&dimension::abrasion, {"1e-8 mm3/(N m)"}},
      {&dimension::per_length, {"1 1/m", "0.3 1/ft"}},
      {&dimension::per_kelvin, {"2.5e-6 1/K"}},
      {&dimension::money, {"1200 $", "$1200", "$ 1200"}},
      {&dimension::money_per_time, {"85 $/h"}},
      {&dimension::number, {"0.5", "50 %", "50%", "50 percent", "1e-3", ".5", "1/2", "-2", "+2", " 3 "}}};
  int taken = 0;
  for (const auto& [wanted, some] : texts) {
    for (const std::string& text : some) {
      try {
        units.parse(text, *wanted);
      } catch (const input::UnitError&) {
        continue;
      }
      ++taken;
      EXPECT_TRUE(fits(*wanted, text)) << wanted->name << ": \"" << text << "\"";
    }
  }
  EXPECT_GE(taken, 45);
  // What no reader takes.
  for (const char* text : {"13", "-5", "1e3", "7/8", "fast", "", " ", "1,000"}) {
    EXPECT_THROW(units.parse(text, dimension::length), input::UnitError) << text;
    EXPECT_FALSE(fits(dimension::length, text)) << text;
  }
  for (const char* text : {"1200", "$", ""}) {
    EXPECT_THROW(units.parse(text, dimension::money), input::UnitError) << text;
    EXPECT_FALSE(fits(dimension::money, text)) << text;
  }
  for (const char* text : {"5 m", "half", "", "1,5"}) {
    EXPECT_THROW(units.parse(text, dimension::number), input::UnitError) << text;
    EXPECT_FALSE(fits(dimension::number, text)) << text;
  }
}

}  // namespace
}  // namespace dullcast::schema_maker
