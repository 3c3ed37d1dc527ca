#pragma once

#include <string>

#include "engine/base/dimension.hpp"
#include "engine/base/display.hpp"

namespace dullcast::commands {

/// A library number's value as reports show it; what has no unit of reports stands in SI. A null dimension
/// shows the bare number.
std::string number_words(double value, const base::Dimension* dimension, base::ShownUnits units);

}  // namespace dullcast::commands
