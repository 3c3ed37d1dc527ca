#pragma once

#include <ostream>

#include "engine/analysis/forecast.hpp"
#include "engine/analysis/survival_without_flow.hpp"
#include "engine/base/display.hpp"

namespace dullcast::commands {

/// Prints a forecast for the foreman of a shop: when rework falls due and why, the band, what is left, the
/// hottest moment, wear, whether the ground suits the bit, chips, survival without flow, damage and repair,
/// money, the other method, cautions. `band` is false when only the central run was made; `survival` is empty
/// when it was not asked for.
void print_forecast(std::ostream& out, const analysis::Forecast& forecast,
                    const std::vector<analysis::Survival>& survival, base::ShownUnits units, bool band);

}  // namespace dullcast::commands
