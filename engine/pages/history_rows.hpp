#pragma once

#include <cstddef>
#include <nlohmann/json_fwd.hpp>
#include <vector>

#include "engine/scenario/scenario.hpp"
#include "engine/simulation/outcome.hpp"

namespace dullcast::pages {

/// Which rows of a history a page gets, in their order: all where there are at most `most`. Otherwise the
/// first and the last of every hole and layer, and from stretches of equally many rows those in which what a
/// track shows is least and greatest: rate of penetration, weight, torque, flow, hottest and coolest flat,
/// greatest worn height. So a peak stays whatever is left out, and what lies between is left to straight
/// lines. There may be a few more than `most`: holes and layers come first.
std::vector<std::size_t> rows_to_show(const simulation::History& history, std::size_t most);

/// Those rows as columns (member `rows` of run_view, which tells what is in it). Where the scenario states
/// what a rig and a bit cost, with the cost of a metre if the bit were pulled for good at each row.
nlohmann::json columns_of(const scenario::Scenario& scenario, const simulation::History& history,
                          const std::vector<std::size_t>& shown);

/// Cost of a metre if the bit were pulled for good here: bit, and rig time with this hole's trip, over the
/// metres drilled. NaN before the first of them.
double cost_per_metre_at(const scenario::Scenario& scenario, const simulation::HistoryRow& row);

/// Whether the scenario states money that a metre may cost.
bool has_costs(const scenario::Scenario& scenario);

}  // namespace dullcast::pages
