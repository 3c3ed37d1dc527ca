#include "tools/schema_maker/leading_texts.hpp"

namespace dullcast::schema_maker {

namespace {

const char* whole_scenario = R"(
title: leads everywhere
bit:
  like: four_blade_7_7_8
  diameter: 200 mm
  cutter: {size: 1613}
  cutter_kinds: {shoulder: {size: 1308}}
  fitted: [{cutters: [7], kind: shoulder}]
  ports: {count: 4, diameter: 10 mm}
  blade: {height: 30 mm, thickness: 22 mm}
  gauge_pads: {length: 50 mm, width: 22 mm}
  blades: {cutters_per_blade: [5, 4, 5, 4], wing_twist: [35 deg, 45 mm, 0 deg, 0 deg], kinds: [{from: 0.7, kind: shoulder}]}
  starting_damage: [0.1]
  starting_chip_hazard: [0.1]
fluid: {name: water}
string: {pipe_diameter: 90 mm}
pump: {pressure_limit: 10 bar}
plan: [{to: 9 m, weight_on_bit: 6000 lbf, rotary_speed: 85 rpm, flow: 60 gal/min}]
upsets: [{from: 3 m, lasts: 30 s, pump: "off"}, {from: 4 m, lasts: 30 s, hole: 2, flow: 1 gal/min}]
column: {layers: [{rock: shale, thickness: 9 m}]}
repeat: {holes: 2}
rework: {worn_height: 2 mm}
costs: {bit: 1900 $}
other_method: {name: air hammer, rate_of_penetration: 12 m/h}
chance: {draw: yes, seed: 7}
stepping: {output_every: 2 m}
learned:
  inspected_bits: 40
  together: {numbers: [abrasion_coefficient, "rock shale: density"], correlation: [[1], [0.2, 1]]}
  rocks: {shale: {density: 2400 kg/m3}}
  grades: {standard: {like: premium}}
  lots: {sound: {like: mixed}}
  bodies: {steel: {like: matrix}}
  fluids: {water: {like: air}}
  bits: {ours: {diameter: 200 mm}}
  models: {flat_friction: 0.4}
calibrate_from: {scenario: ordinary_well.yaml, holes: 2, worn_height: [0.4 mm]}
rocks: {ours: {like: shale}}
grades: {ours: {like: standard}}
lots: {ours: {like: sound}}
bodies: {ours: {like: steel}}
fluids: {ours: {like: water}}
bits: {ours: {diameter: 200 mm}}
models: {flat_friction: {central: 0.4}}
)";

const char* listed_bit = R"(
bit:
  name: listed
  diameter: 200 mm
  cutter: {diameter: 16 mm, length: 13 mm, chamfer: 0.4 mm x 45 deg}
  cutters: [{radius: 20 mm, azimuth: 0 deg, back_rake: 15 deg}]
  blades: {wing_twist: 35 deg}
  continues: ../results/earlier.h5
  starting_wear: [0.1 mm]
  starting_damage: 0.1
  starting_chip_hazard: 0.1
  rebuilt: {new_cutters: [1]}
fluid: water
chance: drawn
)";

const char* whole_sweep = R"(
scenario: field_of_forty_wells.yaml
factors:
  - {name: speed, path: plan.*.rotary_speed, from: 60 rpm, to: 90 rpm, steps: 3}
  - {name: grade, paths: [bit.grade], values: [standard, premium]}
  - {name: flow, path: plan.*.flow, from: 0.8, to: 1.2, multiply: yes}
  - {name: both, linked: [{path: plan.*.flow, values: [60 gal/min]}, {path: plan.*.rotary_speed, from: 60 rpm, to: 70 rpm, steps: 3, name: n}]}
