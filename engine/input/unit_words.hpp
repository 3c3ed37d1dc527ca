#pragma once

#include <string>
#include <string_view>
#include <utility>

#include "engine/input/units.hpp"

/// The wording of units: cutting a text into number and unit, and putting the trade's words into UDUNITS-2's.
namespace dullcast::input {

/// The number a text starts with and the unit text after it (blanks trimmed).
struct NumberAndUnit {
  double number = 0.0;
  std::string unit;
};

/// Cuts "6750 lbf" into 6750 and "lbf". Locale-independent. Throws UnitError for no number, a number that is
/// not finite, and a comma in the number.
NumberAndUnit split_number(std::string_view text, const base::Dimension& wanted);

/// Whether a unit text is made of words, numbers and products alone. UDUNITS-2 would also take shifted zeros
/// ("m since 2000"), logarithms, and a stray bracket at the end; none of them is meant in a scenario.
bool is_plain_unit(std::string_view unit);

/// The unit text in UDUNITS-2's words. "gal/min" -> "(231 inch^3)/min", "3 degC/100m" -> "K/(100 m)" and so
/// on, under the rule of the wanted dimension.
std::string udunits_words(std::string_view unit, base::UnitRule rule);

}  // namespace dullcast::input
