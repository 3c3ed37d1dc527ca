#include "engine/pages/run_view.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

#include "engine/analysis/economics.hpp"
#include "engine/analysis/suitability.hpp"
#include "engine/pages/bit_view.hpp"
#include "engine/pages/due_words.hpp"
#include "engine/pages/event_sentences.hpp"
#include "engine/pages/ground_view.hpp"
#include "engine/pages/history_rows.hpp"
#include "engine/pages/json_parts.hpp"
#include "engine/pages/page_words.hpp"
#include "engine/pages/repair_view.hpp"
#include "engine/pages/run_words.hpp"
#include "models/wear/heat_damage.hpp"

namespace dullcast::pages {
namespace {

using nlohmann::json;

json cutter_numbers(const std::vector<int>& cutters) {
  json all = json::array();
  for (const int cutter : cutters) all.push_back(cutter + 1);
  return all;
}

json grade_of(const std::optional<double>& grade) {
  return grade ? number(*grade) : json(nullptr);
}

json allowance_of(const std::string& rule, const scenario::ReworkRules& rules) {
  const auto asked = [](const std::optional<double>& value) {
    return value ? number(*value) : json(nullptr);
  };
  if (rule == "worn_height") return asked(rules.worn_height);
  if (rule == "outer_dull_grade") return asked(rules.outer_dull_grade);
  if (rule == "heat_damage") return asked(rules.heat_damage);
  if (rule == "speed_share_of_new") return asked(rules.speed_share_of_new);
  if (rule == "chip_probability") return asked(rules.chip_probability);
  if (rule == "gauge_loss") return asked(rules.gauge_loss);
  if (rule == "lost_cutters") return asked(rules.lost_cutters);
  return nullptr;
}

/// A stored run has its sentences already, and not what they are made from. A rule is told by its words here:
/// whoever reads a page has not written the scenario.
std::string words_of(const simulation::Event& event, const scenario::Scenario& scenario,
                     const simulation::RunOutcome& outcome) {
  if (event.kind == simulation::EventKind::rework_due && outcome.rework_due)
    return "Rework is due: " + rule_words(outcome.rework_due->rule, scenario.rules) + ".";
  return event.text.empty() ? event_sentence(event) : event.text;
}

json events_of(const scenario::Scenario& scenario, const simulation::RunOutcome& outcome) {
  json all = json::array();
  for (const simulation::Event& event : outcome.events) {
    all.push_back({{"kind", simulation::event_name(event.kind)},
                   {"time", number(event.time)},
                   {"hole", event.hole + 1},
                   {"depth", number(event.depth)},
                   {"footage", number(event.footage)},
                   {"cutter", event.cutter >= 0 ? json(event.cutter + 1) : json(nullptr)},
                   {"words", words_of(event, scenario, outcome)}});
  }
  return all;
}

json passages_of(const simulation::RunOutcome& outcome) {
  json all = json::array();
  for (const simulation::LayerPassage& one : outcome.passages) {
    all.push_back({{"hole", one.hole + 1},
                   {"layer", one.layer + 1},
                   {"rock", spoken(one.rock)},
                   {"top", number(one.top)},
                   {"bottom", number(one.bottom)},
                   {"rotating_time", number(one.rotating_time)},
                   {"rate_of_penetration", number(one.mean_rate_of_penetration)},
                   {"weight", number(one.mean_weight)},
                   {"torque", number(one.mean_torque)},
                   {"energy", number(one.energy)},
                   {"hottest_flat", number(one.hottest_flat)},
                   {"hottest_cutter", one.hottest_cutter + 1},
                   {"wear_gain", number(one.greatest_wear_gain)},
                   {"wear_cutter", one.greatest_wear_cutter + 1},
                   {"chip_hazard", number(one.chip_hazard)},
                   {"chip_probability", number(one.greatest_chip_probability)},
                   {"chip_cutter", one.greatest_chip_cutter + 1},
                   {"load_share", number(one.greatest_load_share)},
                   {"solids_fraction", number(one.mean_solids_fraction)},
                   {"lifted_share", number(one.lifted_share)},
                   {"balling_risk", number(one.balling_risk)},
                   {"time_in_film", number(one.time_in_film)}});
  }
  return all;
}

json holes_of(const simulation::RunOutcome& outcome, const std::vector<std::size_t>& shown) {
  json all = json::array();
  for (const simulation::HoleSummary& hole : outcome.holes) {
    json first = nullptr, last = nullptr;
    for (std::size_t k = 0; k < shown.size(); ++k) {
      if (outcome.history.rows[shown[k]].hole != hole.hole) continue;
      if (first.is_null()) first = k;
      last = k;
    }
    all.push_back({{"number", hole.hole + 1},
                   {"depth_reached", number(hole.depth_reached)},
                   {"rotating_time", number(hole.rotating_time)},
                   {"elapsed_time", number(hole.elapsed_time)},
                   {"hottest_flat", number(hole.hottest_flat)},
                   {"worn_height", number(hole.greatest_worn_height)},
                   {"inner_grade", grade_of(hole.inner_dull_grade)},
                   {"outer_grade", grade_of(hole.outer_dull_grade)},
                   {"first_row", first},
                   {"last_row", last}});
  }
  return all;
}

json milestone_of(const simulation::Milestone& at, const scenario::Scenario& scenario,
                  const std::string& what) {
  const json words = told([&](base::ShownUnits units) {
    return what + " in hole " + std::to_string(at.hole + 1) + " at " +
           base::show(at.depth, base::shown::depth, units) + ", after " +
           base::show(at.footage, base::shown::depth, units, 4) + " and " +
           base::show(at.rotating_time, base::shown::hours, units) + " rotating";
  });
  return {{"hole", at.hole + 1},
          {"depth", number(at.depth)},
          {"footage", number(at.footage)},
          {"rotating_time", number(at.rotating_time)},
          {"elapsed_time", number(at.elapsed_time)},
          {"rule", at.rule},
          {"rule_words", rule_words(at.rule, scenario.rules)},
          {"cutters", cutter_numbers(at.cutters)},
          {"cutter_words", cutter_words(at.cutters)},
          {"words", words},
          {"worn_height", numbers(at.condition.worn_height)},
          {"inner_grade", grade_of(at.condition.inner_dull_grade)},
          {"outer_grade", grade_of(at.condition.outer_dull_grade)}};
}

json band_of(const std::vector<simulation::LifeEnd>& band) {
  json all = json::array();
  for (const simulation::LifeEnd& end : band) {
    all.push_back({{"end", end.end},
                   {"due", end.due != 0},
                   {"hole", end.hole + 1},
                   {"footage", number(end.footage)},
                   {"rotating_time", number(end.rotating_time)},
                   {"hottest_flat", number(end.hottest_flat)},
                   {"draws", end.draws},
                   {"words", end_words(end)}});
  }
  return all;
}

json hottest_of(const simulation::HottestMoment& hot, const scenario::Scenario& scenario) {
  if (!(hot.temperature > 0.0)) return nullptr;
  const std::string rock = spoken(scenario.column.layers.at(static_cast<std::size_t>(hot.layer)).rock.name);
  return {{"temperature", number(hot.temperature)},
          {"cutter", hot.cutter + 1},
          {"hole", hot.hole + 1},
          {"layer", hot.layer + 1},
          {"depth", number(hot.depth)},
          {"rock", rock},
          {"weight", number(hot.weight)},
          {"rotary_speed", number(hot.rotary_speed)},
          {"flow", number(hot.flow)},
          {"words", told([&](base::ShownUnits units) {
             return base::show(hot.temperature, base::shown::temperature, units) + ", cutter " +
                    std::to_string(hot.cutter + 1) + " in " + rock + ", hole " + std::to_string(hot.hole + 1);
           })}};
}

json costs_of(const scenario::Scenario& scenario, const simulation::RunOutcome& outcome) {
  const std::optional<analysis::RunCost> cost = analysis::run_cost(scenario, outcome);
  if (!has_costs(scenario) || !cost) return nullptr;
  json holes = json::array();
  simulation::HistoryRow so_far;
  for (const simulation::HoleSummary& hole : outcome.holes) {
    so_far.footage += hole.depth_reached;
    so_far.rotating_time += hole.rotating_time;
    // A hole's time has its trip, which cost_per_metre_at adds to a row's.
    so_far.time += hole.elapsed_time;
    simulation::HistoryRow at_end = so_far;
    at_end.time -= scenario.repeat.trip_time;
    holes.push_back({{"number", hole.hole + 1}, {"per_metre", number(cost_per_metre_at(scenario, at_end))}});
  }
  const std::string& currency = scenario.costs.currency;
  return {{"currency", currency},
          {"footage", number(cost->footage)},
          {"per_metre", number(cost->per_metre)},
          {"rig", number(cost->rig)},
          {"bit", number(scenario.costs.bit)},
          {"fuel", number(cost->fuel)},
          {"words", told([&](base::ShownUnits units) {
             return base::show_money_per_length(cost->per_metre, currency, units) +
                    (outcome.rework_due ? " to rework" : " to the end of the run");
           })},
          {"holes", std::move(holes)}};
}

json marks_of(const scenario::Scenario& scenario) {
  const auto degrees = [](double T, base::ShownUnits units) {
    return base::show(T, base::shown::temperature, units);
  };
  const double faster = scenario.numbers.acceleration_temperature.central;
  return json::array(
      {{{"name", "faster_wear"}, {"temperature", number(faster)}, {"words", told([&](base::ShownUnits units) {
                                                                     return "from " + degrees(faster, units) +
                                                                            " diamond wears faster";
                                                                   })}},
       {{"name", "ruin"},
        {"temperature", number(wear::kelvin_at_750)},
        {"words", told([&](base::ShownUnits units) {
           return "at " + degrees(wear::kelvin_at_750, units) + " a diamond table lasts about " +
                  seconds_words(scenario.numbers.damage_seconds_at_750.central);
         })}}});
}

json effects_of(std::vector<analysis::NumberEffect> effects) {
  std::stable_sort(effects.begin(), effects.end(),
                   [](const auto& a, const auto& b) { return a.share > b.share; });
  json all = json::array();
  constexpr std::size_t most = 8;
  for (const analysis::NumberEffect& effect : effects) {
    if (all.size() == most || !(effect.share > 0.005)) break;
    all.push_back({{"name", spoken(effect.name)}, {"share", number(effect.share)}});
  }
  return all;
}

}  // namespace

nlohmann::json run_view(const scenario::Scenario& scenario, const simulation::RunOutcome& outcome,
                        const std::vector<simulation::LifeEnd>& band, const RunViewOptions& options) {
  const std::vector<std::size_t> shown = rows_to_show(outcome.history, options.most_rows);
  json rules = json::array();
  for (const simulation::RuleUse& use : outcome.rules)
    rules.push_back({{"rule", use.rule},
                     {"words", rule_words(use.rule, scenario.rules)},
                     {"allowance", allowance_of(use.rule, scenario.rules)},
                     {"used", number(use.used)}});
  json view = {
      {"format", {run_view_major, run_view_minor}},
      {"name", options.name},
      {"title", scenario.title},
      {"made_by", options.made_by},
      {"units", units_word(options.units)},
      {"calibrated", options.learned_from > 0},
      {"learned_from", options.learned_from},
      {"bit", bit_view(scenario)},
      {"holes", holes_of(outcome, shown)},
      {"holes_planned", scenario.repeat.holes},
      {"rows", columns_of(scenario, outcome.history, shown)},
      {"rows_recorded", outcome.history.rows.size()},
      {"events", events_of(scenario, outcome)},
      {"passages", passages_of(outcome)},
      {"rework_due",
       outcome.rework_due ? milestone_of(*outcome.rework_due, scenario, "rework is due") : json(nullptr)},
      {"beyond_repair",
       outcome.beyond_repair ? milestone_of(*outcome.beyond_repair, scenario, "past repair") : json(nullptr)},
      {"due_words", due_words(scenario, outcome)},
      {"ended_by", simulation::ended_by_name(outcome.ended_by)},
      {"rules", std::move(rules)},
      {"band", band_of(band)},
      {"band_due_to", effects_of(options.effects)},
      {"hottest", hottest_of(outcome.hottest, scenario)},
      {"verdict", verdict_view(scenario, outcome)},
      {"first_to_do", first_to_do(scenario, outcome, options.learned_from > 0)},
      {"inspect", inspect_words(band, outcome)},
      {"costs", costs_of(scenario, outcome)},
      {"repair", repair_view(scenario, outcome)},
      {"marks", marks_of(scenario)},
      {"estimates", estimate_words(options.learned_from)},
      {"cautions", caution_words()},
  };
  // Beyond repair the rule that ends a bit is none of the scenario's.
  if (outcome.beyond_repair) view["beyond_repair"]["rule_words"] = beyond_words(*outcome.beyond_repair);
  view.update(ground_view(scenario));
  return view;
}

}  // namespace dullcast::pages
