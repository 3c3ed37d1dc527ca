#pragma once

#include <nlohmann/json_fwd.hpp>

#include "engine/analysis/suitability.hpp"
#include "engine/scenario/scenario.hpp"

namespace dullcast::pages {

/// What a driller watches for in a layer [common practice], a few words each, worst first: what the verdict
/// found, cutters that come within fifty degrees of the temperature from which diamond wears faster, and what
/// the library notes of the rock. An array of SENTENCE (run_view).
nlohmann::json watch_words(const analysis::LayerSuitability& layer, const scenario::Scenario& scenario);

}  // namespace dullcast::pages
