#include "engine/pages/ground_view.hpp"

#include <algorithm>

#include "engine/pages/due_words.hpp"
#include "engine/pages/json_parts.hpp"
#include "engine/pages/rock_pattern.hpp"
#include "engine/pages/run_words.hpp"
#include "engine/scenario/operating_weight.hpp"

namespace dullcast::pages {
namespace {

using nlohmann::json;

json layers_of(const scenario::Scenario& scenario) {
  json all = json::array();
  for (const scenario::Layer& layer : scenario.column.layers) {
    const scenario::RockRecord& rock = layer.rock;
    all.push_back({{"number", all.size() + 1},
                   {"top", number(layer.top)},
                   {"bottom", number(layer.bottom)},
                   {"rock", spoken(rock.name)},
                   {"pattern", rock_pattern(rock)},
                   {"note", rock.note},
                   {"hard_on_cutters", rock.hard_on_cutters},
                   {"strength", number(rock.unconfined_strength.central)},
                   {"abrasivity", number(rock.cerchar_abrasivity.central)},
                   {"stone_share", number(rock.inclusion_share.central)},
                   {"stickiness", number(rock.stickiness.central)},
                   {"excess_pressure", number(layer.excess_pressure)}});
  }
  return all;
}

json intervals_of(const scenario::Scenario& scenario) {
  json all = json::array();
  for (const scenario::OperatingInterval& interval : scenario.plan) {
    const double weight = planned_weight(scenario, interval, 0.5 * (interval.from + interval.to));
    all.push_back({{"from", number(interval.from)},
                   {"to", number(interval.to)},
                   {"weight", number(weight)},
                   {"rotary_speed", number(interval.rotary_speed)},
                   {"flow", number(interval.flow)},
                   {"mist_water", number(interval.mist_water)},
                   {"feed_limit", interval.feed_limit ? number(*interval.feed_limit) : json(nullptr)}});
  }
  return all;
}

json upsets_of(const scenario::Scenario& scenario) {
  json all = json::array();
  for (const scenario::Upset& upset : scenario.upsets)
    all.push_back({{"number", all.size() + 1},
                   {"from", number(upset.from)},
                   {"hole", upset.hole >= 0 ? json(upset.hole + 1) : json(nullptr)},
                   {"lasts", number(upset.lasts)}});
  return all;
}

}  // namespace

double planned_weight(const scenario::Scenario& scenario, const scenario::OperatingInterval& interval,
                      double depth) {
  const double density =
      scenario::fluid_at_bit(scenario.fluid, interval, scenario.inlet_temperature).fluid.density;
  return scenario::weight_on_bit(interval, scenario::drill_string_of(scenario.string), density, depth);
}

nlohmann::json reasons_view(const analysis::LayerSuitability& layer) {
  const std::vector<std::string> field = analysis::reasons(layer, base::ShownUnits::field),
                                 si = analysis::reasons(layer, base::ShownUnits::si);
  json why = json::array();
  for (std::size_t k = 0; k < field.size(); ++k) why.push_back({{"field", field[k]}, {"si", si[k]}});
  return why;
}

const char* verdict_name(analysis::Verdict verdict) {
  switch (verdict) {
    case analysis::Verdict::go:
      return "go";
    case analysis::Verdict::with_care:
      return "with_care";
    case analysis::Verdict::wrong_bit:
      return "wrong_bit";
    case analysis::Verdict::not_reached:
      break;
  }
  return "not_reached";
}

nlohmann::json ground_view(const scenario::Scenario& scenario) {
  const bool gas = scenario.fluid.kind == scenario::FluidKind::gas;
  return {{"layers", layers_of(scenario)},
          {"water_level", number(scenario.column.water_level)},
          {"intervals", intervals_of(scenario)},
          {"gas", gas},
          {"fluid",
           {{"name", spoken(scenario.fluid.name)},
            {"gas", gas},
            {"inlet_temperature", number(scenario.inlet_temperature)}}},
          {"weight_limit", number(scenario.weight_limit)},
          {"upsets", upsets_of(scenario)}};
}

nlohmann::json verdict_view(const scenario::Scenario& scenario, const simulation::RunOutcome& outcome) {
  const std::vector<analysis::LayerSuitability> layers = analysis::suitability(scenario, outcome);
  json all = json::array();
  analysis::Verdict worst = analysis::Verdict::not_reached;
  for (const analysis::LayerSuitability& layer : layers) {
    worst = std::max(worst, layer.verdict);
    all.push_back({{"layer", layer.ground.layer + 1},
                   {"grade", verdict_name(layer.verdict)},
                   {"words", analysis::verdict_words(layer.verdict)},
                   {"why", reasons_view(layer)}});
  }
  return {
      {"words", told([&](base::ShownUnits units) { return verdict_in_a_line(scenario, outcome, units); })},
      {"grade", verdict_name(worst)},
      {"layers", std::move(all)}};
}

}  // namespace dullcast::pages
