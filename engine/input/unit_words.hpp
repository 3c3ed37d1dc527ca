#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "engine/base/dimension.hpp"
#include "engine/input/leading_number.hpp"

/// The wording of units: putting the trade's words into UDUNITS-2's.
namespace dullcast::input {

/// Whether a unit text is made of words, numbers and products alone. UDUNITS-2 would also take shifted zeros
/// ("m since 2000"), logarithms, and a stray bracket at the end; none of them is meant in a scenario.
bool is_plain_unit(std::string_view unit);

/// The unit text in UDUNITS-2's words. "gal/min" -> "(231 inch^3)/min", "3 degC/100m" -> "K/(100 m)" and so
/// on, under the rule of the wanted dimension. The trade's words may be written in any case (RPM, Gal/Min);
/// SI units stay as they are, since mPa is not MPa.
std::string udunits_words(std::string_view unit, base::UnitRule rule);

/// The unit with its first word as SI units that differ from it by capitals alone: "mpa" -> "mPa", "MPa".
std::vector<std::string> other_capitals(std::string_view unit);

}  // namespace dullcast::input
