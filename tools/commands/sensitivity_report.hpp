#pragma once

#include <string>

#include "engine/analysis/findings.hpp"
#include "tools/commands/report_words.hpp"

namespace dullcast::commands {

/// Tells which factors of a sweep make the difference in each outcome, the strongest first, with intervals.
void tell_sensitivities(const Sheet& sheet, const analysis::Findings& findings, const std::string& currency);

}  // namespace dullcast::commands
