#pragma once

#include <memory>
#include <stdexcept>
#include <string>
#include <string_view>

/// Units at the door: a text such as "6750 lbf" becomes a number in SI (angles in rad, rotary speed in
/// rev/s). UDUNITS-2 does the arithmetic; the trade's own words that it lacks or reads otherwise are put into
/// its words first: gal and gpm (US gallons), cfm, ppg, cP, deg, rpm (revolutions), lb and lbs (a force, only
/// where a weight is wanted), C and F (only where a temperature is wanted). Money has a small rule of its
/// own.
namespace dullcast {

/// Why a text is no value of the wanted dimension, as one sentence that also says what would be right.
class UnitError : public std::runtime_error {
 public:
  using std::runtime_error::runtime_error;
};

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
inline constexpr Dimension power{"a power", "W", "W", "150 kW or 200 hp"};
inline constexpr Dimension fuel_energy{"an energy per volume", "J/m3", "J/m3", "36 MJ/L or 137000 Btu/gal"};
inline constexpr Dimension money{"an amount of money", "", "", "1200 $", UnitRule::money};
inline constexpr Dimension money_per_time{"money per time", "s", "/s", "85 $/h", UnitRule::money};
inline constexpr Dimension money_per_length{"money per length", "m", "/m", "400 $/ft", UnitRule::money};
}  // namespace dimension

/// Reads units. Opens the UDUNITS-2 database once and keeps each conversion it has made; keep one for a whole
/// reading. Threads: one parser from one thread at a time; several parsers may be used at once (UDUNITS-2,
/// which keeps its last status for the whole process, is asked by one thread at a time, and only for units
/// that a parser has not met before).
class UnitParser {
 public:
  /// Throws UnitError when the UDUNITS-2 database cannot be opened.
  UnitParser();
  ~UnitParser();
  UnitParser(UnitParser&&) noexcept;
  UnitParser& operator=(UnitParser&&) noexcept;

  /// The value of `text` in the SI unit of `wanted`; always finite. `currency` is the word money must be in.
  /// Throws UnitError with one sentence: what is wrong, what would be right.
  double parse(std::string_view text, const Dimension& wanted, std::string_view currency = "$") const;

 private:
  struct System;
  std::unique_ptr<System> system_;
};

}  // namespace dullcast
