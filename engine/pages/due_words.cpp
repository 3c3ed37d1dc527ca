#include "engine/pages/due_words.hpp"

#include <algorithm>
#include <optional>
#include <utility>

#include "engine/analysis/suitability.hpp"
#include "engine/base/display.hpp"
#include "engine/pages/run_words.hpp"

namespace dullcast::pages {
namespace {

/// The layer whose verdict is worst, the first of them; nothing where every one is fit.
std::optional<analysis::LayerSuitability> worst_layer(const scenario::Scenario& scenario,
                                                      const simulation::RunOutcome& outcome) {
  std::optional<analysis::LayerSuitability> worst;
  for (analysis::LayerSuitability& layer : analysis::suitability(scenario, outcome)) {
    if (layer.findings.empty()) continue;
    // Of equal verdicts heat, wear and breakage come before what only wants more flow.
    const auto weight = [](const analysis::LayerSuitability& one) {
      return std::pair(static_cast<int>(one.verdict), -static_cast<int>(one.findings.front().concern));
    };
    if (!worst || weight(layer) > weight(*worst)) worst = std::move(layer);
  }
  return worst;
}

/// Whether a mishap stops the flow in a layer: heat and steam there are not the settings' doing.
bool loses_flow(const scenario::Scenario& scenario, const analysis::LayerGround& ground) {
  return std::any_of(scenario.upsets.begin(), scenario.upsets.end(), [&](const scenario::Upset& upset) {
    return upset.flow && *upset.flow == 0.0 && upset.from >= ground.top && upset.from < ground.bottom;
  });
}

/// The verdict on the column by its worst layer, and what it rests on.
std::string verdict_of(const std::optional<analysis::LayerSuitability>& worst, base::ShownUnits units) {
  if (!worst) return std::string(analysis::verdict_words(analysis::Verdict::go)) + " in every layer";
  return std::string(analysis::verdict_words(worst->verdict)) + ": " + spoken(worst->ground.rock) + ", " +
         analysis::finding_words(*worst, worst->findings.front(), units);
}

}  // namespace

std::string due_words(const scenario::Scenario& scenario, const simulation::RunOutcome& outcome) {
  if (outcome.rework_due)
    return "hole " + std::to_string(outcome.rework_due->hole + 1) + " of " +
           std::to_string(scenario.repeat.holes);
  if (outcome.ended_by == simulation::EndedBy::blade_sheared)
    return "a blade sheared in hole " + std::to_string(outcome.holes_finished + 1);
  if (outcome.ended_by == simulation::EndedBy::stopped_drilling)
    return "stopped drilling in hole " + std::to_string(outcome.holes_finished + 1);
  return "not in " + holes_words(outcome.holes_finished);
}

std::string end_words(const simulation::LifeEnd& end) {
  return end.due != 0 ? "hole " + std::to_string(end.hole + 1)
                      : "not within hole " + std::to_string(end.hole + 1);
}

std::string verdict_in_a_line(const scenario::Scenario& scenario, const simulation::RunOutcome& outcome,
                              base::ShownUnits units) {
  return verdict_of(worst_layer(scenario, outcome), units);
}

const simulation::LifeEnd* end_named(const std::vector<simulation::LifeEnd>& band, std::string_view name) {
  const auto found =
      std::find_if(band.begin(), band.end(), [&](const simulation::LifeEnd& end) { return end.end == name; });
  return found == band.end() ? nullptr : &*found;
}

std::string inspect_words(const std::vector<simulation::LifeEnd>& band,
                          const simulation::RunOutcome& outcome) {
  const simulation::LifeEnd* low = end_named(band, "low");
  if (low != nullptr && low->due != 0)
    return low->hole == 0 ? "in the first hole already: one bit in ten is due within it"
                          : "after hole " + std::to_string(low->hole) +
                                " at the latest: one bit in ten is due in the next";
  if (low == nullptr && outcome.rework_due && outcome.rework_due->hole == 0)
    return "in the first hole already: no band was asked for";
  if (low == nullptr && outcome.rework_due)
    return "well before hole " + std::to_string(outcome.rework_due->hole + 1) + ": no band was asked for";
  return "whenever it is out of the hole";
}

std::string remedy(analysis::Concern concern, const std::string& rock) {
  switch (concern) {
    case analysis::Concern::heat:
      return "less weight or speed, or more flow, in " + rock + " (dullcast window shows how much)";
    case analysis::Concern::wear:
      return "plan on more bits for " + rock + ", or take a harder grade and less speed there";
    case analysis::Concern::chips:
      return "ease weight and speed into " + rock + ", and look at every edge after it";
    case analysis::Concern::retention:
      return "less weight in " + rock + ", and look at every braze after it";
    case analysis::Concern::progress:
    case analysis::Concern::standstill:
      return "more weight within the limit in " + rock + ", or another bit";
    case analysis::Concern::packing:
    case analysis::Concern::cleaning:
      return "more flow, or a slower feed, in " + rock + " so that cuttings leave";
    case analysis::Concern::balling:
      return "more flow and a lighter feed in " + rock + " so that it does not stick";
    case analysis::Concern::steam:
      return "more flow in " + rock + ", and lift off bottom at once when it fails";
  }
  return "";
}

std::string first_to_do(const scenario::Scenario& scenario, const simulation::RunOutcome& outcome,
                        bool calibrated) {
  const std::optional<analysis::LayerSuitability> worst = worst_layer(scenario, outcome);
  if (!worst)
    return calibrated ? "" : "measure one dull bit's cutters (calibrate_from): nothing narrows the band more";
  const analysis::Concern concern = worst->findings.front().concern;
  const bool burnt = (concern == analysis::Concern::heat || concern == analysis::Concern::steam) &&
                     loses_flow(scenario, worst->ground);
  return burnt ? "lift off bottom at once when the flow fails, and come back only with flow"
               : remedy(concern, spoken(worst->ground.rock));
}

std::string beyond_words(const simulation::Milestone& beyond) {
  if (beyond.rule == "blade_sheared") return "a blade sheared off";
  if (beyond.cutters.empty()) return "pockets eroded";
  return cutter_words(beyond.cutters) + " worn near the blade";
}

}  // namespace dullcast::pages
