#include "engine/input/any_quantity.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

namespace dullcast::input {
namespace {

struct Wanted {
  const char* text;
  const base::Dimension* dimension;
  double value;  // SI
};

// Factors of the units are exact by definition (NIST SP 811, appendix B [hb]) unless said otherwise.
const std::vector<Wanted>& texts() {
  static const std::vector<Wanted> all{
      {"12", &base::dimension::number, 12.0},
      {"-1.5e-3", &base::dimension::number, -1.5e-3},
      {"50 %", &base::dimension::number, 0.5},
      {"6750 lbf", &base::dimension::force, 6750.0 * 4.4482216152605},
      {"30 kN", &base::dimension::force, 30e3},
      {"10 in", &base::dimension::length, 0.254},
      {"25 ft", &base::dimension::length, 7.62},
      {"90 rpm", &base::dimension::rotary_speed, 1.5},
      {"15 deg", &base::dimension::angle, 15.0 * 3.14159265358979323846 / 180.0},
      {"60 gal/min", &base::dimension::flow, 3.785411784e-3},
      {"30 m/h", &base::dimension::speed, 30.0 / 3600.0},
      {"1.5 h", &base::dimension::time, 5400.0},
      {"10 degC", &base::dimension::temperature, 283.15},
      {"50 degF", &base::dimension::temperature, 283.15},
      {"300 K", &base::dimension::temperature, 300.0},
      {"12 MPa", &base::dimension::pressure, 12e6},
      {"1200 $", &base::dimension::money, 1200.0},
      {"85 $/h", &base::dimension::money_per_time, 85.0 / 3600.0},
      {"400 $/ft", &base::dimension::money_per_length, 400.0 / 0.3048},
      {"1100 kg/m3", &base::dimension::density, 1100.0},
      {"8 cP", &base::dimension::viscosity, 8e-3},
      {"24 kg/m", &base::dimension::weight_per_length, 24.0 * 9.80665},
      {"150 kW", &base::dimension::power, 150e3},
      {"2.7 W/(m K)", &base::dimension::conductivity, 2.7},
      {"880 J/(kg K)", &base::dimension::heat_capacity, 880.0},
      {"10000 W/(m2 K)", &base::dimension::conductance, 1e4},
      {"1e-8 mm3/(N m)", &base::dimension::abrasion, 1e-17},
      {"0.3 1/ft", &base::dimension::per_length, 0.3 / 0.3048},
      {"12 MPa s/m", &base::dimension::impedance, 1.2e7},
      {"0.5 MPa/K", &base::dimension::stress_per_kelvin, 0.5e6},
      {"25 K/km", &base::dimension::temperature_gradient, 0.025}};
  return all;
}

/// text_of_value() as YAML reads it: without its quotes.
std::string written(double value, const base::Dimension& dimension, const std::string& currency = "$") {
  std::string text = text_of_value(value, dimension, currency);
  text.erase(std::remove(text.begin(), text.end(), '"'), text.end());
  return text;
}

TEST(AnyDimension, TheUnitSaysWhatIsMeant) {
  const UnitParser units;
  for (const Wanted& wanted : texts()) {
    const auto found = value_of_any_kind(units, wanted.text, "$");
    ASSERT_TRUE(found.has_value()) << wanted.text;
    EXPECT_EQ(found->dimension, wanted.dimension) << wanted.text << " is read as " << found->dimension->name;
    EXPECT_NEAR(found->value, wanted.value, 1e-14 * std::abs(wanted.value)) << wanted.text;
  }
}

TEST(AnyDimension, WordsAndUnknownUnitsAreNoValues) {
  const UnitParser units;
  for (const char* text : {"", "air", "steel body", "nan", "inf", "-", "9 furlongs per pint", "bit_8", "12 €",
                           "two 2", "1e999", "85 rpm rpm x"}) {
    EXPECT_FALSE(value_of_any_kind(units, text, "$").has_value()) << text;
  }
}

TEST(AnyDimension, MoneyGoesByItsCurrency) {
  const UnitParser units;
  const auto found = value_of_any_kind(units, "85 EUR/h", "EUR");
  ASSERT_TRUE(found.has_value());
  EXPECT_EQ(found->dimension, &base::dimension::money_per_time);
  EXPECT_FALSE(value_of_any_kind(units, "85 EUR/h", "$").has_value());
  EXPECT_EQ(
      units.parse(written(found->value, *found->dimension, "EUR"), base::dimension::money_per_time, "EUR"),
      found->value);
}

TEST(AnyDimension, TextReadsBackToTheSameBits) {
  // What a sweep writes into a scenario is what it drew, whatever the number's digits: with the text's value,
  // and with it times numbers that no decimal of few places has.
  const UnitParser units;
  for (const Wanted& wanted : texts()) {
    for (const double factor : {1.0, 1.0 / 3.0, std::sqrt(2.0) * 1e-7, 1e9 / 7.0}) {
      const double value = wanted.value * factor;
      const std::string text = written(value, *wanted.dimension);
      EXPECT_EQ(units.parse(text, *wanted.dimension, "$"), value) << text;
    }
  }
}

TEST(AnyDimension, WhatSharesItsUnitReadsTheSame) {
  // An energy per volume is read as a pressure, a depth as a length: the text written is good for both.
  const UnitParser units;
  for (const auto& [text, meant] :
       {std::pair{"36 MJ/L", &base::dimension::fuel_energy}, {"25 ft", &base::dimension::depth}}) {
    const auto found = value_of_any_kind(units, text, "$");
    ASSERT_TRUE(found.has_value()) << text;
    EXPECT_EQ(found->value, units.parse(text, *meant, "$"));
    const std::string back = written(found->value, *found->dimension);
    EXPECT_EQ(units.parse(back, *meant, "$"), found->value) << back;
  }
}

TEST(AnyDimension, UnitsInAFileAreUdunitsText) {
  EXPECT_EQ(units_in_file(base::dimension::number), "1");
  EXPECT_EQ(units_in_file(base::dimension::force), "N");
  EXPECT_EQ(units_in_file(base::dimension::rotary_speed), "revolution/s");
  EXPECT_EQ(units_in_file(base::dimension::money), "1");
  EXPECT_EQ(units_in_file(base::dimension::money_per_time), "s-1");
  EXPECT_EQ(units_in_file(base::dimension::money_per_length), "m-1");
}

}  // namespace
}  // namespace dullcast::input
