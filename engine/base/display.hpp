#pragma once

#include <string>
#include <string_view>

/// SI values as a person reads them: in field units, in SI, or in both.
namespace dullcast::base {

enum class ShownUnits { field, si, both };

/// A kind of value in reports: its units and how an SI value becomes them, value = si * factor + offset.
/// Factors are exact by definition (international foot and pound, US gallon, NIST SP 811 [hb]) or their
/// double nearest.
struct Shown {
  const char* field_unit;
  double field_factor, field_offset;
  const char* si_unit;
  double si_factor, si_offset;
};

/// The values that reports show.
namespace shown {
inline constexpr double foot = 0.3048, inch = 0.0254, pound_force = 4.4482216152605, gallon = 3.785411784e-3,
                        horsepower = 745.69987158227022;
inline constexpr Shown depth{"ft", 1.0 / foot, 0.0, "m", 1.0, 0.0};
inline constexpr Shown length{"in", 1.0 / inch, 0.0, "mm", 1e3, 0.0};
inline constexpr Shown weight{"lbf", 1.0 / pound_force, 0.0, "kN", 1e-3, 0.0};
inline constexpr Shown torque{"ft lbf", 1.0 / (foot * pound_force), 0.0, "N m", 1.0, 0.0};
inline constexpr Shown progress{"ft/h", 3600.0 / foot, 0.0, "m/h", 3600.0, 0.0};
inline constexpr Shown fluid_speed{"ft/min", 60.0 / foot, 0.0, "m/s", 1.0, 0.0};
inline constexpr Shown rotary_speed{"rpm", 60.0, 0.0, "rpm", 60.0, 0.0};
inline constexpr Shown flow{"gal/min", 60.0 / gallon, 0.0, "L/min", 6e4, 0.0};
inline constexpr Shown gas_flow{"ft3/min", 60.0 / (foot * foot * foot), 0.0, "m3/min", 60.0, 0.0};
inline constexpr Shown temperature{"degF", 1.8, -459.67, "degC", 1.0, -273.15};
inline constexpr Shown temperature_difference{"F deg", 1.8, 0.0, "K", 1.0, 0.0};
inline constexpr Shown pressure{"psi", inch* inch / pound_force, 0.0, "MPa", 1e-6, 0.0};
inline constexpr Shown hours{"h", 1.0 / 3600.0, 0.0, "h", 1.0 / 3600.0, 0.0};
inline constexpr Shown energy{"hp h", 1.0 / (3600.0 * horsepower), 0.0, "MJ", 1e-6, 0.0};
inline constexpr Shown power{"hp", 1.0 / horsepower, 0.0, "kW", 1e-3, 0.0};
inline constexpr Shown volume{"gal", 1.0 / gallon, 0.0, "L", 1e3, 0.0};
}  // namespace shown

/// A number to `digits` significant figures without exponent ("6750", "0.4"); at least whole numbers keep all
/// their places. "not known" for NaN, "without limit" for infinity.
std::string show_number(double value, int digits = 3);

/// An SI value with its unit: "6750 lbf", "30 kN" or "6750 lbf (30 kN)". Where both units are one, it stands
/// once.
std::string show(double si, const Shown& kind, ShownUnits units, int digits = 3);

/// An amount of bytes: "4.2 MB" (a MB is a million bytes).
std::string show_bytes(double bytes);

/// A depth in metres and feet, "30.48 m (100 ft)", fine enough to show a gap of a centimetre.
std::string depth_text(double depth);

/// Money: "85 $", and per length ("3.28 $/m" from money per metre): "1 $/ft (3.28 $/m)".
std::string show_money(double amount, std::string_view currency, int digits = 3);
std::string show_money_per_length(double per_metre, std::string_view currency, ShownUnits units,
                                  int digits = 3);

}  // namespace dullcast::base
