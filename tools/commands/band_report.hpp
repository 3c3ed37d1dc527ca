#pragma once

#include "engine/analysis/forecast.hpp"
#include "tools/commands/report_words.hpp"

namespace dullcast::commands {

/// Prints the band of a forecast: when rework falls due at its low, central and high end, what the ends stand
/// for, and what the band is due to, by the shares of the band as it is told here. Where chance is drawn its
/// middle stands in place of central, and how many draws it is of.
void print_band(const Sheet& sheet, const analysis::Forecast& forecast);

/// What the hottest flats of the ends are, each with its case: "hottest 647 degF in the low case, 281
/// degF in the high one".
std::string hottest_ends_words(const analysis::Forecast& forecast, base::ShownUnits units);

}  // namespace dullcast::commands
