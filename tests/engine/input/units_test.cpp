#include "engine/input/units.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

#include "engine/input/reading.hpp"
#include "models/common/constants.hpp"

// Conversion factors are those of NIST Special Publication 811 (2008), appendix B [hb], unless said
// otherwise.
namespace dullcast::input {
namespace {

struct Word {
  const char* text;
  const base::Dimension* wanted;
  double si;
};
void PrintTo(const Word& word, std::ostream* out) {
  *out << testing::plain_name(word.text);
}

class UnitWords : public ::testing::TestWithParam<Word> {};

TEST_P(UnitWords, ReadAsTheTradeMeansThem) {
  const UnitParser parser;
  const Word& word = GetParam();
  const double value = parser.parse(word.text, *word.wanted);
  // Factors are exact or given to a part in 1e12, and UDUNITS works in double precision.
  EXPECT_NEAR(value, word.si, 1e-11 * std::abs(word.si)) << word.text;
}

constexpr double gallon = 3.785411784e-3, foot = 0.3048, inch = 0.0254, lbf = 4.4482216152605,
                 lb = 0.45359237;
constexpr double gravity = 9.80665, degree = pi / 180.0;

INSTANTIATE_TEST_SUITE_P(Lengths, UnitWords,
                         ::testing::Values(Word{"25 ft", &base::dimension::depth, 25 * foot},
                                           Word{"8.5 in", &base::dimension::length, 8.5 * inch},
                                           Word{"13 mm", &base::dimension::length, 0.013},
                                           Word{"30 micrometre", &base::dimension::length, 30e-6},
                                           Word{"30 um", &base::dimension::length, 30e-6},
                                           Word{"30 µm", &base::dimension::length, 30e-6},
                                           Word{"5 thou", &base::dimension::length, 0.005 * inch},
                                           Word{"1.2e1 m", &base::dimension::depth, 12.0},
                                           Word{"  7   m ", &base::dimension::depth, 7.0},
                                           Word{"+7 m", &base::dimension::depth, 7.0},
                                           Word{"394feet", &base::dimension::depth, 394 * foot},
                                           Word{"0.4 cm", &base::dimension::length, 0.004}));
INSTANTIATE_TEST_SUITE_P(
    Forces, UnitWords,
    ::testing::Values(Word{"6750 lbf", &base::dimension::force, 6750 * lbf},
                      Word{"6750 lb", &base::dimension::force, 6750 * lbf},
                      Word{"6750 lbs", &base::dimension::force, 6750 * lbf},
                      Word{"30 kN", &base::dimension::force, 30e3},
                      Word{"6.75 klbf", &base::dimension::force, 6750 * lbf},
                      Word{"6.75 klbs", &base::dimension::force, 6750 * lbf},
                      Word{"3000 kgf", &base::dimension::force, 3000 * gravity},
                      Word{"3000 kg", &base::dimension::force, 3000 * gravity},
                      Word{"3 t", &base::dimension::force, 3000 * gravity},
                      Word{"3 tonnes", &base::dimension::force, 3000 * gravity},
                      Word{"3 Tonne", &base::dimension::force, 3000 * gravity},
                      Word{"6750 LBF", &base::dimension::force, 6750 * lbf},
                      Word{"6750 Lbs", &base::dimension::force, 6750 * lbf},
                      Word{"3000 daN", &base::dimension::force, 30e3},
                      Word{"16 LB/FT", &base::dimension::weight_per_length, 16 * lb* gravity / foot},
                      Word{"16 lb/ft", &base::dimension::weight_per_length, 16 * lb* gravity / foot},
                      Word{"16 lbf/ft", &base::dimension::weight_per_length, 16 * lbf / foot},
                      Word{"24 kg/m", &base::dimension::weight_per_length, 24 * gravity},
                      Word{"235 N/m", &base::dimension::weight_per_length, 235.0}));
INSTANTIATE_TEST_SUITE_P(
    Flows, UnitWords,
    ::testing::Values(Word{"60 gal/min", &base::dimension::flow, 60 * gallon / 60},
                      Word{"60 gpm", &base::dimension::flow, gallon},
                      Word{"1 gallon/min", &base::dimension::flow, gallon / 60},
                      Word{"230 L/min", &base::dimension::flow, 0.230 / 60},
                      Word{"230 l/min", &base::dimension::flow, 0.230 / 60},
                      Word{"230 lpm", &base::dimension::flow, 0.230 / 60},
                      Word{"230 LPM", &base::dimension::flow, 0.230 / 60},
                      Word{"230 litres/minute", &base::dimension::flow, 0.230 / 60},
                      Word{"230 Liter/Min", &base::dimension::flow, 0.230 / 60},
                      Word{"60 Gal/Min", &base::dimension::flow, 60 * gallon / 60},
                      Word{"60 GPM", &base::dimension::flow, gallon},
                      Word{"350 FT3/MIN", &base::dimension::flow, 350 * foot* foot* foot / 60},
                      Word{"14 m3/h", &base::dimension::flow, 14.0 / 3600},
                      Word{"350 ft3/min", &base::dimension::flow, 350 * foot* foot* foot / 60},
                      Word{"350 cfm", &base::dimension::flow, 350 * foot* foot* foot / 60},
                      Word{"2 bbl/min", &base::dimension::flow, 2 * 42 * gallon / 60}));
INSTANTIATE_TEST_SUITE_P(Turning, UnitWords,
                         ::testing::Values(Word{"90 rpm", &base::dimension::rotary_speed, 1.5},
                                           Word{"90 RPM", &base::dimension::rotary_speed, 1.5},
                                           Word{"90 Rev/Min", &base::dimension::rotary_speed, 1.5},
                                           Word{"15 DEG", &base::dimension::angle, 15 * degree},
                                           Word{"1.5 rev/s", &base::dimension::rotary_speed, 1.5},
                                           Word{"90 rev/min", &base::dimension::rotary_speed, 1.5},
                                           Word{"90 revolutions/minute", &base::dimension::rotary_speed, 1.5},
                                           Word{"6.283185307179586 rad/s", &base::dimension::rotary_speed,
                                                1.0},
                                           Word{"15 deg", &base::dimension::angle, 15 * degree},
                                           Word{"15 degrees", &base::dimension::angle, 15 * degree},
                                           Word{"15°", &base::dimension::angle, 15 * degree},
                                           Word{"0.5 rad", &base::dimension::angle, 0.5}));
INSTANTIATE_TEST_SUITE_P(Fluids, UnitWords,
                         ::testing::Values(Word{"9.2 lb/gal", &base::dimension::density, 9.2 * lb / gallon},
                                           Word{"9.2 ppg", &base::dimension::density, 9.2 * lb / gallon},
                                           Word{"1.1 g/cm3", &base::dimension::density, 1100.0},
                                           Word{"1100 kg/m3", &base::dimension::density, 1100.0},
                                           Word{"8 cP", &base::dimension::viscosity, 8e-3},
                                           Word{"8 cp", &base::dimension::viscosity, 8e-3},
                                           Word{"8 mPa s", &base::dimension::viscosity, 8e-3},
                                           Word{"8 mPa.s", &base::dimension::viscosity, 8e-3},
                                           Word{"12 MPa", &base::dimension::pressure, 12e6},
                                           Word{"1 psi", &base::dimension::pressure, lbf / (inch * inch)},
                                           Word{"2 ksi", &base::dimension::pressure,
                                                2000 * lbf / (inch * inch)},
                                           Word{"2 bar", &base::dimension::pressure, 2e5},
                                           Word{"67 GPa", &base::dimension::pressure, 67e9}));
INSTANTIATE_TEST_SUITE_P(
    Heat, UnitWords,
    ::testing::Values(Word{"10 degC", &base::dimension::temperature, 283.15},
                      Word{"10 degc", &base::dimension::temperature, 283.15},
                      Word{"50 DEGF", &base::dimension::temperature, 283.15},
                      Word{"100 degc", &base::dimension::temperature_difference, 100.0},
                      Word{"10 C", &base::dimension::temperature, 283.15},
                      Word{"10 deg C", &base::dimension::temperature, 283.15},
                      Word{"10 °C", &base::dimension::temperature, 283.15},
                      Word{"50 degF", &base::dimension::temperature, 283.15},
                      Word{"50 F", &base::dimension::temperature, 283.15},
                      Word{"283.15 K", &base::dimension::temperature, 283.15},
                      Word{"-4 degC", &base::dimension::temperature, 269.15},
                      Word{"100 degC", &base::dimension::temperature_difference, 100.0},
                      Word{"180 degF", &base::dimension::temperature_difference, 100.0},
                      Word{"25 K/km", &base::dimension::temperature_gradient, 0.025},
                      Word{"3 degC/100m", &base::dimension::temperature_gradient, 0.03},
                      Word{"3 C/100 m", &base::dimension::temperature_gradient, 0.03},
                      Word{"1.8 degF/100 ft", &base::dimension::temperature_gradient, 1.0 / (100 * foot)},
                      Word{"2.7 W/(m K)", &base::dimension::conductivity, 2.7},
                      Word{"2.7 W/mK", &base::dimension::conductivity, 2.7},
                      Word{"2.7 W/m/K", &base::dimension::conductivity, 2.7},
                      Word{"880 J/(kg K)", &base::dimension::heat_capacity, 880.0},
                      Word{"880 J/kgK", &base::dimension::heat_capacity, 880.0},
                      Word{"0.2 Btu/(lb degF)", &base::dimension::heat_capacity, 0.2 * 4186.8},
                      Word{"1e4 W/m2K", &base::dimension::conductance, 1e4},
                      Word{"1e4 W/(m2 K)", &base::dimension::conductance, 1e4}));
INSTANTIATE_TEST_SUITE_P(
    Rates, UnitWords,
    ::testing::Values(Word{"100 ft/h", &base::dimension::speed, 100 * foot / 3600},
                      Word{"30 m/hr", &base::dimension::speed, 30.0 / 3600},
                      Word{"45 min", &base::dimension::time, 2700.0},
                      Word{"1.5 h", &base::dimension::time, 5400.0},
                      Word{"1e-8 mm3/(N m)", &base::dimension::abrasion, 1e-17},
                      Word{"36 MJ/L", &base::dimension::fuel_energy, 3.6e10},
                      Word{"10 kWh/L", &base::dimension::fuel_energy, 3.6e10},
                      Word{"137000 Btu/gal", &base::dimension::fuel_energy, 137000 * 1055.05585262 / gallon},
                      Word{"0.5", &base::dimension::number, 0.5}, Word{"50 %", &base::dimension::number, 0.5},
                      Word{"50%", &base::dimension::number, 0.5}));
INSTANTIATE_TEST_SUITE_P(Money, UnitWords,
                         ::testing::Values(Word{"1200 $", &base::dimension::money, 1200.0},
                                           Word{"$1200", &base::dimension::money, 1200.0},
                                           Word{"$ 1200", &base::dimension::money, 1200.0},
                                           Word{"85 $/h", &base::dimension::money_per_time, 85.0 / 3600},
                                           Word{"$85/h", &base::dimension::money_per_time, 85.0 / 3600},
                                           Word{"85 $/hr", &base::dimension::money_per_time, 85.0 / 3600},
                                           Word{"400 $/ft", &base::dimension::money_per_length, 400 / foot},
                                           Word{"12 $ / m", &base::dimension::money_per_length, 12.0}));

TEST(Units, MoneyIsReadInTheScenariosCurrency) {
  const UnitParser parser;
  EXPECT_EQ(parser.parse("1200 crowns", base::dimension::money, "crowns"), 1200.0);
  EXPECT_NEAR(parser.parse("36 crowns/h", base::dimension::money_per_time, "crowns"), 0.01, 1e-14);
}

std::string refused(const char* text, const base::Dimension& wanted) {
  const UnitParser parser;
  try {
    const double value = parser.parse(text, wanted);
    return "read as " + std::to_string(value);
  } catch (const UnitError& error) {
    return error.what();
  }
}

TEST(Units, RefusalsSayWhatWouldBeRight) {
  EXPECT_EQ(refused("6750", base::dimension::force),
            "has no unit, and a weight is wanted; write 6750 lbf or 30 kN");
  EXPECT_EQ(refused("", base::dimension::force), "is empty; write 6750 lbf or 30 kN");
  EXPECT_EQ(refused("much", base::dimension::force),
            "\"much\" does not start with a number, and a weight is wanted; write 6750 lbf or 30 kN");
  EXPECT_EQ(refused("6,750 lbf", base::dimension::force),
            "\"6,750 lbf\" has a comma in its number: leave it out, with a point for decimals; write 6750 "
            "lbf or 30 kN");
  EXPECT_EQ(refused("60 gal/mn", base::dimension::flow),
            "does not know the unit \"gal/mn\"; write 60 gal/min, 230 L/min or 350 ft3/min");
  EXPECT_EQ(refused("60 ft", base::dimension::flow),
            "\"ft\" is not a unit of a flow; write 60 gal/min, 230 L/min or 350 ft3/min");
  EXPECT_EQ(refused("1.5 Hz", base::dimension::rotary_speed), "\"Hz\" does not say what turns; write 90 rpm");
  EXPECT_EQ(refused("15 %", base::dimension::angle), "\"%\" is not a unit of an angle; write 15 deg");
  EXPECT_EQ(refused("3 ft", base::dimension::number),
            "\"ft\" is a unit where a plain number is wanted; write 0.5 or 50 %");
  EXPECT_EQ(refused("85 $", base::dimension::money_per_time), "\"$\" is not money per time; write 85 $/h");
  EXPECT_EQ(refused("85 $/h", base::dimension::money), "\"$/h\" is not an amount of money; write 1200 $");
  EXPECT_EQ(refused("85 pebbles", base::dimension::money),
            "\"pebbles\" is not an amount of money in $; write 1200 $");
}

TEST(Units, PoundsAreMassWhereADensityIsWanted) {
  // and no force at all where neither is: a length in pounds.
  EXPECT_EQ(refused("5 lb", base::dimension::length),
            "\"lb\" is not a unit of a length; write 13 mm or 0.5 in");
}

TEST(Units, ReciprocalsDoNotConvertSilently) {
  // UDUNITS-2 would turn 2 h/m into 0.5 m/h.
  EXPECT_EQ(refused("2 h/m", base::dimension::speed),
            "\"h/m\" is not a unit of a speed; write 100 ft/h or 30 m/h");
}

TEST(Units, NumbersThatAreNoneAreRefused) {
  for (const char* text :
       {"nan m", "inf m", "-inf m", "1e999 m", "0x10 m", "1e308 km", ". m", "- m", "-- 3 m", "e3 m",
        "3 m since 2000", "3 lg(re 1 m)", "3 m/0", "3 (m", "3 m)", "3 m^99", "3 \x01", "3 \xff"}) {
    const std::string answer = refused(text, base::dimension::depth);
    EXPECT_FALSE(answer.starts_with("read as")) << text << " was " << answer;
  }
}

TEST(Units, OverlongUnitsAreRefused) {
  EXPECT_EQ(refused(("3 " + std::string(500, 'm')).c_str(), base::dimension::depth),
            "has too long a unit; write 25 ft or 7.5 m");
}

TEST(UnitCapitals, TellSiUnitsApartAndTheMessageSaysSo) {
  const UnitParser parser;
  const auto why = [&](const char* text, const base::Dimension& wanted) -> std::string {
    try {
      parser.parse(text, wanted);
    } catch (const UnitError& error) {
      return error.what();
    }
    return {};
  };
  EXPECT_EQ(why("50 mpa", base::dimension::pressure),
            "does not know the unit \"mpa\": capitals tell SI units apart, and this may be meant as mPa or "
            "MPa; write 12 "
            "MPa or 1740 psi");
  EXPECT_NE(why("3 KN", base::dimension::force).find("may be meant as kN;"), std::string::npos);
  EXPECT_NE(why("3 MM", base::dimension::length).find("may be meant as mm;"), std::string::npos);
  // One letter alone stays what SI has it for, and a hint is given of nothing that would not fit either.
  EXPECT_NE(why("3 S", base::dimension::time), "");
  EXPECT_EQ(why("3 mpa", base::dimension::length).find("capitals"), std::string::npos);
  EXPECT_NEAR(parser.parse("10 mPa", base::dimension::pressure), 0.01, 1e-15);
}

}  // namespace
}  // namespace dullcast::input
