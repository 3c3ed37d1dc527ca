#pragma once

#include "support/short_scenario.hpp"

/// A small bit with prices, in a short hole whose outcome no chance decides. Every number is invented.
namespace dullcast::testing {

/// Seven cutters that stand out by 6 mm, replaced once worn by half of 2 mm; a rework is 100, a cutter 38, a
/// pocket 22, a new bit 1900, the rig 36 an hour. Nothing breaks.
inline scenario::Scenario priced_bit() {
  scenario::Scenario s = short_scenario();
  s.bit.layout.exposure.setConstant(6e-3);
  s.rules = {};
  s.rules.worn_height = 2e-3;
  s.costs.rework = 100.0;
  s.costs.cutter = 38.0;
  s.costs.pocket = 22.0;
  s.costs.replacement = 1900.0;
  s.costs.rig_per_second = 0.01;
  s.numbers.braze_strength = samples::exactly(1e12);
  s.bit.kinds.front().grade.bond_strength = samples::exactly(1e12);
  s.bit.kinds.front().grade.edge_strength = samples::exactly(1e12);
  s.bit.body.strength = samples::exactly(1e12);
  s.stepping.relative_tolerance = 1e-2;
  return s;
}

}  // namespace dullcast::testing
