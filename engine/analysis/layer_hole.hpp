#pragma once

#include "engine/scenario/scenario.hpp"
#include "engine/simulation/outcome.hpp"

namespace dullcast::analysis {

/// One layer of a scenario's column drilled by itself, for questions about that layer: one hole that starts
/// at the layer's own top (so that rock temperature and boiling pressure are its own; the shallow end is the
/// more severe one where boiling matters), in its rock only, with the plan's settings at the layer's middle.
/// No upsets, no connections, no trip, no random events drawn, no rule for rework.
struct LayerHole {
  scenario::Scenario scenario;
  double rate_of_penetration = 0.0;  // m/s, at its top with clean slots; 0: this weight does not drill it
};

/// `condition` is the bit as it enters; tables it names as ruined (heat damage 1) count as gone. The hole is
/// as deep as the first rate of penetration makes in `seconds`; the bit counts as standing still below
/// `standstill_share` of that rate. Throws std::out_of_range for a layer that is not there, otherwise what
/// the models throw.
LayerHole layer_hole(const scenario::Scenario& scenario, int layer, const simulation::BitCondition& condition,
                     double seconds);

/// Share of its first rate of penetration below which a bit counts as standing still [asm].
inline constexpr double standstill_share = 0.02;

/// The condition a scenario's bit starts with.
simulation::BitCondition starting_condition(const scenario::Scenario& scenario);

/// The bit half way to a condition: half the wear, damage, hazard and erosion; what is lost stays lost.
simulation::BitCondition half_worn(const simulation::BitCondition& condition);

/// Starts a scenario's bit in a condition.
void start_from(scenario::Scenario& scenario, const simulation::BitCondition& condition);

}  // namespace dullcast::analysis
