#pragma once

#include <string>
#include <vector>

#include "engine/scenario/display.hpp"
#include "engine/scenario/scenario.hpp"

namespace dullcast {

/// A scenario ready to run: read, with the end state of an earlier result when it goes on from one. `library`
/// is what --library gave, `sets` what --set gave. Warnings go to standard error when asked for. Throws
/// ScenarioErrors, and std::invalid_argument for an earlier result that cannot be gone on from.
Scenario ready_scenario(const std::string& file, const std::string& library,
                        const std::vector<std::string>& sets, bool tell_warnings);

/// Reads the word of --units; throws WrongWords.
ShownUnits units_asked(const std::string& word);

}  // namespace dullcast
