#pragma once

#include <nlohmann/json_fwd.hpp>
#include <vector>

#include "engine/analysis/operating_window.hpp"
#include "engine/scenario/scenario.hpp"

namespace dullcast::pages {

/// Operating windows as pages show them, member `windows` of a run's view where they were asked for: weight
/// against rotary speed in every layer, and the limit that binds outside. An array of
///   {layer, rock, top, bottom, flow, weights [N, rising], rotary_speeds [rev/s, rising],
///    cells: one a weight, then a speed: [{limit (window_limit_name), progress, hottest_flat,
///            metres_to_allowance, cost_per_metre}],
///    edges: one a speed: [{rotary_speed, greatest, least (N, null: none), above, below (limits)}],
///    planned: {weight, rotary_speed, limit, words TEXT},
///    limits: {name: TEXT} of all limits}
/// and numbers as in run_view.
nlohmann::json window_views(const std::vector<analysis::OperatingWindow>& windows);

/// A limit in words: "cutters too hot".
const char* limit_words(analysis::WindowLimit limit);

}  // namespace dullcast::pages
