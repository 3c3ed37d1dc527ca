#include "engine/pages/card_view.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>

#include "engine/analysis/suitability.hpp"
#include "engine/pages/due_words.hpp"
#include "engine/pages/ground_view.hpp"
#include "engine/pages/json_parts.hpp"
#include "engine/pages/page_words.hpp"
#include "engine/pages/rock_pattern.hpp"
#include "engine/pages/run_words.hpp"
#include "engine/pages/watch_words.hpp"

namespace dullcast::pages {
namespace {

using nlohmann::json;

/// A stretch of the hole in one layer under one interval of the plan.
struct Stretch {
  double from = 0.0, to = 0.0;  // m
  std::size_t layer = 0, interval = 0;
};

/// Neighbours that ask for the same are one.
bool alike(const scenario::Scenario& scenario, const Stretch& a, const Stretch& b) {
  const scenario::OperatingInterval &p = scenario.plan[a.interval], &q = scenario.plan[b.interval];
  return scenario.column.layers[a.layer].rock.name == scenario.column.layers[b.layer].rock.name &&
         p.weight_on_bit == q.weight_on_bit && p.pull_down == q.pull_down && p.holdback == q.holdback &&
         p.rotary_speed == q.rotary_speed && p.flow == q.flow && p.feed_limit == q.feed_limit;
}

std::vector<Stretch> stretches(const scenario::Scenario& scenario) {
  std::vector<Stretch> all;
  for (std::size_t k = 0; k < scenario.column.layers.size(); ++k) {
    const scenario::Layer& layer = scenario.column.layers[k];
    for (std::size_t i = 0; i < scenario.plan.size(); ++i) {
      const Stretch here{std::max(layer.top, scenario.plan[i].from),
                         std::min(layer.bottom, scenario.plan[i].to), k, i};
      if (!(here.to > here.from)) continue;
      if (!all.empty() && alike(scenario, all.back(), here))
        all.back().to = here.to;
      else
        all.push_back(here);
    }
  }
  return all;
}

/// The flow that both cools and cleans a layer, in every condition looked at.
struct FlowAsked {
  double least = std::numeric_limits<double>::quiet_NaN();  // m3/s; infinity where none tried will do
  bool cools = true, cleans = true;                         // false: none tried does
  bool drills = true;                                       // false: the plan's weight does not drill it
};

FlowAsked flow_asked(std::size_t layer, const std::vector<analysis::LeastFlow>& flows) {
  FlowAsked asked;
  for (const analysis::LeastFlow& one : flows) {
    if (one.layer != static_cast<int>(layer)) continue;
    using analysis::Coolable;
    asked.drills = asked.drills && one.coolable != Coolable::does_not_drill;
    asked.cools = asked.cools && one.coolable != Coolable::at_no_flow;
    if (one.coolable == Coolable::does_not_drill) continue;
    asked.cleans = asked.cleans && std::isfinite(one.flow_to_clean);
    const double to_cool = one.coolable == Coolable::between ? one.flow : 0.0;
    for (const double flow : {to_cool, std::isfinite(one.flow_to_clean) ? one.flow_to_clean : 0.0})
      asked.least = std::isnan(asked.least) ? flow : std::max(asked.least, flow);
  }
  return asked;
}

std::string flow_words(const FlowAsked& asked) {
  if (!asked.drills) return "this weight does not drill it";
  if (!asked.cools) return "no flow cools it worn: ease weight, speed";
  if (!asked.cleans) return "no flow clears it: slow the feed";
  return "";
}

/// Mean progress of the first pass over the middle of a stretch.
std::optional<double> progress_in(const simulation::RunOutcome& outcome, const Stretch& here) {
  const double middle = 0.5 * (here.from + here.to);
  for (const simulation::LayerPassage& pass : outcome.passages) {
    if (middle >= pass.top && middle <= pass.bottom && pass.mean_rate_of_penetration > 0.0)
      return pass.mean_rate_of_penetration;
  }
  return std::nullopt;
}

json row_of(const scenario::Scenario& scenario, const simulation::RunOutcome& outcome, const Stretch& here,
            const analysis::LayerSuitability& layer, const std::vector<analysis::LeastFlow>& flows) {
  const scenario::OperatingInterval& interval = scenario.plan[here.interval];
  const scenario::RockRecord& rock = scenario.column.layers[here.layer].rock;
  const double weight = planned_weight(scenario, interval, 0.5 * (here.from + here.to));
  const FlowAsked asked = flow_asked(here.layer, flows);
  const std::optional<double> progress = progress_in(outcome, here);
  return {{"from", number(here.from)},
          {"to", number(here.to)},
          {"rock", spoken(rock.name)},
          {"pattern", rock_pattern(rock)},
          {"weight", number(weight)},
          {"rotary_speed", number(interval.rotary_speed)},
          {"planned_flow", number(interval.flow)},
          {"least_flow",
           number(asked.cools && asked.cleans && asked.drills ? asked.least
                                                              : std::numeric_limits<double>::quiet_NaN())},
          {"flow_words", flow_words(asked)},
          {"flow_is_short", asked.least > interval.flow || !asked.cools || !asked.cleans},
          {"feed_limit", interval.feed_limit ? number(*interval.feed_limit) : json(nullptr)},
          {"held_by_feed", interval.feed_limit && progress && *progress > 0.98 * *interval.feed_limit},
          {"progress", progress ? number(*progress) : json(nullptr)},
          {"hottest_flat", layer.ground.passes > 0 ? number(layer.ground.hottest_flat) : json(nullptr)},
          {"grade", verdict_name(layer.verdict)},
          {"verdict", analysis::verdict_words(layer.verdict)},
          {"why", reasons_view(layer)},
          {"watch", watch_words(layer, scenario)}};
}

json pull_of(const scenario::Scenario& scenario, const simulation::RunOutcome& outcome) {
  return told([&](base::ShownUnits units) -> std::string {
    if (!outcome.rework_due) return "Rework: " + due_words(scenario, outcome);
    const simulation::Milestone& due = *outcome.rework_due;
    return "Pull for rework in hole " + std::to_string(due.hole + 1) + " at " +
           base::show(due.depth, base::shown::depth, units) + ", after " +
           base::show(due.footage, base::shown::depth, units, 4) + " and " +
           base::show(due.rotating_time, base::shown::hours, units) + " of rotating in all";
  });
}

}  // namespace

nlohmann::json card_view(const scenario::Scenario& scenario, const simulation::RunOutcome& outcome,
                         const std::vector<simulation::LifeEnd>& band,
                         const std::vector<analysis::LeastFlow>& flows, const RunViewOptions& options) {
  const std::vector<analysis::LayerSuitability> layers = analysis::suitability(scenario, outcome);
  json rows = json::array();
  for (const Stretch& here : stretches(scenario))
    rows.push_back(row_of(scenario, outcome, here, layers.at(here.layer), flows));
  json verdict = verdict_view(scenario, outcome);
  verdict.erase("layers");
  json sooner = json::array();
  for (const simulation::RuleUse& use : outcome.rules) sooner.push_back(rule_words(use.rule, scenario.rules));
  const simulation::LifeEnd *low = end_named(band, "low"), *high = end_named(band, "high");
  const scenario::BitRecord& bit = scenario.bit;
  return {{"format", {card_view_major, card_view_minor}},
          {"name", options.name},
          {"title", scenario.title},
          {"made_by", options.made_by},
          {"units", units_word(options.units)},
          {"calibrated", options.learned_from > 0},
          {"gas", scenario.fluid.kind == scenario::FluidKind::gas},
          {"bit",
           {{"name", bit.name},
            {"diameter", number(2.0 * bit.layout.bit_radius)},
            {"blades", bit.layout.blades},
            {"cutters", bit.layout.count()},
            {"grade", spoken(bit.kinds.front().grade.name)},
            {"body", spoken(bit.body.name)}}},
          {"fluid", spoken(scenario.fluid.name)},
          {"holes", scenario.repeat.holes},
          {"bottom", number(scenario.column.layers.back().bottom)},
          {"weight_limit", number(scenario.weight_limit)},
          {"rows", std::move(rows)},
          {"verdict", std::move(verdict)},
          {"pull", pull_of(scenario, outcome)},
          {"inspect", inspect_words(band, outcome)},
          {"pull_sooner", std::move(sooner)},
          {"band_words", low != nullptr && high != nullptr
                             ? "low life " + end_words(*low) + ", high life " + end_words(*high)
                             : std::string()},
          {"estimates", estimate_words(options.learned_from)},
          {"cautions", caution_words()}};
}

}  // namespace dullcast::pages
