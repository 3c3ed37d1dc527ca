#pragma once

#include <vector>

#include "engine/scenario/scenario.hpp"
#include "engine/simulation/drilling_system.hpp"
#include "engine/simulation/outcome.hpp"

namespace dullcast::testing {

/// A time at which the state is asked for, on the clock of one piece of the run. A piece is what is drilled
/// (or waited) in one layer under one rotary speed and flow. Where a piece begins late, all that follows is
/// late with it: that is an error of the event's time, not of the temperatures after it.
struct AskedTime {
  int piece = 0;       // counted from 0
  double since = 0.0;  // s since it began
};

/// What the bit was like then.
struct Seen {
  simulation::State x;
  Eigen::ArrayXd flat_temperature;  // K
  double to_ruin = 0.0;             // s to the nearest ruin of a table, where flats' temperatures leap
};

/// Something that happened, as the engine's events have it.
struct Happened {
  simulation::EventKind kind = simulation::EventKind::layer_entered;
  int hole = 0;
  double time = 0.0, depth = 0.0;  // s, m
};

/// A whole run as CVODE has it.
struct ExactRun {
  std::vector<Happened> events;
  int pieces = 0;
  std::vector<Seen> seen;  // one for each time asked for, in that order
  simulation::State end;
  long steps = 0, right_hand_sides = 0;
  double energy_spent = 0.0;  // J at the bit
  double energy_gap = 0.0;    // J: work spent less heat carried off, left in the rock and stored
  double power_gap = 0.0;     // 1, greatest ledger_gap (bench.hpp) at the times asked for
  double seconds = 0.0;       // of processor
};

/// Drills all holes of a scenario. Only the right-hand side, the schedule of what the driller does and the
/// state of a rested bit are the engine's. Each step is held to `tolerance` (|x| + error scale of
/// DrillingSystem); the rest is CVODE's: it stops at the schedule's times, and finds by its own roots the
/// depths of layers and of changes, worn height reaching its rule, ruined tables, boiling, films, packed
/// slots, the last water and blades that bear. `asked` is in order of pieces and time; a time past
/// a piece's end is given the state there. Chip hazards take no leaps here.
/// Throws for what it doesn't know: drawn chance, bits with lost cutters.
ExactRun drill_exactly(const scenario::Scenario& scenario, double tolerance,
                       const std::vector<AskedTime>& asked);

}  // namespace dullcast::testing
