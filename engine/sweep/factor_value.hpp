#pragma once

#include <string>
#include <vector>

#include "engine/input/map_reader.hpp"
#include "engine/sweep/sweep_plan.hpp"

namespace dullcast::sweep {

/// Reads one text of a target as a value or a word into `values`; the first one settles which, and the rest
/// must agree. What is neither, or one word too many, is reported at `place` under `path`.
void add_value(const std::string& text, const scenario::Location& place, const std::string& path,
               input::Reading& reading, FactorTarget& target, std::vector<double>& into);

}  // namespace dullcast::sweep
