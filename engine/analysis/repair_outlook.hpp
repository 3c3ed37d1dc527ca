#pragma once

#include "engine/scenario/scenario.hpp"
#include "engine/simulation/outcome.hpp"
#include "models/condition/repair.hpp"

namespace dullcast::analysis {

/// What the shop will find and do when the bit comes in: at rework due where it fell due, otherwise at the
/// run's end (see models/condition/repair.hpp). A cutter counts as spent once it has used half of the least
/// of its exposure, the worn_height rule and the outer dull grade's share of exposure: it would not see the
/// end of a second life as long as this one [asm]. Prices are the scenario's: a rework as the set-up, a
/// cutter, a pocket, a replacement (the bit's own price where none is given; with neither, nothing is too
/// dear to repair). Chips count where they were drawn; otherwise see expected_chipped.
struct RepairOutlook {
  condition::RepairPlan plan;
  bool priced = false;            // the scenario gives prices for what the plan needs
  double expected_chipped = 0.0;  // cutters with a chipped edge, expected from the hazard, not drawn
};
RepairOutlook repair_outlook(const scenario::Scenario& scenario, const simulation::RunOutcome& outcome);

/// What a bench finds on a bit in that condition, cutters held against the scenario's rules as above.
condition::BitFindings bench_findings(const scenario::Scenario& scenario, const simulation::BitCondition& bit,
                                      bool blade_sheared);

/// What is done on a bit that comes in because it is due, or failed. Where the bench finds nothing past its
/// limits (a bit may be too slow long before its cutters are half worn), those cutters are replaced that are
/// worn by more than half of the worst one [asm]: nobody sends it out again as it came. None only for a bit
/// without any wear.
condition::RepairPlan repair_when_due(const scenario::Scenario& scenario, const simulation::BitCondition& bit,
                                      bool blade_sheared);

/// A scenario's prices as a shop reckons with them; see repair_outlook.
condition::RepairCosts shop_prices(const scenario::Costs& money);

}  // namespace dullcast::analysis
