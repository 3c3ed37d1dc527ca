#pragma once

#include <string>
#include <vector>

#include "engine/scenario/scenario.hpp"
#include "solver_proof/exact_run.hpp"

namespace dullcast::testing {

/// How far one run is from the exact one: the worst of all cutters and all times compared.
struct Errors {
  std::string who;  // "engine" or "CVODE"
  double tolerance = 0.0;
  long steps = 0, right_hand_sides = 0;
  double worn = 0.0;          // m
  double cutters = 0.0;       // K: tables and carbides, by the contact
  double flats = 0.0;         // K: flats, away from changes of settings, where they leap
  double surroundings = 0.0;  // K: body, fluid, warm rock
  double between = 0.0;       // K: any of these in rows between two steps, on the engine's straight line
  double fills = 0.0;         // 1: water, a tenth of it counting as DrillingSystem's scale does, and solids
  double damage = 0.0;        // 1
  double event_time = 0.0;    // s
  double event_depth = 0.0;   // m
  double energy = 0.0;        // 1: work done to the end
  double energy_gap = 0.0;    // 1: the books' gap over the work
  double seconds = 0.0;       // of processor
  int rows = 0, events = 0;   // compared
};

/// Runs of one scenario by the engine, at falling tolerances, against CVODE's.
struct WorkPrecision {
  std::string name;
  ExactRun exact;
  double greatest_wear = 0.0;         // m, at the end
  std::vector<Errors> engine, cvode;  // one for each tolerance
};

/// Every step's end is compared, and rows at even depths between them. A tolerance whose run has other events
/// than CVODE's is a test failure.
WorkPrecision work_precision(const std::string& name, const scenario::Scenario& scenario,
                             const std::vector<double>& engine_tolerances,
                             const std::vector<double>& cvode_tolerances, double exact_tolerance);

void print(const WorkPrecision& table);

}  // namespace dullcast::testing
