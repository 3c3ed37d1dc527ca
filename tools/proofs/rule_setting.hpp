#pragma once

#include "engine/run/run.hpp"
#include "models/repair.hpp"

/// The settings in which the trade's rules of thumb are looked at: a 7-7/8 in bit of invented make. Shared
/// with the tests that assert them.
namespace dullcast::proofs {

/// A few metres of one rock at 1,000 lbf per inch of diameter (35 kN), 85 rpm and 60 gal/min.
Scenario in_rock(const RockRecord& rock, double metres = 3.0);

RockRecord sandstone();       // 50 MPa
RockRecord hard_sandstone();  // 125 MPa
RockRecord quartzite();       // 200 MPa
RockRecord granite();         // 180 MPa
RockRecord gravel();          // half stones of 25 mm and 175 MPa in a binder of 10 MPa

/// 18 cutters of one back rake, deg.
BitLayout raked(double rake);
/// 18 cutters with a bevel 0.4 mm wide at this angle, deg; 0: an unbevelled edge.
BitLayout bevelled(double angle);

/// Of the first layer: expected chips and greatest wear (m) per metre drilled, rate of penetration (m/s).
double chips_per_metre(const RunOutcome& outcome);
double wear_per_metre(const RunOutcome& outcome);
double rate(const RunOutcome& outcome);

/// 18 sound cutters, and a shop's prices.
BitFindings sound_bit();
RepairCosts invented_repair_costs();

}  // namespace dullcast::proofs
