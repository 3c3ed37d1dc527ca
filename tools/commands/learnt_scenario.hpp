#pragma once

#include <string>

#include "engine/scenario/scenario.hpp"

namespace dullcast::commands {

/// A scenario that names an inspected bit (calibrate_from), with what that has told in place of the library's
/// numbers and in its resolved text: from there on it rests on what was learnt and needs the bit no more.
/// Others as they are. Throws what reading the bit's scenario and the fit throw.
scenario::Scenario learnt_scenario(scenario::Scenario scenario, const std::string& library, int threads);

}  // namespace dullcast::commands
