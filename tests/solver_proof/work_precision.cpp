#include "solver_proof/work_precision.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <ctime>
#include <map>
#include <tuple>

#include "engine/simulation/run.hpp"

namespace dullcast::testing {
namespace {

void worse(double& worst, double value) {
  if (!std::isnan(worst) && !(value <= worst)) worst = value;  // a NaN stays
}

/// A mishap that changes nothing: while one goes on, the history has a row at every step's end.
scenario::Scenario with_every_step_kept(scenario::Scenario scenario) {
  scenario::Upset nothing;
  nothing.from = scenario.column.layers.front().top;
  nothing.hole = -1;
  nothing.lasts = 1e8;
  scenario.upsets.push_back(nothing);
  scenario.stepping.warming = scenario::Warming::followed;  // heat in time is what is proved
  // Between steps no rows but those that are asked for.
  if (!scenario.stepping.output_every) scenario.stepping.output_every = 0.0;
  return scenario;
}

/// Rows that are made between steps stand at whole multiples of the spacing below the layer's top; at a
/// step's end that happens only by chance.
bool is_between_steps(const simulation::HistoryRow& row, const scenario::Scenario& scenario) {
  const double spacing = scenario.stepping.output_every.value_or(0.0);
  if (!(spacing > 0.0)) return false;
  const double top = scenario.column.layers[static_cast<std::size_t>(row.layer)].top;
  const double rows = (row.depth - top) / spacing;
  return rows > 0.5 && std::abs(rows - std::round(rows)) < 1e-7;
}

/// A row of a run on the clock of its piece (AskedTime). The row before a change of settings stands at it.
struct TimedRow {
  simulation::HistoryRow row;
  AskedTime when;
};

std::vector<TimedRow> on_pieces_clocks(const std::vector<simulation::HistoryRow>& rows) {
  std::vector<TimedRow> timed;
  int piece = -1;
  double began = 0.0;
  const auto key = [](const simulation::HistoryRow& row) {
    return std::tuple(row.hole, row.layer, row.rotary_speed, row.flow);
  };
  for (std::size_t k = 0; k < rows.size(); ++k) {
    const bool first_of_hole = k == 0 || rows[k].hole != rows[k - 1].hole;
    if (first_of_hole || key(rows[k]) != key(rows[k - 1])) {
      ++piece;
      began = first_of_hole ? rows[k].time : rows[k - 1].time;
    }
    timed.push_back({rows[k], {piece, rows[k].time - began}});
  }
  return timed;
}

/// Of a run of many short steps, every second, third, ... row is enough.
std::vector<TimedRow> thin(const std::vector<TimedRow>& rows) {
  constexpr std::size_t enough = 1000;
  const std::size_t every = rows.size() / enough + 1;
  std::vector<TimedRow> kept;
  for (std::size_t k = 0; k < rows.size(); k += every) kept.push_back(rows[k]);
  return kept;
}

bool is_compared(simulation::EventKind kind) {
  // Leaps of the chip hazard, which nothing else follows from, and what only tells.
  return kind != simulation::EventKind::quench && kind != simulation::EventKind::beyond_repair &&
         kind != simulation::EventKind::string_too_heavy;
}

std::map<std::pair<int, simulation::EventKind>, std::vector<Happened>> sorted(
    const std::vector<Happened>& events) {
  std::map<std::pair<int, simulation::EventKind>, std::vector<Happened>> by_kind;
  for (const Happened& event : events) by_kind[{event.hole, event.kind}].push_back(event);
  return by_kind;
}

void compare_events(const std::vector<Happened>& seen, const std::vector<Happened>& exact,
                    const std::string& where, Errors& errors) {
  auto ours = sorted(seen);
  const auto theirs = sorted(exact);
  for (const auto& [key, list] : theirs) {
    const auto& own = ours[key];
    if (own.size() != list.size()) {
      ADD_FAILURE() << where << ": " << own.size() << " of " << simulation::event_name(key.second)
                    << " in hole " << key.first + 1 << ", CVODE has " << list.size();
      continue;
    }
    for (std::size_t k = 0; k < list.size(); ++k) {
      worse(errors.event_time, std::abs(own[k].time - list[k].time));
      worse(errors.event_depth, std::abs(own[k].depth - list[k].depth));
      ++errors.events;
    }
  }
  for (const auto& [key, list] : ours)
    if (!list.empty() && !theirs.contains(key))
      ADD_FAILURE() << where << ": " << simulation::event_name(key.second) << ", which CVODE does not have";
}

std::string called(const std::string& name, const Errors& errors) {
  char words[200];
  std::snprintf(words, sizeof words, "%s, %s at %.0e", name.c_str(), errors.who.c_str(), errors.tolerance);
  return words;
}

Errors compare(const simulation::RunOutcome& run, const std::vector<TimedRow>& rows, const ExactRun& exact,
               std::size_t first, const simulation::StateLayout& layout, const scenario::Scenario& scenario,
               const std::string& name, double tolerance) {
  Errors e;
  e.who = "engine";
  e.tolerance = tolerance;
  std::vector<Happened> events;
  for (const simulation::Event& event : run.events)
    if (is_compared(event.kind)) events.push_back({event.kind, event.hole, event.time, event.depth});
  compare_events(events, exact.events, called(name, e), e);
  for (const auto& [row, when] : rows) {
    const Seen& seen = exact.seen[first++];
    worse(e.worn, (row.worn_height - layout.worn(seen.x)).abs().maxCoeff());
    worse(e.damage, (row.heat_damage - layout.damage(seen.x)).abs().maxCoeff());
    const bool between = row.rotary_speed > 0.0 && is_between_steps(row, scenario);
    const double cutters = std::max((row.table_temperature - layout.table(seen.x)).abs().maxCoeff(),
                                    (row.carbide_temperature - layout.carbide(seen.x)).abs().maxCoeff());
    const double surroundings = std::max({std::abs(row.body_temperature - seen.x(layout.body())),
                                          std::abs(row.fluid_temperature - seen.x(layout.fluid())),
                                          std::abs(row.rock_temperature - seen.x(layout.warm()))});
    worse(between ? e.between : e.cutters, cutters);
    worse(between ? e.between : e.surroundings, surroundings);
    if (!between && seen.to_ruin > 2.0 * e.event_time + 1e-6)
      worse(e.flats, (row.flat_temperature - seen.flat_temperature).abs().maxCoeff());
    if (!between) {
      worse(e.fills, std::abs(row.water_share - seen.x(layout.water())));
      worse(e.fills, std::abs(row.solids_fraction - seen.x(layout.solids())));
    }
    ++e.rows;
  }
  worse(e.worn, (run.end.worn_height - layout.worn(exact.end)).abs().maxCoeff());
  e.energy = std::abs(run.energy - exact.energy_spent) / exact.energy_spent;
  e.energy_gap = std::abs(run.energy_residual) / run.energy;
  return e;
}

Errors compare(const ExactRun& run, const ExactRun& exact, const simulation::StateLayout& layout,
               const std::string& name, double tolerance) {
  Errors e;
  e.who = "CVODE";
  e.tolerance = tolerance;
  compare_events(run.events, exact.events, called(name, e), e);
  for (std::size_t k = 0; k < exact.seen.size(); ++k) {
    const simulation::State &a = run.seen[k].x, &b = exact.seen[k].x;
    worse(e.worn, (layout.worn(a) - layout.worn(b)).abs().maxCoeff());
    worse(e.damage, (layout.damage(a) - layout.damage(b)).abs().maxCoeff());
    worse(e.cutters, std::max((layout.table(a) - layout.table(b)).abs().maxCoeff(),
                              (layout.carbide(a) - layout.carbide(b)).abs().maxCoeff()));
    for (const Eigen::Index i : {layout.body(), layout.fluid(), layout.warm()})
      worse(e.surroundings, std::abs(a(i) - b(i)));
    for (const Eigen::Index i : {layout.water(), layout.solids()}) worse(e.fills, std::abs(a(i) - b(i)));
    if (exact.seen[k].to_ruin > 2.0 * e.event_time + 1e-6)
      worse(e.flats, (run.seen[k].flat_temperature - exact.seen[k].flat_temperature).abs().maxCoeff());
    ++e.rows;
  }
  e.steps = run.steps;
  e.right_hand_sides = run.right_hand_sides;
  e.energy = std::abs(run.energy_spent - exact.energy_spent) / exact.energy_spent;
  e.energy_gap = std::abs(run.energy_gap) / run.energy_spent;
  e.seconds = run.seconds;
  return e;
}

}  // namespace

WorkPrecision work_precision(const std::string& name, const scenario::Scenario& plain,
                             const std::vector<double>& engine_tolerances,
                             const std::vector<double>& cvode_tolerances, double exact_tolerance) {
  WorkPrecision table;
  table.name = name;
  scenario::Scenario scenario = with_every_step_kept(plain);
  const simulation::StateLayout layout(scenario.bit.layout.count());
  std::vector<simulation::RunOutcome> runs;
  std::vector<std::vector<TimedRow>> rows;  // of each
  struct Asked {
    AskedTime when;
    std::size_t place = 0;  // among all rows of all runs
  };
  std::vector<Asked> asked;
  for (const double tolerance : engine_tolerances) {
    scenario.stepping.relative_tolerance = tolerance;
    runs.push_back(simulation::run(scenario));
    rows.push_back(thin(on_pieces_clocks(runs.back().history.rows)));
    for (const TimedRow& row : rows.back()) asked.push_back({row.when, asked.size()});
  }
  std::stable_sort(asked.begin(), asked.end(), [](const Asked& a, const Asked& b) {
    return a.when.piece != b.when.piece ? a.when.piece < b.when.piece : a.when.since < b.when.since;
  });
  std::vector<AskedTime> times;
  for (const Asked& a : asked) times.push_back(a.when);
  table.exact = drill_exactly(scenario, exact_tolerance, times);
  table.greatest_wear = layout.worn(table.exact.end).maxCoeff();
  for (const double tolerance : cvode_tolerances) {
    table.cvode.push_back(
        compare(drill_exactly(scenario, tolerance, times), table.exact, layout, name, tolerance));
  }
  if (table.exact.seen.size() != asked.size())
    throw std::runtime_error("CVODE's run has " + std::to_string(table.exact.pieces) +
                             " pieces, fewer than the engine's");
  // Back into the order of the runs' rows.
  ExactRun as_rows = table.exact;
  for (std::size_t k = 0; k < asked.size(); ++k) as_rows.seen[asked[k].place] = table.exact.seen[k];
  std::size_t first = 0;
  for (std::size_t k = 0; k < runs.size(); ++k) {
    Errors errors = compare(runs[k], rows[k], as_rows, first, layout, scenario, name, engine_tolerances[k]);
    first += rows[k].size();
    // What the run costs where nobody asks for every step.
    scenario::Scenario timed = plain;
    timed.stepping.warming = scenario::Warming::followed;
    timed.stepping = {engine_tolerances[k], 0.0};
    const std::clock_t began = std::clock();
    const simulation::RunOutcome outcome = simulation::run(timed);
    errors.seconds = static_cast<double>(std::clock() - began) / CLOCKS_PER_SEC;
    errors.steps = outcome.steps;
    errors.right_hand_sides = outcome.right_hand_sides;
    table.engine.push_back(errors);
  }
  return table;
}

void print(const WorkPrecision& table) {
  const ExactRun& exact = table.exact;
  std::printf(
      "%s: %zu events over %.0f s, worn to %.3f mm. CVODE: %ld steps, %ld right-hand sides, %.2f s; power "
      "closes to %.0e, energy to %.0e\n",
      table.name.c_str(), exact.events.size(), exact.events.back().time, 1e3 * table.greatest_wear,
      exact.steps, exact.right_hand_sides, exact.seconds, exact.power_gap,
      std::abs(exact.energy_gap) / exact.energy_spent);
  for (const Happened& event : exact.events) {
    if (event.kind == simulation::EventKind::upset_begins && event.depth == 0.0) continue;
    std::printf("    hole %d, %10.3f s, %8.4f m: %s\n", event.hole + 1, event.time, event.depth,
                simulation::event_name(event.kind));
  }
  std::printf(
      "          tolerance  steps    rhs  worn, share  worn um  cutters K  flats K  others K  between K  "
      "water, solids  damage  event s  event mm   work  books  processor\n");
  for (const auto* list : {&table.engine, &table.cvode}) {
    for (const Errors& e : *list) {
      std::printf(
          "  %-9s %8.0e %6ld %6ld %12.1e %8.1e %10.1e %8.1e %9.1e %10.1e %14.1e %7.0e %8.1e %9.1e %6.0e "
          "%6.0e %10.4f\n",
          e.who.c_str(), e.tolerance, e.steps, e.right_hand_sides, e.worn / table.greatest_wear, 1e6 * e.worn,
          e.cutters, e.flats, e.surroundings, e.between, e.fills, e.damage, e.event_time, 1e3 * e.event_depth,
          e.energy, e.energy_gap, e.seconds / exact.seconds);
    }
  }
}

}  // namespace dullcast::testing
