#include "tools/proofs/rule_setting.hpp"

#include "tools/samples/invented_scenario.hpp"

namespace dullcast::proofs {

using samples::degree;
using samples::exactly;

scenario::Scenario in_rock(const scenario::RockRecord& rock, double metres) {
  scenario::Scenario s = samples::invented_scenario();
  s.column.layers.assign(1, {20.0, 20.0 + metres, rock, 0.0, {}});
  s.plan[0].from = 20.0;
  s.plan[0].to = 20.0 + metres;
  s.plan[0].weight_on_bit = 35e3;
  s.repeat.connection_time = 0.0;
  s.bit.kinds.front().grade.edge_strength = samples::exactly(3.2e9);
  s.stepping.relative_tolerance = 1e-3;
  return s;
}

scenario::RockRecord sandstone() {
  return samples::invented_rock("sandstone", 50e6, 2.5);
}
scenario::RockRecord hard_sandstone() {
  return samples::invented_rock("hard sandstone", 125e6, 3.5);
}
scenario::RockRecord quartzite() {
  return samples::invented_rock("quartzite", 200e6, 5.0);
}
scenario::RockRecord granite() {
  return samples::invented_rock("granite", 180e6, 4.3);
}
scenario::RockRecord gravel() {
  scenario::RockRecord rock = samples::invented_rock("gravel", 10e6, 3.0);
  rock.inclusion_share = samples::exactly(0.5);
  rock.inclusion_size = samples::exactly(25e-3);
  rock.inclusion_strength = samples::exactly(175e6);
  rock.inclusion_abrasivity = samples::exactly(3.5);
  return rock;
}

geometry::BitLayout raked(double rake) {
  geometry::BladePlan plan = samples::invented_blade_plan();
  plan.inner_back_rake = plan.outer_back_rake = rake * samples::degree;
  return geometry::lay_out_blades(plan, samples::invented_shape());
}

geometry::BitLayout bevelled(double angle) {
  geometry::CutterShape shape = samples::invented_shape();
  shape.bevel_angle = angle * samples::degree;
  return geometry::lay_out_blades(samples::invented_blade_plan(), shape);
}

double chips_per_metre(const simulation::RunOutcome& outcome) {
  return outcome.passages[0].chip_hazard / outcome.footage;
}
double wear_per_metre(const simulation::RunOutcome& outcome) {
  return outcome.passages[0].greatest_wear_gain / outcome.footage;
}
double rate(const simulation::RunOutcome& outcome) {
  return outcome.passages[0].mean_rate_of_penetration;
}

condition::BitFindings sound_bit() {
  condition::BitFindings findings;
  findings.worn_share = findings.heat_damage = Eigen::ArrayXd::Zero(18);
  findings.lost = findings.chipped = findings.at_gauge = Eigen::ArrayXi::Zero(18);
  return findings;
}

condition::RepairCosts invented_repair_costs() {
  condition::RepairCosts costs;
  costs.setup = 200.0;
  costs.cutter = 40.0;
  costs.pocket = 25.0;
  costs.replacement = 1900.0;
  return costs;
}

}  // namespace dullcast::proofs
