#pragma once

#include <ostream>

#include "engine/analysis/findings.hpp"
#include "engine/analysis/uncertainty_ranking.hpp"
#include "engine/base/display.hpp"
#include "engine/scenario/scenario.hpp"

/// The few lines that somebody in a hurry needs of what many runs mean.
namespace dullcast::commands {

/// Doubts: the life that is uncertain, the five numbers that make it so, what to measure first.
void print_brief(std::ostream& out, const scenario::Scenario& scenario,
                 const analysis::UncertaintyRanking& doubts, base::ShownUnits units);

/// Findings of a sweep: when rework is due, the cheapest settings, what matters most.
void print_brief(std::ostream& out, const storage::SweepTable& table, const analysis::Findings& findings,
                 base::ShownUnits units);

}  // namespace dullcast::commands
