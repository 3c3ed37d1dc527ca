#pragma once

#include <nlohmann/json_fwd.hpp>

#include "engine/analysis/findings.hpp"
#include "engine/pages/run_view.hpp"
#include "engine/storage/sweep_table.hpp"

namespace dullcast::pages {

/// The version of what sweep_view gives.
inline constexpr int sweep_view_major = 1, sweep_view_minor = 0;

/// What the runs of a sweep mean, as pages show it: one JSON object, numbers and words as in run_view. KIND
/// says how a number is shown: "weight", "rotary_speed", "flow", "temperature", "temperature_difference",
/// "progress", "pressure", "hours", "depth", "length", "angle", "per_length" (money a metre) or "number".
///
///   format, name, title, made_by, units, currency
///   design      TEXT; cases, points, draws (a point), failed, confidence
///   settings    what the plan varies on purpose: [{name, kind KIND, words (null, or what its values stand
///               for), values: one a point}]
///   bands       over the draws of each point: [{outcome, name TEXT, kind, points: [{point, low, middle,
///               high (10, 50 and 90 %), draws}]}]; of life only draws in which rework fell due, of which
///               `draws` says how many
///   course      null, or bands over footage of the runs whose course was kept (course_bands)
///   life        null, or {point (null: over all), draws, failed, due, finished, finishing, finishing_low,
///               finishing_high, rotating_time, footage, holes: [{share, value, low, high}]}; null where the
///               draws leave an end open
///   survival    null, or {time (s), share, low, high: [...], seen_to (s), lives, censored}: the share of
///   runs
///               with no rework due yet from each time on
///   sensitivities [{outcome, name, how ("elementary_effects", "variance_shares", "rank_correlation"), kind
///               (of its values), used, left_out, lives_ended, censored, factors: [{name, value, low, high,
///               alone (variance shares: gone if it were known; else null)}]}], the strongest first
///   trade_off   null, or {best (point, null for none), told_apart, limits: {hottest_flat, expected_chips,
///               hold}, points: [{point, draws, failed, cost, cost_half_width, hot, hot_low, hot_high, chips,
///               finishing, keeping, within TEXT, on_front, like_best}]}
///   estimates, cautions [TEXT]
nlohmann::json sweep_view(const storage::SweepTable& table, const analysis::Findings& findings,
                          const storage::SweepCourses& courses, const RunViewOptions& options);

}  // namespace dullcast::pages
