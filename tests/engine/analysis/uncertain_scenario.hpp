#pragma once

#include <cmath>

#include "engine/scenario/scenario.hpp"
#include "support/short_scenario.hpp"

/// Short scenarios whose numbers have a spread. Every number is invented.
namespace dullcast::testing {

using namespace analysis;  // the room that is tested

inline scenario::Quantity between(double low, double central, double high) {
  return {low, central, high, "asm", "invented for tests"};
}

/// Small bit, 5 m holes of limestone over sandstone; a few holes wear it to its rule. Six uncertain numbers.
inline scenario::Scenario uncertain_scenario() {
  scenario::Scenario s = short_scenario();
  s.stepping.relative_tolerance = 1e-2;
  s.numbers.abrasion_coefficient = between(1e-15, 2e-15, 4e-15);
  s.numbers.flat_friction = between(0.35, 0.4, 0.46);
  s.numbers.exposed_share = between(0.4, 0.5, 0.6);
  s.bit.kinds.front().grade.wear_resistance = between(0.8, 1.0, 1.25);
  s.column.layers[0].rock.unconfined_strength = between(65e6, 80e6, 98e6);
  s.column.layers[1].rock.cerchar_abrasivity = between(2.0, 2.5, 3.1);
  s.rules = {};
  s.rules.worn_height = 0.8e-3;
  s.repeat.holes = 60;
  s.repeat.stop_at = scenario::StopAt::rework_due;
  return s;
}

/// One layer of one rock, cold, and wear so slow that a hole hardly changes the bit: wear is then a product
/// of powers of its numbers.
inline scenario::Scenario slow_cold_scenario(double abrasivity) {
  scenario::Scenario s = short_scenario();
  give_one_layer(s, 3.0, samples::invented_rock("sandstone", 50e6, abrasivity));
  s.numbers.abrasion_coefficient = samples::exactly(1e-18);
  return s;
}

inline simulation::BitCondition worn_evenly(const scenario::Scenario& s, double height) {
  simulation::BitCondition condition;
  condition.worn_height = Eigen::ArrayXd::Constant(s.bit.layout.count(), height);
  condition.heat_damage = Eigen::ArrayXd::Zero(s.bit.layout.count());
  return condition;
}

inline double quantity_of(const scenario::Scenario& given, const std::string& wanted,
                          double scenario::Quantity::*which) {
  scenario::Scenario s = given;
  double found = std::nan("");
  scenario::for_each_number(s, [&](const std::string& name, scenario::Quantity& quantity) {
    if (name == wanted) found = quantity.*which;
  });
  return found;
}

/// Metres to rework due, which must have fallen due.
inline double life(const simulation::RunOutcome& run) {
  return run.rework_due ? run.rework_due->footage : std::nan("");
}

}  // namespace dullcast::testing
