#include "tools/proofs/rule_setting.hpp"

#include "support/invented_scenario.hpp"

namespace dullcast::proofs {

using testing::degree;
using testing::exactly;

Scenario in_rock(const RockRecord& rock, double metres) {
  Scenario s = testing::invented_scenario();
  s.column.layers.assign(1, {20.0, 20.0 + metres, rock, 0.0, {}});
  s.plan[0].from = 20.0;
  s.plan[0].to = 20.0 + metres;
  s.plan[0].weight_on_bit = 35e3;
  s.repeat.connection_time = 0.0;
  s.bit.grade.edge_strength = exactly(3.2e9);
  s.stepping.relative_tolerance = 1e-3;
  return s;
}

RockRecord sandstone() {
  return testing::invented_rock("sandstone", 50e6, 2.5);
}
RockRecord hard_sandstone() {
  return testing::invented_rock("hard sandstone", 125e6, 3.5);
}
RockRecord quartzite() {
  return testing::invented_rock("quartzite", 200e6, 5.0);
}
RockRecord granite() {
  return testing::invented_rock("granite", 180e6, 4.3);
}
RockRecord gravel() {
  RockRecord rock = testing::invented_rock("gravel", 10e6, 3.0);
  rock.inclusion_share = exactly(0.5);
  rock.inclusion_size = exactly(25e-3);
  rock.inclusion_strength = exactly(175e6);
  return rock;
}

BitLayout raked(double rake) {
  BladePlan plan = testing::invented_blade_plan();
  plan.inner_back_rake = plan.outer_back_rake = rake * degree;
  return lay_out_blades(plan, testing::invented_shape());
}

BitLayout bevelled(double angle) {
  CutterShape shape = testing::invented_shape();
  shape.bevel_angle = angle * degree;
  return lay_out_blades(testing::invented_blade_plan(), shape);
}

double chips_per_metre(const RunOutcome& outcome) {
  return outcome.passages[0].chip_hazard / outcome.footage;
}
double wear_per_metre(const RunOutcome& outcome) {
  return outcome.passages[0].greatest_wear_gain / outcome.footage;
}
double rate(const RunOutcome& outcome) {
  return outcome.passages[0].mean_rate_of_penetration;
}

BitFindings sound_bit() {
  BitFindings findings;
  findings.worn_share = findings.heat_damage = Eigen::ArrayXd::Zero(18);
  findings.lost = findings.chipped = findings.at_gauge = Eigen::ArrayXi::Zero(18);
  return findings;
}

RepairCosts invented_repair_costs() {
  RepairCosts costs;
  costs.setup = 200.0;
  costs.cutter = 40.0;
  costs.pocket = 25.0;
  costs.replacement = 1900.0;
  return costs;
}

}  // namespace dullcast::proofs
