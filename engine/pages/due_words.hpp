#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "engine/analysis/suitability.hpp"
#include "engine/base/display.hpp"
#include "engine/scenario/scenario.hpp"
#include "engine/simulation/outcome.hpp"

/// When rework falls due, what the ground does to the bit and what to do about it, in words that reports and
/// pages share. Pure: the same run gives the same words.
namespace dullcast::pages {

/// When rework falls due: "hole 31 of 40", "not in 40 holes".
std::string due_words(const scenario::Scenario& scenario, const simulation::RunOutcome& outcome);
/// One end of a band: "hole 7", "not within hole 40".
std::string end_words(const simulation::LifeEnd& end);
/// The end of a band of that name ("low", "central", "high"), null where there is none.
const simulation::LifeEnd* end_named(const std::vector<simulation::LifeEnd>& band, std::string_view name);
/// When to take the bit out and look, by the early end of the band.
std::string inspect_words(const std::vector<simulation::LifeEnd>& band,
                          const simulation::RunOutcome& outcome);
/// The worst verdict on the column's layers and what it rests on: "with care: hard sandstone, ...". `go`
/// where nothing is wrong.
std::string verdict_in_a_line(const scenario::Scenario& scenario, const simulation::RunOutcome& outcome,
                              base::ShownUnits units);
/// What a driller or a shop can do about a concern in a rock [common practice].
std::string remedy(analysis::Concern concern, const std::string& rock);
/// The first thing to do about the worst layer; where every layer is fit, what would narrow the band of a
/// forecast that no inspected bit has told of, and nothing for one that has.
std::string first_to_do(const scenario::Scenario& scenario, const simulation::RunOutcome& outcome,
                        bool calibrated);
/// What of the bit was past repair at that point.
std::string beyond_words(const simulation::Milestone& beyond);

}  // namespace dullcast::pages
