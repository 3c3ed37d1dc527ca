#pragma once

#include <string>
#include <string_view>

#include "engine/base/dimension.hpp"

/// Cutting a text into the number that it starts with and the unit after it.
namespace dullcast::input {

struct NumberAndUnit {
  double number = 0.0;
  std::string unit;
};

/// Cuts "6750 lbf" into 6750 and "lbf" (blanks trimmed); "6-1/8 in", "7 7/8 in" and "1/2 in" are fractions as
/// the trade writes them. Locale-independent. Throws UnitError for no number, a number that is not finite,
/// and whatever UDUNITS-2 would multiply instead: a space or a comma in the number, a second number behind it
/// or within the unit ("6 750 lbf", "5 ft 6"), and for a fraction that is none.
NumberAndUnit split_number(std::string_view text, const base::Dimension& wanted);

}  // namespace dullcast::input
