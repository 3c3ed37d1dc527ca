#pragma once

#include "engine/analysis/forecast.hpp"
#include "tools/commands/report_words.hpp"

namespace dullcast::commands {

/// What the central run costs, in money, energy and fuel; with the band's ends when there is a band.
void print_money(const Sheet& sheet, const analysis::Forecast& forecast, bool band);

/// The scenario's other way to drill the same hole, metre against metre. Prints nothing where it names none.
void print_other_method(const Sheet& sheet, const analysis::Forecast& forecast);

}  // namespace dullcast::commands
