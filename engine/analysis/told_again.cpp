#include "engine/analysis/told_again.hpp"

#include <algorithm>
#include <array>
#include <string_view>
#include <utility>

#include "engine/base/file_error.hpp"
#include "engine/storage/fields.hpp"

namespace dullcast::analysis {
namespace {

constexpr std::array<std::pair<SurvivalEnd, const char*>, 7> end_names{{
    {SurvivalEnd::table_ruined, "table_ruined"},
    {SurvivalEnd::table_lost, "table_lost"},
    {SurvivalEnd::cutter_lost, "cutter_lost"},
    {SurvivalEnd::blade_sheared, "blade_sheared"},
    {SurvivalEnd::outlives, "outlives"},
    {SurvivalEnd::does_not_drill, "does_not_drill"},
    {SurvivalEnd::fails_with_flow, "fails_with_flow"},
}};

simulation::RunOutcome run_of(const simulation::LifeEnd& end) {
  simulation::RunOutcome run;
  for (const simulation::EndedBy ended : storage::result_format::all_ends()) {
    if (end.ended_by == simulation::ended_by_name(ended)) run.ended_by = ended;
  }
  // Files of before format 1.4 tell the hole only.
  run.holes_finished = end.ended_by.empty() ? end.hole + 1 : end.holes_finished;
  run.hottest.temperature = end.hottest_flat;
  if (end.due != 0) {
    simulation::Milestone due;
    due.hole = end.hole;
    due.footage = end.footage;
    due.rotating_time = end.rotating_time;
    due.elapsed_time = end.elapsed_time;
    run.rework_due = std::move(due);
  }
  run.footage = end.footage;
  run.rotating_time = end.rotating_time;
  run.elapsed_time = end.elapsed_time;
  return run;
}

}  // namespace

storage::ForecastNotes notes_of(const Forecast& forecast, const std::vector<Survival>& survival) {
  storage::ForecastNotes notes;
  notes.calibrated = forecast.learned_from > 0 ? 1 : 0;
  if (forecast.learned_from > 0) notes.learned_from = forecast.learned_from;
  notes.coefficient_factor = forecast.coefficient_factor;
  notes.cutting_wear_share = forecast.cutting_wear_share;
  notes.inspection_share = forecast.inspection_share;
  notes.draws_failed = forecast.draws_failed;
  notes.draws_without_rework = forecast.draws_without_rework;
  notes.first_failed_draw = forecast.first_failed_draw;
  for (const NumberEffect& effect : forecast.effects) notes.shares.push_back({effect.name, effect.share});
  for (const Survival& one : survival) {
    storage::LayerSurvival kept;
    kept.layer = one.layer;
    kept.depth = one.depth;
    kept.weight = one.weight;
    kept.rotary_speed = one.rotary_speed;
    for (const auto& [end, name] : end_names)
      if (end == one.end) kept.end = name;
    kept.time = one.time;
    kept.cutter = one.cutter;
    kept.standstill = one.standstill;
    kept.film = one.film;
    kept.dry = one.dry;
    kept.steady_temperature = one.steady_temperature;
    kept.hottest = one.hottest;
    kept.after_10 = one.after[0];
    kept.after_30 = one.after[1];
    kept.after_60 = one.after[2];
    kept.after_120 = one.after[3];
    notes.survival.push_back(std::move(kept));
  }
  return notes;
}

Forecast forecast_of(const storage::StoredRun& run, const scenario::Scenario& scenario) {
  Forecast forecast;
  forecast.central = run.outcome;
  forecast.central_scenario = scenario;
  for (const simulation::LifeEnd& end : run.band) {
    if (end.end == "low") forecast.severe = run_of(end);
    if (end.end == "high") forecast.mild = run_of(end);
    if (end.end == "central" && end.draws > 0) {
      forecast.middle = run_of(end);
      forecast.draws = end.draws;
    }
  }
  if (!run.notes) return forecast;
  forecast.learned_from =
      run.notes->calibrated != 0 ? static_cast<int>(std::lround(run.notes->learned_from.value_or(1.0))) : 0;
  forecast.coefficient_factor = run.notes->coefficient_factor;
  forecast.cutting_wear_share = run.notes->cutting_wear_share;
  forecast.inspection_share = run.notes->inspection_share;
  forecast.draws_failed = run.notes->draws_failed;
  forecast.draws_without_rework = run.notes->draws_without_rework;
  forecast.first_failed_draw = run.notes->first_failed_draw;
  for (const storage::NumberShare& share : run.notes->shares) {
    NumberEffect effect;
    effect.name = share.name;
    effect.share = share.share;
    forecast.effects.push_back(std::move(effect));
  }
  return forecast;
}

std::vector<Survival> survival_of(const storage::StoredRun& run, const scenario::Scenario& scenario) {
  std::vector<Survival> all;
  if (!run.notes) return all;
  const auto layers = static_cast<int>(scenario.column.layers.size());
  for (const storage::LayerSurvival& kept : run.notes->survival) {
    const auto end = std::find_if(end_names.begin(), end_names.end(),
                                  [&](const auto& one) { return std::string_view(one.second) == kept.end; });
    if (end == end_names.end() || kept.layer < 0 || kept.layer >= layers)
      throw base::FileError(run.path,
                            "this result is damaged: /forecast/survival tells of what this program or its "
                            "scenario does not know");
    Survival one;
    one.layer = kept.layer;
    one.rock = scenario.column.layers[static_cast<std::size_t>(kept.layer)].rock.name;
    one.depth = kept.depth;
    one.weight = kept.weight;
    one.rotary_speed = kept.rotary_speed;
    one.end = end->first;
    one.time = kept.time;
    one.cutter = kept.cutter;
    one.standstill = kept.standstill;
    one.film = kept.film;
    one.dry = kept.dry;
    one.steady_temperature = kept.steady_temperature;
    one.hottest = kept.hottest;
    one.after = {kept.after_10, kept.after_30, kept.after_60, kept.after_120};
    all.push_back(std::move(one));
  }
  return all;
}

}  // namespace dullcast::analysis
