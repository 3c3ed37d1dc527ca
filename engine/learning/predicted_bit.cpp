#include "engine/learning/predicted_bit.hpp"

#include <algorithm>
#include <cmath>

#include "engine/simulation/run.hpp"

namespace dullcast::learning {
namespace {

Eigen::ArrayXd logs_of(const Eigen::ArrayXd& values) {
  return values.unaryExpr([](double value) {
    // A NaN must be seen, not taken for nothing.
    return value > 0.0 || std::isnan(value) ? std::max(std::log(value), log_of_nothing) : log_of_nothing;
  });
}

}  // namespace

PredictedBit predict(const scenario::Scenario& run) {
  scenario::Scenario scenario = run;
  scenario.random_events.drawn = false;
  // What is worn past repair is past telling, and hot bits are slow to drill on.
  scenario.repeat.stop_at = scenario::StopAt::beyond_repair;
  const scenario::BitRecord& bit = scenario.bit;
  const simulation::RunOutcome outcome = simulation::run(scenario, {}, simulation::Rows::left_out);
  const simulation::BitCondition& end = outcome.end;
  PredictedBit predicted;
  predicted.logs.resize(bit.layout.count(), trace_count);
  predicted.logs.col(wear_gain) = logs_of(end.worn_height - bit.starting_wear);
  const Eigen::ArrayXd& before = bit.starting_chip_hazard;
  predicted.logs.col(chip_hazard) =
      logs_of(before.size() == end.chip_hazard.size() ? end.chip_hazard - before : end.chip_hazard);
  predicted.logs.col(heat_damage) = logs_of(end.heat_damage);
  predicted.logs.col(pocket_load) = logs_of(end.pocket_load);
  predicted.logs.col(bond_load) = logs_of(end.bond_load);
  predicted.starting_wear = bit.starting_wear;
  predicted.usable_height = bit.layout.exposure;
  predicted.radius = bit.layout.radius;
  predicted.bit_radius = bit.layout.bit_radius;
  predicted.strength_spread = bit.lot.strength_spread.central;
  const double asked =
      scenario.repeat.holes * (scenario.column.layers.back().bottom - scenario.column.layers.front().top);
  predicted.drilled_share = asked > 0.0 ? std::min(1.0, outcome.footage / asked) : 1.0;
  return predicted;
}

}  // namespace dullcast::learning
