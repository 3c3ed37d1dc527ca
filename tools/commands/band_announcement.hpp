#pragma once

#include "engine/analysis/number_effects.hpp"
#include "tools/commands/progress_line.hpp"

namespace dullcast::commands {

/// What a band will take and how to do without it; empty where that is no more than a minute. `what` needs
/// the runs: "The band".
std::string band_ahead_words(const analysis::RunsAhead& ahead, const std::string& what);

/// Says that, where there is something to say.
analysis::Announcement announce_band(ProgressLine& line, const std::string& what);

}  // namespace dullcast::commands
