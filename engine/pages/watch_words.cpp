#include "engine/pages/watch_words.hpp"

#include "engine/pages/json_parts.hpp"

namespace dullcast::pages {
namespace {

/// Nearer than this to faster wear, flats are worth a word [asm].
constexpr double near_heat = 50.0;  // K

const char* watch_for(analysis::Concern concern) {
  using analysis::Concern;
  switch (concern) {
    case Concern::heat:
    case Concern::steam:
      return "flow lost: lift off at once";
    case Concern::wear:
      return "wears cutters fast: no more speed";
    case Concern::chips:
      return "chips edges: ease into it, back off where the bit bounces";
    case Concern::retention:
      return "heavy on seats and brazes: no more weight than this";
    case Concern::progress:
      return "slow going: do not pile on weight";
    case Concern::standstill:
      return "the bit may stop drilling: pull rather than push";
    case Concern::packing:
      return "slots pack: slow the feed, keep the flow up";
    case Concern::cleaning:
      return "cuttings lag: flush before each rod";
    case Concern::balling:
      return "balls up: torque or pressure rises, lift and flush";
  }
  return "";
}

}  // namespace

nlohmann::json watch_words(const analysis::LayerSuitability& layer, const scenario::Scenario& scenario) {
  nlohmann::json all = nlohmann::json::array();
  const auto say = [&](const std::string& words) {
    const nlohmann::json sentence = told([&](base::ShownUnits) { return words; });
    for (const nlohmann::json& said : all)
      if (said == sentence) return;
    all.push_back(sentence);
  };
  const double faster = scenario.numbers.acceleration_temperature.central, hot = layer.ground.hottest_flat;
  if (hot > faster - near_heat)
    all.push_back(told([&](base::ShownUnits units) {
      return "cutters to " + base::show(hot, base::shown::temperature, units) + ": hold the flow";
    }));
  for (const analysis::Finding& finding : layer.findings) say(watch_for(finding.concern));
  const std::string& note = scenario.column.layers.at(static_cast<std::size_t>(layer.ground.layer)).rock.note;
  if (!note.empty()) say(note);
  return all;
}

}  // namespace dullcast::pages
