#pragma once

#include <functional>
#include <nlohmann/json_fwd.hpp>
#include <vector>

#include "engine/analysis/cooling_table.hpp"
#include "engine/pages/run_view.hpp"

namespace dullcast::pages {

/// The version of what card_view gives.
inline constexpr int card_view_major = 1, card_view_minor = 0;

/// A run as a card for the driller's cab: what to hold over each stretch of the hole, and when to pull. One
/// JSON object, numbers and words as in run_view. `flows`: the least flows of every layer, for the bit as it
/// starts and worn to its rule (analysis::least_flow); a layer that is in none has no least flow told. Pure.
///
///   format, name, title, made_by, units, calibrated, gas
///   bit         {name, diameter, blades, cutters (how many), grade, body}
///   fluid       TEXT; holes: planned; bottom: m; weight_limit: N, 0 for none
///   rows        stretches of one rock and one setting, from the surface down:
///               [{from, to, rock, pattern, weight, rotary_speed, planned_flow, least_flow (null: not known
///               or none would do), flow_words TEXT (what least_flow cannot say, may be empty), flow_is_short
///               (planned below least), feed_limit, held_by_feed (the feed limit, not the weight, sets the
///               progress), progress (expected, of the first hole; null where it was
///               not drilled), hottest_flat, grade (verdict_name), verdict TEXT, why [SENTENCE], watch
///               [SENTENCE], what comes first first}]
///   verdict     as in run_view, without layers
///   pull        SENTENCE, when rework is due; inspect TEXT, when to look before that
///   pull_sooner [TEXT], each rule for rework
///   band_words  TEXT, may be empty
///   estimates, cautions [TEXT]
nlohmann::json card_view(const scenario::Scenario& scenario, const simulation::RunOutcome& outcome,
                         const std::vector<simulation::LifeEnd>& band,
                         const std::vector<analysis::LeastFlow>& flows, const RunViewOptions& options);

/// The least flows of every layer for card_view, for the bit as it starts and worn to its rule, each found by
/// trial holes; none where the plan pumps nothing. `tell` is told how many of how many are done, from one
/// thread at a time.
std::vector<analysis::LeastFlow> card_flows(const scenario::Scenario& scenario, int threads,
                                            const std::function<void(int done, int all)>& tell = {});

}  // namespace dullcast::pages
