#pragma once

#include <ostream>

#include "engine/forecast/forecast.hpp"
#include "engine/forecast/survival.hpp"
#include "engine/scenario/display.hpp"

namespace dullcast {

/// Prints a forecast for the foreman of a shop: when rework falls due and why, the band, what is left, the
/// hottest moment, wear, whether the ground suits the bit, chips, survival without flow, damage and repair,
/// money, the other method, cautions. `band` is false when only the central run was made; `survival` is empty
/// when it was not asked for.
void print_forecast(std::ostream& out, const Forecast& forecast, const std::vector<Survival>& survival,
                    ShownUnits units, bool band);

}  // namespace dullcast
