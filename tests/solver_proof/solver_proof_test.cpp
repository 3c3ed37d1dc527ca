// Whole runs solved twice: by the engine's linearly implicit stepper with its watches and its drive, and by
// CVODE (SUNDIALS; Hindmarsh et al., ACM TOMS 31(3), 2005), a general solver for stiff systems, at a relative
// tolerance of 1e-10. They share the right-hand side, the schedule of what the driller does and the rested
// bit, and nothing else: CVODE has its own steps, its own matrix and its own roots for every event.
//
// Proved here:
// - Worn heights, temperatures, water and solids, heat damage, and the depths and times of all events agree
// to
//   the tolerance asked for, from 1e-2 to 1e-6, and converge as it tightens. Every step's end is compared.
// - Both have the same events in the same number.
// - The power ledger closes to rounding at states that CVODE comes to, its energies to its tolerance, and the
//   engine's books and work to the tolerance asked for.
// - CVODE's own answer is settled far below what is compared with it.
// Beside it, stepper_order_test.cpp measures the stepper's order where the system is smooth, and what the
// right-hand side's own root finding adds.
//
// What "the tolerance" means: the stepper holds the error of each step to the tolerance times
// DrillingSystem::error_scale (100 K, 1 mm, 1 m, 0.1 of the water). Over a run errors add up or die away:
// - Temperatures of a table or a carbide: 60 steps' worth. Where a surface passes its critical heat flux the
//   boiling curve falls, so a small difference in temperature grows on the way to the film; the worst errors
//   stand there and nowhere else. Times count from the last change of rock or settings: a change that comes
//   late makes all that follows late, and stands under the events' times.
// - Body, fluid and rock, water and solids, damage, which only sum up: 10 steps' worth.
// - Worn heights: twice the tolerance times the greatest worn height.
// - Events: the tolerance times 1 m (ten times that where slots pack: when they are clear again is a matter
// of how
//   they had filled) and times the run's length; work and books: the tolerance times the work.
// Leaps of the chip hazard are left out: nothing follows from them (tests/engine/run holds them).
//
// Where these factors do not hold (measured): a worn cutter that creeps up to its critical heat flux and only
// just passes it stands near a fold of the boiling curve, and when it leaps hangs on the last digits. At 1e-3
// such a leap came some three seconds late after four minutes, with 25 K for as long; worn heights were still
// right to 4e-5 of the greatest.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <string>
#include <vector>

#include "engine/input/scenario_reader.hpp"
#include "engine/simulation/outcome_views.hpp"
#include "solver_proof/work_precision.hpp"
#include "support/short_scenario.hpp"

