#pragma once

#include <string>

#include "engine/scenario/scenario.hpp"

namespace dullcast::commands {

/// What a bit starts as, in one line: "14 cutters as the earlier result left them, 3 new, 1 lost; most worn
/// 0.9 mm (0.0354 in)". Each cutter is counted once. Empty for a new bit.
std::string start_words(const scenario::BitRecord& bit);

}  // namespace dullcast::commands
