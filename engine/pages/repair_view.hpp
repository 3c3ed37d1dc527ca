#pragma once

#include <nlohmann/json_fwd.hpp>
#include <string>

#include "engine/scenario/scenario.hpp"
#include "engine/simulation/outcome.hpp"
#include "models/condition/repair.hpp"

namespace dullcast::pages {

/// What a shop does, in a few words: "replace 3 cutters", "scrap".
std::string repair_words(const condition::RepairPlan& plan);

/// What the shop finds and does when the bit comes in where the run stopped, be rework due by then or not:
/// member `repair` of run_view, which tells what is in it. Limits and prices as for
/// analysis::repair_outlook, which looks at the bit when rework falls due.
nlohmann::json repair_view(const scenario::Scenario& scenario, const simulation::RunOutcome& outcome);

}  // namespace dullcast::pages
