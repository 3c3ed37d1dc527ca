#pragma once

#include <nlohmann/json_fwd.hpp>

#include "engine/analysis/suitability.hpp"
#include "engine/scenario/scenario.hpp"
#include "engine/simulation/outcome.hpp"

namespace dullcast::pages {

/// What a scenario says of the ground and of how it is drilled: members layers, water_level, intervals,
/// fluid, gas, weight_limit and upsets of run_view, which tells what is in them.
nlohmann::json ground_view(const scenario::Scenario& scenario);

/// Member `verdict` of run_view: whether the ground suits the bit, layer by layer and as a whole.
nlohmann::json verdict_view(const scenario::Scenario& scenario, const simulation::RunOutcome& outcome);

/// "go", "with_care", "wrong_bit" or "not_reached".
const char* verdict_name(analysis::Verdict verdict);

/// Weight on the bit at a depth (m) that an interval of the plan puts on, with the string's own, N.
double planned_weight(const scenario::Scenario& scenario, const scenario::OperatingInterval& interval,
                      double depth);

/// What a layer's verdict rests on: [{"field": text, "si": text}].
nlohmann::json reasons_view(const analysis::LayerSuitability& layer);

}  // namespace dullcast::pages
