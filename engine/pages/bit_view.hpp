#pragma once

#include <nlohmann/json_fwd.hpp>

#include "engine/scenario/scenario.hpp"

namespace dullcast::pages {

/// The bit of a scenario as a page draws it (member `bit` of run_view, which tells what is in it).
nlohmann::json bit_view(const scenario::Scenario& scenario);

}  // namespace dullcast::pages
