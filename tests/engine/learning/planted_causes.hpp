#pragma once

#include <cmath>
#include <string>

#include "engine/analysis/drawn_band.hpp"
#include "engine/learning/cause_odds.hpp"
#include "engine/learning/planted_shelf.hpp"

/// Synthetic bits of known cause: drilled by the engine with drawn numbers and one level of a cause, then
/// read as an inspector reads them. Every number is invented.
namespace dullcast::testing {

/// Two short holes that a small bit drills without much harm, but near enough to it that what goes
/// otherwise hurts. Numbers of wear, heat, edges and seats are uncertain.
inline scenario::Scenario told_run() {
  scenario::Scenario s = fleet_run(1);
  s.repeat.connection_time = 0.0;
  s.repeat.holes = 2;
  s.plan[0].weight_on_bit = 28e3;
  s.plan[0].rotary_speed = 1.8;
  s.column.layers[0].rock.unconfined_strength = samples::exactly(120e6);
  s.bit.kinds.front().grade.edge_strength = spread_between(1.95e9, 2.1e9, 2.25e9);
  s.bit.lot.strength_spread = samples::exactly(0.3);
  s.numbers.braze_strength = spread_between(110e6, 130e6, 150e6);
  s.numbers.abrasion_coefficient = spread_between(0.5e-15, 1e-15, 2e-15);
  s.numbers.damage_seconds_at_750 = spread_between(20.0, 60.0, 180.0);
  s.numbers.flat_friction = spread_between(0.36, 0.4, 0.44);
  return s;
}

/// Truth is drawn by seeds that no analysis uses.
inline scenario::ShelvedBit planted_bit(const std::vector<learning::Cause>& causes, std::size_t cause,
                                        std::size_t level, std::uint64_t seed) {
  scenario::ShelvedBit bit;
  bit.run = told_run();
  bit.found.bit = causes[cause].name + " " + std::to_string(seed);
  scenario::Scenario truth = analysis::drawn_scenario(bit.run, 100'000 + static_cast<int>(seed));
  truth.repeat = bit.run.repeat;
  causes[cause].levels[level].change(truth);
  const learning::PredictedBit drilled = learning::predict(truth);
  learning::ReadingLaw law;
  Drawing draw(7'000 + seed);
  const std::string name = bit.found.bit;
  bit.found = read_off(drilled, law, true, draw);
  bit.found.bit = name;
  const double spread = drilled.strength_spread;
  for (Eigen::Index i = 0; i < drilled.radius.size(); ++i) {
    scenario::CutterSeen& cutter = bit.found.cutters[static_cast<std::size_t>(i)];
    const double heat =
        (drilled.logs(i, learning::heat_damage) - std::log(law.heat_check_damage)) / law.heat_check_spread;
    cutter.heat_checked = draw.normal() < heat;
    cutter.lost = draw.normal() < drilled.logs(i, learning::pocket_load) / spread;
    cutter.table_gone = !cutter.lost && draw.normal() < drilled.logs(i, learning::bond_load) / spread;
  }
  return bit;
}

}  // namespace dullcast::testing
