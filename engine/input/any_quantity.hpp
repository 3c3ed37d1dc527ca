#pragma once

#include <optional>
#include <string>

#include "engine/input/units.hpp"

namespace dullcast::input {

/// A text such as "85 rpm" without knowing what is wanted: the first dimension that reads it, and the value
/// in SI. Nothing for a text that no dimension reads: it is a word then. A bare number is a plain number; K,
/// degC and degF are temperatures.
struct SomeValue {
  const base::Dimension* dimension = nullptr;
  double value = 0.0;  // SI
};
std::optional<SomeValue> value_of_any_kind(const UnitParser& units, const std::string& text,
                                           const std::string& currency);

/// The value as YAML text that reads back as the same number wherever that dimension is wanted.
std::string text_of_value(double value, const base::Dimension& dimension, const std::string& currency);

/// The unit as a results file states it: UDUNITS text, "1" for none, "m-1" for money per metre.
std::string units_in_file(const base::Dimension& dimension);

}  // namespace dullcast::input