namespace dullcast::solver_proof {
namespace {

using samples::exactly;
using samples::invented_rock;
using testing::Errors;
using testing::flow_falls;
using testing::WorkPrecision;

constexpr double exact_tolerance = 1e-10;
const std::vector<double> engine_tolerances{1e-2, 1e-3, 1e-4, 1e-5, 1e-6};
// CVODE three times as loose shows how settled the exact run is.
constexpr double settled_tolerance = 3e-10;

/// Two holes through four layers, a rod every two metres with the pump on.
scenario::Scenario layers_and_rods() {
  scenario::Scenario s = testing::short_scenario();
  s.numbers.abrasion_coefficient = samples::exactly(2e-15);
  s.column.layers.clear();
  s.column.layers.push_back({0.0, 1.5, samples::invented_rock("shale", 30e6, 0.6), 0.0, {}});
  s.column.layers.push_back({1.5, 3.2, samples::invented_rock("limestone", 80e6, 1.0), 0.0, {}});
  s.column.layers.push_back({3.2, 4.5, samples::invented_rock("hard stringer", 110e6, 2.0), 0.0, {}});
  s.column.layers.push_back({4.5, 6.0, samples::invented_rock("sandstone", 50e6, 2.5), 0.0, {}});
  s.plan[0].to = 6.0;
  s.repeat.holes = 2;
  s.repeat.pump_at_connections = true;
  s.rules.worn_height = 0.3e-3;
  s.stepping.output_every = 0.7;
  return s;
}

/// A bit of the library, twenty-two cutters, in a scenario that users start from; the pump stops at rods.
scenario::Scenario shallow_well() {
  const std::string scenarios = std::string(DULLCAST_SOURCE_DIR) + "/scenarios";
  std::vector<input::Warning> warnings;
  scenario::Scenario s =
      input::read_scenario(scenarios + "/one_shallow_well.yaml", scenarios + "/library", {}, warnings);
  s.stepping.output_every = 0.0;
  return s;
}

/// The pump stops for 25 s under a bit that is pushed hard through granite.
scenario::Scenario pump_stop() {
  scenario::Scenario s = testing::short_scenario();
  testing::give_one_layer(s, 3.0, samples::invented_rock("granite", 180e6, 4.5));
  s.plan[0].weight_on_bit = 26e3;
  s.plan[0].rotary_speed = 2.5;
  s.numbers.abrasion_coefficient = samples::exactly(2e-16);
  s.rules.worn_height = 0.05e-3;
  s.upsets = {testing::flow_falls(1.0, 25.0, 0.0)};
  return s;
}

/// Nobody sees for twenty minutes that the pump has stopped, and no water stands in the hole.
scenario::Scenario runs_dry() {
  scenario::Scenario s = testing::even_hole(4.0);
  s.numbers.abrasion_coefficient = samples::exactly(3e-16);
  s.column.water_level = 100.0;
  // Seats that hold whatever comes.
  s.numbers.braze_strength = s.bit.kinds.front().grade.bond_strength = s.bit.body.strength =
      samples::exactly(1e12);
  s.upsets = {testing::flow_falls(2.0, 1200.0, 0.0)};
  return s;
}

/// Without any flow in hard granite, until heat has ruined two tables.
scenario::Scenario burning() {
  scenario::Scenario s = testing::burning_scenario();
  testing::give_one_layer(s, 0.16, s.column.layers[0].rock);
  return s;
}

/// The worst error of all in steps' worth of a tolerance of 1 (DrillingSystem::error_scale).
double worst(const Errors& e) {
  return std::max({e.worn / 1e-3, e.cutters / 100.0, e.surroundings / 100.0, e.fills / 0.1, e.damage,
                   e.event_depth / 1.0});
}

/// Slope of ln(worst error) over ln(tolerance), least squares: 1 where errors fall in proportion.
double convergence(const std::vector<Errors>& list) {
  double x = 0.0, y = 0.0, xx = 0.0, xy = 0.0;
  const auto n = static_cast<double>(list.size());
  for (const Errors& e : list) {
    const double u = std::log(e.tolerance), v = std::log(worst(e));
    x += u / n, y += v / n, xx += u * u / n, xy += u * v / n;
  }
  return (xy - x * y) / (xx - x * x);
}

bool has(const WorkPrecision& table, simulation::EventKind kind) {
  return std::any_of(table.exact.events.begin(), table.exact.events.end(),
                     [kind](const testing::Happened& event) { return event.kind == kind; });
}

void hold_to_the_tolerance(const WorkPrecision& table) {
  constexpr double leaping = 60.0, summing = 10.0;  // steps' worth, see above
  double whole = 0.0;
  for (const testing::Happened& event : table.exact.events) whole = std::max(whole, event.time);
  long last_right_hand_sides = 0;
  for (const Errors& e : table.engine) {
    const double tolerance = e.tolerance;
    SCOPED_TRACE(table.name + " at " + std::to_string(tolerance));
    EXPECT_LT(e.worn, 2.0 * tolerance * table.greatest_wear);
    EXPECT_LT(e.cutters, leaping * tolerance * 100.0);
    EXPECT_LT(e.flats, leaping * tolerance * 100.0);
    EXPECT_LT(e.between, leaping * tolerance * 100.0);
    // A bottom without water holds a twentieth of its heat, and leaps as cutters do.
    EXPECT_LT(e.surroundings,
              (has(table, simulation::EventKind::runs_dry) ? leaping : summing) * tolerance * 100.0);
    // Slots that pack fill within a second, with the depth of cut falling as they do: a leap, too.
    EXPECT_LT(e.fills, (has(table, simulation::EventKind::slots_pack) ? leaping : summing) * tolerance * 0.1);
    EXPECT_LT(e.damage, summing * tolerance * 1.0);
    EXPECT_LT(e.event_depth,
              (has(table, simulation::EventKind::slots_pack) ? summing : 1.0) * tolerance * 1.0);
    EXPECT_LT(e.event_time, tolerance * whole);
    EXPECT_LT(e.energy, tolerance);
    EXPECT_LT(e.energy_gap, tolerance);
    EXPECT_GT(e.rows, 50);
    EXPECT_GT(e.right_hand_sides, last_right_hand_sides);
    last_right_hand_sides = e.right_hand_sides;
  }
  // The embedded error is of the step's cube, and so is a third-order method's error over a run: in
  // proportion to the tolerance, less where the step is long against the heat (stepper_order_test.cpp).
  EXPECT_GT(convergence(table.engine), 0.8) << table.name;
  // Worn heights and times begin far below the tolerance, so that they have less to fall; they fall all the
  // same, over four powers of ten, or to what is left of the depth of cut's own rounding.
  const Errors &loose = table.engine.front(), &tight = table.engine.back();
  EXPECT_LT(tight.worn, std::max(loose.worn / 25.0, 1e-13)) << table.name;
  EXPECT_LT(tight.event_time, loose.event_time / 30.0) << table.name;
}

void hold_cvode(const WorkPrecision& table) {
  // Three times as loose, CVODE is already nearer than what the engine is held to at its tightest.
  const Errors& looser = table.cvode.back();
  constexpr double tightest = 1e-6;
  EXPECT_LT(looser.worn, tightest * table.greatest_wear) << table.name;
  EXPECT_LT(looser.cutters, 0.1 * 40.0 * tightest * 100.0) << table.name;
  EXPECT_LT(looser.surroundings, 10.0 * tightest * 100.0) << table.name;
  EXPECT_LT(looser.event_depth, 0.1 * tightest * 1.0) << table.name;
  // Each flow is known to 1e-16 of itself and some fifty are summed.
  EXPECT_LT(table.exact.power_gap, 1e-13) << table.name;
  // Energies do not steer the steps; what is left is how well the steps integrate them and the stored heat's
  // own trapezoids (drilling_heat.cpp).
  EXPECT_LT(std::abs(table.exact.energy_gap), 1e-8 * table.exact.energy_spent) << table.name;
}

/// `cvode_tolerances`: where CVODE is run beside it, for the table.
WorkPrecision hold(const char* name, const scenario::Scenario& scenario,
                   std::vector<double> cvode_tolerances = {}) {
  cvode_tolerances.push_back(settled_tolerance);
  WorkPrecision table =
      testing::work_precision(name, scenario, engine_tolerances, cvode_tolerances, exact_tolerance);
  print(table);
  std::printf("  errors fall with the tolerance to the power %.2f\n", convergence(table.engine));
  hold_to_the_tolerance(table);
  hold_cvode(table);
  return table;
}

TEST(SolverProof, LayersAndRods) {
  const WorkPrecision table = hold("Layers and rods, two holes", layers_and_rods(), {1e-6});
  EXPECT_TRUE(has(table, simulation::EventKind::rework_due));
  EXPECT_GT(table.engine[0].between, 0.0) << "rows between steps were compared";
}

TEST(SolverProof, AScenarioOfTheLibrary) {
  const WorkPrecision table = hold("A shallow well of the library", shallow_well());
  EXPECT_GE(table.exact.pieces, 8) << "rods are added with the pump off";
}

TEST(SolverProof, APumpStopWithAFilmOfSteam) {
  const WorkPrecision table = hold("A pump stop in granite", pump_stop(), {1e-4, 1e-6});
  for (const simulation::EventKind kind :
       {simulation::EventKind::slots_pack, simulation::EventKind::film_forms,
        simulation::EventKind::slots_clear, simulation::EventKind::surface_rewets,
        simulation::EventKind::rework_due})
    EXPECT_TRUE(has(table, kind)) << simulation::event_name(kind);
}

TEST(SolverProof, AHoleThatRunsDry) {
  const WorkPrecision table = hold("A hole that runs dry", runs_dry());
  for (const simulation::EventKind kind :
       {simulation::EventKind::fluid_boils, simulation::EventKind::runs_dry,
        simulation::EventKind::surface_rewets})
    EXPECT_TRUE(has(table, kind)) << simulation::event_name(kind);
}

TEST(SolverProof, TablesThatBurn) {
  const WorkPrecision table = hold("Tables that burn", burning());
  EXPECT_TRUE(has(table, simulation::EventKind::table_ruined));
}

}  // namespace
}  // namespace dullcast::solver_proof
