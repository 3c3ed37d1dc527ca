#pragma once

#include "engine/simulation/run.hpp"
#include "models/condition/repair.hpp"

/// The settings in which the trade's rules of thumb are looked at: a 7-7/8 in bit of invented make. Shared
/// with the tests that assert them.
namespace dullcast::proofs {

/// A few metres of one rock at 1,000 lbf per inch of diameter (35 kN), 85 rpm and 60 gal/min.
scenario::Scenario in_rock(const scenario::RockRecord& rock, double metres = 3.0);

scenario::RockRecord sandstone();       // 50 MPa
scenario::RockRecord hard_sandstone();  // 125 MPa
scenario::RockRecord quartzite();       // 200 MPa
scenario::RockRecord granite();         // 180 MPa
scenario::RockRecord gravel();          // half stones of 25 mm and 175 MPa in a binder of 10 MPa

/// 18 cutters of one back rake, deg.
geometry::BitLayout raked(double rake);
/// 18 cutters with a bevel 0.4 mm wide at this angle, deg; 0: an unbevelled edge.
geometry::BitLayout bevelled(double angle);

/// Of the first layer: expected chips and greatest wear (m) per metre drilled, rate of penetration (m/s).
double chips_per_metre(const simulation::RunOutcome& outcome);
double wear_per_metre(const simulation::RunOutcome& outcome);
double rate(const simulation::RunOutcome& outcome);

/// 18 sound cutters, and a shop's prices.
condition::BitFindings sound_bit();
condition::RepairCosts invented_repair_costs();

}  // namespace dullcast::proofs
