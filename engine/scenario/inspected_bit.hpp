#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/scenario/scenario.hpp"

/// What a shop writes down of a bit that came back: what it drilled and what was found on it.
namespace dullcast::scenario {

/// What was seen of one cutter. All that is not said was not looked at or not found.
struct CutterSeen {
  std::optional<double> worn_height;  // m, where wear alone made it
  bool at_least = false;    // worn_height is the least that it may be: the calliper reached no further
  bool renewed = false;     // a new cutter at the inspection: says nothing of wear
  bool lost = false;        // gone from its pocket
  bool table_gone = false;  // its diamond is gone from the carbide
  bool chipped = false;
  bool heat_checked = false;  // cracked by heat
  /// A height that wear alone has made.
  bool tells_wear() const { return worn_height && !renewed && !lost && !table_gone && !chipped; }
};

/// A dull grade as it was read: the worn share of a zone lies somewhere between two of its eight steps.
struct GradeSeen {
  double grade = 0.0;     // 0..8
  bool at_least = false;  // that much or more
};

/// What a bit drilled in one rock, all holes together.
struct RockDrilled {
  std::string rock;
  double length = 0.0;  // m
};

struct InspectedBit {
  std::string bit;        // the shop's own name of it
  std::string inspected;  // the day, ISO 8601 (2031-04-17); empty where not said
  std::string lot;        // of its cutters; empty: that of its scenario
  // What it did:
  std::string scenario_file;            // that its run is made from, seen from where the program runs
  double holes = 1.0;                   // that it drilled
  std::vector<RockDrilled> drilled;     // in place of the scenario's column; empty: as the scenario has it
  std::optional<double> weight_on_bit;  // N, in place of the scenario's plan
  std::optional<double> rotary_speed;   // rev/s
  std::optional<double> flow;           // m3/s
  // What was found on it:
  std::optional<GradeSeen> inner_grade, outer_grade;
  std::vector<CutterSeen> cutters;  // from the axis outward; empty: not looked at one by one
  bool breakage_noted = true;       // whether one that is not marked in `cutters` was seen to be whole
  std::optional<int> chipped, lost, heat_checked;  // cutters, where only counted
  // What a dull grading says beside its grades; `some_` where it tells that there are some, not how many.
  bool some_chipped = false, some_lost = false, some_heat_checked = false, some_bared = false;
  std::vector<std::string> characteristics;  // in words: "worn cutters", "ring out"
  std::string graded_where;                  // in words: "shoulder"
  std::optional<double> gauge_loss;          // m, of the hole's diameter; 0: in gauge
  std::string reason_pulled;                 // in words: "total depth"
  std::string pockets, body;                 // their condition in the inspector's words
  std::vector<std::string> repairs, photos;
  std::string note;
  double measurement_error = 1e-4;  // m, one standard deviation of a calliper's reading [asm]
  Location location;
};

/// One record of a shelf, ready to be drilled again: `run` is the scenario of what the bit did, with no
/// chance drawn, no rule that ends it early and no rows.
struct ShelvedBit {
  InspectedBit found;
  Scenario run;
};

}  // namespace dullcast::scenario
