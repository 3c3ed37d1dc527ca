#pragma once

#include <string>

#include "engine/shop/plan_texts.hpp"
#include "tools/commands/program.hpp"

/// A season of an invented shop with its tables, as an office keeps them.
namespace dullcast::testing {

// @ stands for the folder of the scenarios that come with the program.
inline const char* season_plan = R"(title: "a season"
time_zone: America/Winnipeg
from: 2031-11-03
to: 2032-04-30
futures: 200
seed: 1
shop:
  shifts: [monday to friday 07:00 to 15:30]
  holidays: [2031-11-11, 2031-12-24 to 2032-01-02, 2032-02-16, 2032-03-26]
  order: needed first
  stations:
    - {name: wash and inspect, works_on: every bit, time: {low: 30 min, central: 45 min, high: 90 min}}
    - {name: de-braze, works_on: cutters, time: 40 min, time_a_piece: {low: 3 min, central: 4 min, high: 8 min}}
    - {name: pocket repair, works_on: pockets, time: 30 min, time_a_piece: {low: 15 min, central: 25 min, high: 45 min}}
    - name: braze
      benches: 1
      works_on: cutters
      takes_cutters: yes
      time: {low: 45 min, central: 60 min, high: 90 min}
      time_a_piece: {low: 8 min, central: 11 min, high: 18 min}
      shifts: [tuesday and thursday 07:00 to 12:00]
    - {name: grind and check, works_on: cutters, time: 45 min, time_a_piece: {low: 5 min, central: 7 min, high: 12 min}}
  cutters: cutters.csv
rigs:
  - {name: Heron, shifts: [monday to friday 07:00 to 17:00], travel: 2 h, asks_ahead: 1 d}
  - {name: Marten, shifts: [monday to saturday 07:00 to 17:00], travel: 4 h, asks_ahead: 1 d}
  - {name: Badger, shifts: [monday to saturday 06:00 to 18:00], travel: 6 h, asks_ahead: 2 d, holidays: [2031-12-24 to 2032-01-02]}
  - {name: Otter, shifts: [monday to friday 08:00 to 18:00], travel: 3 h, asks_ahead: 1 d}
  - {name: Wren, shifts: [{days: monday to friday, from: "08:00", to: "16:00"}], travel: 2 h}
designs:
  - {name: four blade, bit: {like: four_blade_7_7_8, grade: standard}, lead_time: {low: 25 d, central: 35 d, high: 60 d}}
  - {name: five blade, bit: {like: five_blade_8_1_2, grade: standard}, lead_time: {low: 30 d, central: 45 d, high: 70 d}}
  - {name: three blade, bit: {like: three_blade_3_3_4, grade: standard}, lead_time: {low: 20 d, central: 30 d, high: 45 d}}
bits: bits.csv
holes: holes.csv
changes:
  one_more_bench: yes
  one_more_bit: yes
  more_shift: {name: saturday, shifts: [saturday 07:00 to 12:00]}
early_pulls: 3
)";

inline const char* season_bits = R"(bit,design,at,from,shelf,record,starting wear (mm),starting chipped
LM-138,four blade,shop,,@/shelf_of_forty_bits.csv,,,
LM-141,four blade,Heron,,,,,
LM-142,four blade,shop,,,,,
LM-143,four blade,shop,,,,0.6,
LM-144,four blade,Otter,,,,0.1; 0.1; 0.1; 0.2; 0.2; 0.2; 0.3; 0.3; 0.4; 0.5; 0.6; 0.7; 0.8; 0.9; 1.2; 1.3; 1.1; 1.2,15
LM-145,four blade,shop,2032-01-12,,,,
LM-136,five blade,Marten,,@/shelf_of_forty_bits.csv,,,
LW-21,five blade,shop,,,,,
LW-22,five blade,shop,,,,0.8,
LP-1,three blade,Wren,,,,,
LP-2,three blade,shop,,,,0.5,
LP-3,three blade,shop,,,,,
)";

inline const char* season_holes = R"(hole,rig,begins,scenario,design,bit,drilled,rotary speed (rpm)
R-33,Badger,2032-04-28,@/ridge_well.yaml,four blade,,shale 8 m; sandstone 50 m; hard_sandstone 12 m,
W-01,Heron,2031-11-04,@/ordinary_well.yaml,four blade,,,
B-01,Marten,2031-11-05,@/wide_well.yaml,five blade,,,
P-01,Wren,2031-11-06,@/pilot_hole.yaml,three blade,,,
W-03,Heron,2031-11-17,@/ordinary_well.yaml,four blade,,clay 4 m; shale 52 m; sandstone 34 m,
B-04,Marten,2031-12-09 12:00,@/wide_well.yaml,five blade,,,
B-08,Marten,2032-01-26,@/wide_well.yaml,five blade,,,
B-09,Marten,2032-02-04,@/wide_well.yaml,five blade,LM-136,shale 55 m; limestone 20 m; sandstone 40 m,
R-06,Otter,2032-02-09,@/ridge_well.yaml,four blade,,,65
)";

inline const char* season_cutters = R"(cutter,diameter (mm),grade,on hand,reorder at,order,lead time (d)
1613 standard,16,standard,90,48,72,14; 21; 42
1308 standard,13,standard,24,12,24,14; 21; 42
)";

inline std::string with_folder(std::string text) {
  const std::string folder = std::string(DULLCAST_SOURCE_DIR) + "/scenarios";
  for (auto at = text.find('@'); at != std::string::npos; at = text.find('@')) text.replace(at, 1, folder);
  return text;
}

/// The season, read once.
inline const shop::ShopPlan& season() {
  static const shop::ShopPlan plan = [] {
    const Scratch scratch;
    const std::string file = scratch.write("season.yaml", season_plan);
    scratch.write("bits.csv", with_folder(season_bits));
    scratch.write("holes.csv", with_folder(season_holes));
    scratch.write("cutters.csv", season_cutters);
    std::vector<input::Warning> warnings;
    shop::ShopPlan read = shop::read_shop_plan(file, plan_scenarios(), warnings);
    if (!warnings.empty()) throw std::runtime_error(warnings.front().message());
    return read;
  }();
  return plan;
}

}  // namespace dullcast::testing
