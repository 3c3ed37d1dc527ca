#pragma once

#include <string>

#include "engine/forecast/findings.hpp"
#include "tools/dullcast/report_words.hpp"

namespace dullcast {

/// Tells which factors of a sweep make the difference in each outcome, the strongest first, with intervals.
void tell_sensitivities(const Sheet& sheet, const Findings& findings, const std::string& currency);

}  // namespace dullcast
