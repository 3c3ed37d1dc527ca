#include "engine/analysis/survival_without_flow.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <mutex>

#include "engine/analysis/failure_outlook.hpp"
#include "engine/analysis/layer_hole.hpp"
#include "engine/base/threads.hpp"
#include "engine/simulation/run.hpp"

namespace dullcast::analysis {
namespace {

constexpr double not_a_number = std::numeric_limits<double>::quiet_NaN();

struct Failure {
  SurvivalEnd end = SurvivalEnd::outlives;
  double time = std::numeric_limits<double>::infinity();  // s of the run
  int cutter = -1;
};

/// Cutters that are lost, or have lost their diamond, at the start.
int gone_at_start(const scenario::BitRecord& bit) {
  int gone = 0;
  for (Eigen::Index i = 0; i < bit.layout.count(); ++i) {
    const bool lost = i < bit.starting_lost.size() && bit.starting_lost(i) != 0;
    const bool bare = i < bit.starting_table_gone.size() && bit.starting_table_gone(i) != 0;
    if (lost || bare) ++gone;
  }
  return gone;
}

/// The first thing that broke in a run.
Failure first_failure(const simulation::RunOutcome& run) {
  Failure first;
  const auto look = [&first](SurvivalEnd end, double time, int cutter) {
    if (time < first.time) first = {end, time, cutter};
  };
  for (const simulation::Event& event : run.events) {
    if (event.kind == simulation::EventKind::table_ruined)
      look(SurvivalEnd::table_ruined, event.time, event.cutter);
    if (event.kind == simulation::EventKind::table_lost)
      look(SurvivalEnd::table_lost, event.time, event.cutter);
    if (event.kind == simulation::EventKind::cutter_lost)
      look(SurvivalEnd::cutter_lost, event.time, event.cutter);
    if (event.kind == simulation::EventKind::blade_sheared)
      look(SurvivalEnd::blade_sheared, event.time, event.cutter);
  }
  // The run may stop at its rule before it tells of the ruined table.
  if (run.rework_due && run.rework_due->rule == "heat_damage") {
    const auto& cutters = run.rework_due->cutters;
    look(SurvivalEnd::table_ruined, run.rework_due->elapsed_time, cutters.empty() ? -1 : cutters.front());
  }
  return first;
}

std::optional<double> time_of(const simulation::RunOutcome& run, simulation::EventKind kind, double from,
                              double to) {
  for (const simulation::Event& event : run.events) {
    if (event.kind == kind && event.time >= from && event.time <= to) return event.time - from;
  }
  return std::nullopt;
}

/// Hottest flat at `time` (s of the run), between the rows kept around it.
double hottest_at(const simulation::History& history, double time) {
  const simulation::HistoryRow* before = nullptr;
  for (const simulation::HistoryRow& row : history.rows) {
    const double T = row.flat_temperature.maxCoeff();
    if (row.time >= time) {
      if (before == nullptr || !(row.time > before->time)) return T;
      const double T_before = before->flat_temperature.maxCoeff();
      return T_before + (T - T_before) * (time - before->time) / (row.time - before->time);
    }
    before = &row;
  }
  return not_a_number;
}

void read_heat(const simulation::RunOutcome& run, double from, double to, double least_progress,
               Survival& survival) {
  for (const simulation::HistoryRow& row : run.history.rows) {
    if (row.time < from || row.time > to) continue;
    const double T = row.flat_temperature.maxCoeff();
    if (!(survival.steady_temperature > 0.0)) survival.steady_temperature = T;
    survival.hottest = std::max(survival.hottest, T);
    if (!survival.standstill && row.rate_of_penetration < least_progress)
      survival.standstill = row.time - from;
  }
  for (std::size_t k = 0; k < survival_times.size(); ++k) {
    const double when = from + survival_times[k];
    survival.after[k] = when <= to ? hottest_at(run.history, when) : not_a_number;
  }
}

}  // namespace

const char* survival_end_words(SurvivalEnd end) {
  switch (end) {
    case SurvivalEnd::table_ruined:
      return failure_words(FailureKind::table_ruined);
    case SurvivalEnd::table_lost:
      return failure_words(FailureKind::table_lost);
    case SurvivalEnd::cutter_lost:
      return failure_words(FailureKind::cutter_lost);
    case SurvivalEnd::blade_sheared:
      return failure_words(FailureKind::blade_sheared);
    case SurvivalEnd::outlives:
      return "nothing goes";
    case SurvivalEnd::does_not_drill:
      return "the plan's weight does not drill it";
    case SurvivalEnd::fails_with_flow:
      return "fails with the pump running";
  }
  return "";
}

Survival survive_without_flow(const scenario::Scenario& scenario, int layer,
                              const simulation::BitCondition& condition) {
  // A little deeper than the rate calls for, so that the bottom is not reached while it is followed.
  constexpr double spare = 1.1;
  LayerHole hole = layer_hole(scenario, layer, condition, spare * (survival_lead + survival_limit));
  scenario::Scenario& s = hole.scenario;
  const scenario::Layer& ground = s.column.layers.front();
  Survival survival;
  survival.layer = layer;
  survival.rock = ground.rock.name;
  survival.depth = ground.top;
  survival.rotary_speed = s.plan.front().rotary_speed;
  survival.after.fill(not_a_number);
  if (!(hole.rate_of_penetration > 0.0)) {
    survival.end = SurvivalEnd::does_not_drill;
    return survival;
  }
  scenario::Upset pump_stops;
  // A thin layer is through before that: the pump stops half way down it.
  const scenario::Layer& whole = scenario.column.layers.at(static_cast<std::size_t>(layer));
  const double lead = std::min(hole.rate_of_penetration * survival_lead, 0.5 * (whole.bottom - whole.top));
  pump_stops.from = ground.top + lead;
  pump_stops.hole = 0;
  pump_stops.lasts = survival_limit;
  pump_stops.flow = 0.0;
  pump_stops.mist_water = 0.0;
  s.upsets = {pump_stops};
  s.rules.heat_damage = 1.0;
  s.rules.lost_cutters = 1.0 + gone_at_start(s.bit);
  s.repeat.stop_at = scenario::StopAt::rework_due;

  const simulation::RunOutcome run = dullcast::simulation::run(s);
  const Failure failure = first_failure(run);
  const auto stop = std::find_if(run.events.begin(), run.events.end(), [](const simulation::Event& event) {
    return event.kind == simulation::EventKind::upset_begins;
  });
  const double from = stop != run.events.end() ? stop->time : std::numeric_limits<double>::infinity();
  if (failure.time < from) {
    survival.end = SurvivalEnd::fails_with_flow;
    survival.cutter = failure.cutter;
    survival.steady_temperature = survival.hottest = run.hottest.temperature;
    return survival;
  }
  if (stop == run.events.end()) {
    survival.end = SurvivalEnd::does_not_drill;
    return survival;
  }
  survival.depth = stop->depth;
  const double followed = std::min(from + survival_limit, run.elapsed_time);
  const double to = std::min(failure.time, followed);
  survival.end = failure.time <= followed ? failure.end : SurvivalEnd::outlives;
  survival.cutter = survival.end == SurvivalEnd::outlives ? -1 : failure.cutter;
  survival.time = to - from;
  for (const simulation::HistoryRow& row : run.history.rows) {
    if (row.time <= from) survival.weight = row.weight;
  }
  read_heat(run, from, to, s.rules.least_progress, survival);
  survival.film = time_of(run, simulation::EventKind::film_forms, from, to);
  survival.dry = time_of(run, simulation::EventKind::runs_dry, from, to);
  return survival;
}

std::vector<Survival> survive_without_flow(const scenario::Scenario& scenario,
                                           const simulation::BitCondition& condition, int threads,
                                           const std::function<void(double, double)>& progress) {
  const auto count = static_cast<int>(scenario.column.layers.size());
  std::vector<Survival> all(static_cast<std::size_t>(count));
  std::mutex telling;
  int done = 0;
  base::parallel_for(count, threads, [&](int layer) {
    all[static_cast<std::size_t>(layer)] = survive_without_flow(scenario, layer, condition);
    const std::lock_guard<std::mutex> lock(telling);
    if (progress) progress(++done, count);
  });
  return all;
}

}  // namespace dullcast::analysis
