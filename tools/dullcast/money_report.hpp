#pragma once

#include "engine/forecast/forecast.hpp"
#include "tools/dullcast/report_words.hpp"

namespace dullcast {

/// What the central run costs, in money, energy and fuel; with the band's ends when there is a band.
void print_money(const Sheet& sheet, const Forecast& forecast, bool band);

/// The scenario's other way to drill the same hole, metre against metre. Prints nothing where it names none.
void print_other_method(const Sheet& sheet, const Forecast& forecast);

}  // namespace dullcast
