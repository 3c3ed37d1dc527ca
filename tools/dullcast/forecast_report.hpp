#pragma once

#include <ostream>

#include "engine/forecast/forecast.hpp"
#include "engine/scenario/display.hpp"

namespace dullcast {

/// Prints a forecast for the foreman of a shop: when rework falls due and why, the band, what is left, the
/// hottest moment, wear, money, cautions. `band` is false when only the central run was made.
void print_forecast(std::ostream& out, const Forecast& forecast, ShownUnits units, bool band);

}  // namespace dullcast
