#pragma once

#include <string>
#include <vector>

#include "engine/scenario/inspected_bit.hpp"

namespace dullcast::input {

/// The record of the bit of this name, the latest where it came back more than once: by day, and the last in
/// the file of those that state none. Throws std::invalid_argument, with the nearest name, where there is
/// none.
scenario::ShelvedBit latest_record(const std::vector<scenario::ShelvedBit>& shelf, const std::string& name,
                                   const std::string& file);

}  // namespace dullcast::input
