#pragma once

#include <string>
#include <vector>

#include "engine/scenario/scenario.hpp"

namespace dullcast::input {

/// The scenario as YAML with every default and override written out, in SI, numbers to the last bit: read
/// again from the same folder it gives the same scenario, whatever the library says by then. Paths are
/// relative to the scenario's folder, so the text is the same on every machine. Needs no UnitParser; safe
/// from any thread.
std::string resolved_text(const scenario::Scenario& scenario);

/// The state a bit starts in as "key=value" changes of its scenario (see apply_sets), to the last bit: they
/// take `continues` and `rebuilt` away, so that the scenario needs no earlier result any more.
std::vector<std::string> start_as_sets(const scenario::BitRecord& bit);

}  // namespace dullcast::input
