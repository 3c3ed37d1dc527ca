#pragma once

#include <string>
#include <vector>

#include "engine/scenario/inspected_bit.hpp"

namespace dullcast::commands {

/// A shelf, read against the library that `library` (what --library gave) or its place names. Warnings go to
/// standard error. Throws ScenarioErrors.
std::vector<scenario::ShelvedBit> ready_shelf(const std::string& file, const std::string& library);

}  // namespace dullcast::commands
