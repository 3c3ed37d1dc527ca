#pragma once

#include <Eigen/Core>

namespace dullcast::condition {

/// What a bit shop does with a bit that comes back. Money in any one currency, lengths m.

enum class RepairClass { none, replace_cutters, rebuild_pockets, scrap };

/// What an inspection (or a run) finds.
struct BitFindings {
  Eigen::ArrayXd worn_share;         // 1 per cutter, worn height over exposure
  Eigen::ArrayXd heat_damage;        // 1 per cutter, 1 or more: ruined table
  Eigen::ArrayXi lost;               // per cutter, not 0: gone from its pocket
  Eigen::ArrayXi chipped;            // per cutter, not 0: edge chipped
  Eigen::ArrayXi at_gauge;           // per cutter, not 0: reaches the gauge
  double pocket_share_eroded = 0.0;  // 1, what flow and rubbing took, over pocket depth
  double gauge_loss = 0.0;           // m of radius
  bool blade_sheared = false;
};

/// Prices of one shop.
struct RepairCosts {
  double setup = 0.0;        // money a bit: cleaning, inspection, furnace
  double cutter = 0.0;       // money for one new cutter brazed in
  double pocket = 0.0;       // money for one pocket built up and cut anew
  double replacement = 0.0;  // money for a new bit
};

/// Where a shop draws its lines; all [asm], to be set by the shop.
struct RepairLimits {
  double worn_share = 0.5;           // a cutter worn past this is replaced
  double pocket_share = 0.25;        // pockets eroded past this are rebuilt
  double pocket_share_scrap = 0.75;  // and past this hold no new pocket: the blade behind them is gone
  double gauge_loss = 0.8e-3;  // m of radius: past it all gauge cutters are replaced (1/32 in, about the
                               // undersize that trade gauge rings allow a worn bit: common practice)
  double cost_share = 0.7;     // a repair that costs more than this share of a new bit is not done
};

struct RepairPlan {
  RepairClass kind = RepairClass::none;
  int cutters = 0;           // to replace
  int pockets = 0;           // to rebuild
  double cost = 0.0;         // money: of the repair, or of a new bit when scrapped
  const char* reason = "";   // one constant clause, for whoever words the report
  Eigen::ArrayXi replaced;   // per cutter, 1 where a new one comes in; empty when scrapped
  bool all_pockets = false;  // blades are built up, and with them every pocket
};

/// Decides what to do. A cutter is replaced when it is lost, chipped, ruined by heat (damage >= 1) or worn
/// past the limit; all gauge cutters when the gauge loss is past its limit. The pocket of a lost cutter is
/// rebuilt; all pockets when they are eroded past the limit, and every cutter then sits in a new pocket,
/// sound ones again. cost = setup + cutters x cutter + pockets x pocket, 0 when there is nothing to do.
/// Scrap: a blade sheared, pockets gone, or a cost above cost_share x replacement (the cost is then a new
/// bit's). Common practice: repair of a chipped bit costs far less than a new one. Throws std::domain_error
/// for arrays of differing lengths, a negative or unknown (NaN) finding, or a price that is not 0 or more.
RepairPlan plan_repair(const BitFindings& findings, const RepairCosts& costs,
                       const RepairLimits& limits = {});

/// The class in a word of its own: "none", "replace_cutters", "rebuild_pockets", "scrap".
const char* repair_class_name(RepairClass kind);

}  // namespace dullcast::condition
