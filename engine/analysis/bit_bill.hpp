#pragma once

#include <string>
#include <vector>

#include "engine/scenario/scenario.hpp"
#include "engine/simulation/outcome.hpp"
#include "models/condition/repair.hpp"

namespace dullcast::analysis {

/// What a bit's condition costs a shop that keeps its shelf of bits ready to drill. Money.
struct BitBill {
  condition::RepairPlan plan;  // what is due, with its cost; a new bit's price where it is scrapped
  /// What is worn of the cutters that stay in: each one's used share of the life after which it would be
  /// replaced, at the price of a cutter. That share is the greater of its worn share over
  /// condition::RepairLimits::worn_share and of its heat damage, so that the bill does not leap as a cutter
  /// passes the limit. 0 when the bit is scrapped. Straight-line writing off is common practice; that heat
  /// damage counts like wear is assumed [asm]. Wear of blades and pockets counts only once it is due.
  double worn_in_part = 0.0;
  double total() const { return plan.cost + worn_in_part; }
};

/// The bill of a bit in `bit`, held against the scenario's rules and prices (see repair_outlook). Prices that
/// are not given count as 0; without a price of a new bit nothing is scrapped for its cost, and a bit that is
/// past repair bills infinity.
BitBill bit_bill(const scenario::Scenario& scenario, const simulation::BitCondition& bit,
                 bool blade_sheared = false);

/// The condition in which a scenario's bit starts, with the marks that it may leave out and the hole's
/// diameter lost.
simulation::BitCondition condition_at_start(const scenario::Scenario& scenario);

/// A bit of that layout, new; and one as the plan leaves it: new cutters where the plan says, blades and
/// pockets built up where all are rebuilt; the rest stays. Throws std::invalid_argument for a plan to scrap.
simulation::BitCondition unused(const geometry::BitLayout& layout);
simulation::BitCondition reworked(simulation::BitCondition bit, const geometry::BitLayout& layout,
                                  const condition::RepairPlan& plan);

/// The same of a scenario's bit as it starts.
scenario::Scenario reworked(scenario::Scenario scenario, const condition::RepairPlan& plan);

/// The scenario with a new bit of the same make.
scenario::Scenario with_new_bit(scenario::Scenario scenario);

/// The keys under `costs` without which no choice between bits can be priced and which the scenario leaves
/// out: rig, bit or replacement, rework, cutter.
std::vector<std::string> missing_prices(const scenario::Costs& costs);

}  // namespace dullcast::analysis
