#pragma once

#include <string>

#include "engine/scenario/scenario.hpp"

namespace dullcast::input {

/// The scenario as YAML with every default and override written out, in SI, numbers to the last bit: read
/// again from the same folder it gives the same scenario, whatever the library says by then. Paths are
/// relative to the scenario's folder, so the text is the same on every machine. Needs no UnitParser; safe
/// from any thread.
std::string resolved_text(const scenario::Scenario& scenario);

}  // namespace dullcast::input