design: {kind: latin_hypercube, points: 8, with_uncertain: yes}
draws:
  runs: 2
  values:
    - {number: flat_friction, source: x}
    - {number: flat_friction, kind: fixed, value: 0.4, source: x}
    - {number: flat_friction, kind: normal, mean: 0.4, deviation: 0.1, source: x}
    - {number: flat_friction, kind: lognormal, median: 0.4, spread: 0.1, source: x}
    - {number: flat_friction, kind: uniform, from: 0.4, to: 0.5, source: x}
    - {number: flat_friction, kind: triangular, least: 0.4, likeliest: 0.5, most: 0.6, source: x}
    - {path: repeat.trip_time, kind: percentiles, p10: 1 h, p50: 2 h, p90: 3 h, source: x}
  layers: {strength_spread: 0.1, source: x}
  lenses: [{rock: gravel, mean_spacing: 20 m, thickness: {kind: uniform, from: 1 m, to: 2 m}, source: x},
           {rock: gravel, mean_spacing: 20 m, thickness: {kind: lognormal, median: 1 m, spread: 0.2}, source: x},
           {rock: gravel, mean_spacing: 20 m, thickness: {kind: normal, mean: 1 m, deviation: 1 m}, source: x},
           {rock: gravel, mean_spacing: 20 m, thickness: {kind: triangular, least: 1 m, likeliest: 2 m, most: 3 m}, source: x},
           {rock: gravel, mean_spacing: 20 m, thickness: {kind: percentiles, p10: 1 m, p50: 2 m, p90: 3 m}, source: x},
           {rock: gravel, mean_spacing: 20 m, thickness: {kind: fixed, value: 1 m}, source: x},
           {rock: gravel, in: [shale], mean_spacing: 20 m, thickness: 1 m, source: x}]
histories: {cases: [1], every: 10, rows: 100}
)";
const char* other_designs[] = {
    "scenario: field_of_forty_wells.yaml\ndesign: {kind: grid}\n",
    "scenario: field_of_forty_wells.yaml\ndesign: {kind: table, file: none.csv}\n",
    "scenario: field_of_forty_wells.yaml\ndesign: {kind: sobol_sequence, points: 8}\n",
    "scenario: field_of_forty_wells.yaml\ndesign: {kind: elementary_effects, walks: 8, levels: 4}\n",
    "scenario: field_of_forty_wells.yaml\ndesign: {kind: variance_shares, points: 8}\n",
};

const char* whole_shop = R"(
title: leads everywhere
time_zone: America/Winnipeg
from: 2031-11-03
to: 2031-11-30
shop:
  shifts: [monday to friday 07:00 to 15:30, {days: [saturday], from: "07:00", to: "12:00"}]
  holidays: [2031-11-11]
  stations:
    - {name: wash, works_on: every bit, time: 45 min}
    - {name: braze, works_on: cutters, takes_cutters: yes, time_a_piece: {low: 5 min, central: 6 min, high: 9 min}}
  cutters: [{cutter: big, diameter: 16 mm, grade: standard, on_hand: 40, lead_time: {low: 5 d, central: 6 d, high: 9 d}}]
rigs: [{name: Heron, shifts: [every day 08:00 to 18:00], travel: {low: 1 h, central: 2 h, high: 3 h}}]
designs: [{name: four, bit: {like: four_blade_7_7_8}, lead_time: {low: 20 d, central: 30 d, high: 40 d}}]
bits:
  - {bit: K-1, design: four}
  - {bit: K-2, design: four, at: Heron}
  - {bit: K-3, design: four, starting_wear: 0.5 mm, rebuilt: {new_cutters: [1]}}
  - {bit: K-4, design: four, result: ../results/none.h5}
  - {bit: K-5, design: four, shelf: shelf_of_forty_bits.csv}
holes:
  - {hole: N-1, rig: Heron, begins: 2031-11-05, scenario: ordinary_well.yaml, design: four, drilled: shale 30 m}
changes: {more_shift: {name: saturday, shifts: [saturday 07:00 to 12:00]}}
grades: {ours: {like: standard}}
lots: {ours: {like: sound}}
bodies: {ours: {like: steel}}
)";

const char* whole_shelf = R"(
title: leads everywhere
shared: {scenario: ordinary_well.yaml}
shelf:
  - {bit: K-17, scenario: ordinary_well.yaml, holes: 6, drilled: shale 300 m; sandstone 120 m, outer_grade: 2}
  - {bit: K-18, scenario: ordinary_well.yaml, cutters: [0.1 mm, new], photos: [a, b], repairs: none}
)";

}  // namespace

std::vector<std::string> leading_texts(Kind kind) {
  switch (kind) {
    case Kind::scenario:
      return {whole_scenario, listed_bit};
    case Kind::sweep_plan: {
      std::vector<std::string> texts(std::begin(other_designs), std::end(other_designs));
      texts.emplace_back(whole_sweep);
      return texts;
    }
    case Kind::shop_plan:
      return {whole_shop};
    case Kind::shelf:
      return {whole_shelf};
  }
  return {};
}

}  // namespace dullcast::schema_maker
