#pragma once

/// Kinds of quantity: what a unit must be able to become, and within which range a number may lie.
namespace dullcast::base {

/// How a unit text is read for a dimension.
enum class UnitRule {
  plain,                   // as UDUNITS has it
  number,                  // no unit, or a percentage
  angle,                   // rad
  rotary_speed,            // revolutions, never plain 1/s
  force,                   // lb and lbs mean pounds-force
  weight_per_length,       // a mass per length counts as its weight (standard gravity 9.80665 m/s2, exact)
  temperature,             // C and F are degrees
  temperature_difference,  // degrees without their zero
  money                    // currency, alone or per SI unit
};

/// A kind of quantity that a key wants.
struct Dimension {
  const char* name;      // "a weight"
  const char* si;        // UDUNITS text of the SI unit it is returned in; for money what it is per, or ""
  const char* label;     // the unit as this program writes it back ("rev/s")
  const char* examples;  // "6750 lbf or 30 kN"
  UnitRule rule = UnitRule::plain;
};

/// The dimensions that scenarios and the library use.
namespace dimension {
inline constexpr Dimension number{"a plain number", "1", "", "0.5 or 50 %", UnitRule::number};
inline constexpr Dimension depth{"a depth", "m", "m", "25 ft or 7.5 m"};
inline constexpr Dimension length{"a length", "m", "m", "13 mm or 0.5 in"};
inline constexpr Dimension angle{"an angle", "radian", "rad", "15 deg", UnitRule::angle};
inline constexpr Dimension force{"a weight", "N", "N", "6750 lbf or 30 kN", UnitRule::force};
inline constexpr Dimension weight_per_length{"a weight per length", "N/m", "N/m", "16 lb/ft or 24 kg/m",
                                             UnitRule::weight_per_length};
inline constexpr Dimension pressure{"a pressure", "Pa", "Pa", "12 MPa or 1740 psi"};
inline constexpr Dimension rotary_speed{"a rotary speed", "revolution/s", "rev/s", "90 rpm",
                                        UnitRule::rotary_speed};
inline constexpr Dimension flow{"a flow", "m3/s", "m3/s", "60 gal/min, 230 L/min or 350 ft3/min"};
inline constexpr Dimension speed{"a speed", "m/s", "m/s", "100 ft/h or 30 m/h"};
inline constexpr Dimension time{"a time", "s", "s", "45 min or 1.5 h"};
inline constexpr Dimension density{"a density", "kg/m3", "kg/m3", "9.2 lb/gal or 1100 kg/m3"};
inline constexpr Dimension viscosity{"a viscosity", "Pa.s", "Pa.s", "8 cP or 8 mPa.s"};
inline constexpr Dimension temperature{"a temperature", "K", "K", "10 degC or 50 degF",
                                       UnitRule::temperature};
inline constexpr Dimension temperature_difference{"a difference of temperature", "K", "K", "100 K",
                                                  UnitRule::temperature_difference};
inline constexpr Dimension temperature_gradient{"a temperature gradient", "K/m", "K/m",
                                                "25 K/km or 3 degC/100m", UnitRule::temperature_difference};
inline constexpr Dimension conductivity{"a conductivity", "W/(m.K)", "W/(m.K)", "2.7 W/(m K)",
                                        UnitRule::temperature_difference};
inline constexpr Dimension heat_capacity{"a heat capacity", "J/(kg.K)", "J/(kg.K)", "880 J/(kg K)",
                                         UnitRule::temperature_difference};
inline constexpr Dimension conductance{"a heat transfer coefficient", "W/(m2.K)", "W/(m2.K)",
                                       "10000 W/(m2 K)", UnitRule::temperature_difference};
inline constexpr Dimension abrasion{"an abrasion coefficient", "m2/N", "m2/N", "1e-8 mm3/(N m)"};
inline constexpr Dimension per_length{"a number per length", "1/m", "1/m", "1 1/m or 0.3 1/ft"};
inline constexpr Dimension impedance{"an impedance", "kg/(m2.s)", "kg/(m2.s)",
                                     "1.2e7 kg/(m2 s) or 12 MPa s/m"};
inline constexpr Dimension stress_per_kelvin{"a stress per kelvin", "Pa/K", "Pa/K", "0.5 MPa/K",
                                             UnitRule::temperature_difference};
inline constexpr Dimension per_kelvin{"a thermal expansion", "1/K", "1/K", "2.5e-6 1/K",
                                      UnitRule::temperature_difference};
inline constexpr Dimension power{"a power", "W", "W", "150 kW or 200 hp"};
inline constexpr Dimension fuel_energy{"an energy per volume", "J/m3", "J/m3", "36 MJ/L or 137000 Btu/gal"};
inline constexpr Dimension money{"an amount of money", "", "", "1200 $", UnitRule::money};
inline constexpr Dimension money_per_time{"money per time", "s", "/s", "85 $/h", UnitRule::money};
inline constexpr Dimension money_per_length{"money per length", "m", "/m", "400 $/ft", UnitRule::money};
}  // namespace dimension

/// What a number may be. Outside it the message says so in the unit that was written.
struct Range {
  double least, most;        // SI
  bool least_itself = true;  // whether `least` is allowed
  const char* words;         // "above 0", "from 0 to 60 deg"
};

namespace range {
inline constexpr Range any{-1e300, 1e300, true, "a number"};
inline constexpr Range above_zero{0.0, 1e300, false, "above 0"};
inline constexpr Range not_negative{0.0, 1e300, true, "0 or more"};
inline constexpr Range share{0.0, 1.0, true, "from 0 to 1"};
inline constexpr Range share_above_zero{0.0, 1.0, false, "above 0 and up to 1"};
}  // namespace range

}  // namespace dullcast::base
