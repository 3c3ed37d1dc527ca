#include "engine/pages/window_view.hpp"

#include "engine/pages/json_parts.hpp"
#include "engine/pages/run_words.hpp"

namespace dullcast::pages {
namespace {

using nlohmann::json;

json optional_number(const std::optional<double>& value) {
  return value ? number(*value) : json(nullptr);
}

json view_of(const analysis::OperatingWindow& window) {
  json cells = json::array(), edges = json::array();
  for (const analysis::WindowCell& cell : window.cells) {
    cells.push_back({{"limit", analysis::window_limit_name(cell.limit)},
                     {"progress", number(cell.rate_of_penetration)},
                     {"hottest_flat", number(cell.hottest_flat)},
                     {"metres_to_allowance", number(cell.metres_to_allowance)},
                     {"cost_per_metre", optional_number(cell.cost_per_metre)}});
  }
  for (const analysis::WindowEdge& edge : window.edges) {
    edges.push_back({{"rotary_speed", number(edge.rotary_speed)},
                     {"greatest", optional_number(edge.greatest)},
                     {"least", optional_number(edge.least)},
                     {"above", analysis::window_limit_name(edge.above)},
                     {"below", analysis::window_limit_name(edge.below)}});
  }
  json weights = json::array(), speeds = json::array();
  for (const double weight : window.weights) weights.push_back(number(weight));
  for (const double speed : window.rotary_speeds) speeds.push_back(number(speed));
  const analysis::WindowCell& planned = window.planned;
  json limits = json::object();
  for (std::size_t k = 0; k < analysis::window_limit_count; ++k) {
    const auto limit = static_cast<analysis::WindowLimit>(k);
    limits[analysis::window_limit_name(limit)] = limit_words(limit);
  }
  return {{"layer", window.layer + 1},
          {"rock", spoken(window.rock)},
          {"top", number(window.top)},
          {"bottom", number(window.bottom)},
          {"flow", number(window.flow)},
          {"weights", std::move(weights)},
          {"rotary_speeds", std::move(speeds)},
          {"cells", std::move(cells)},
          {"edges", std::move(edges)},
          {"planned",
           {{"weight", number(planned.weight)},
            {"rotary_speed", number(planned.rotary_speed)},
            {"limit", analysis::window_limit_name(planned.limit)},
            {"words", limit_words(planned.limit)}}},
          {"limits", std::move(limits)}};
}

}  // namespace

const char* limit_words(analysis::WindowLimit limit) {
  using analysis::WindowLimit;
  switch (limit) {
    case WindowLimit::inside:
      return "inside";
    case WindowLimit::heat:
      return "cutters too hot";
    case WindowLimit::wear:
      return "wears too fast";
    case WindowLimit::chips:
      return "edges chip";
    case WindowLimit::retention:
      return "too hard on seats and brazes";
    case WindowLimit::progress:
      return "too slow";
    case WindowLimit::standstill:
      return "does not drill";
    case WindowLimit::packing:
      return "slots pack";
    case WindowLimit::film:
      return "steam on cutters";
    case WindowLimit::rubbing:
      return "blades rub";
    case WindowLimit::weight:
      return "over the weight limit";
    case WindowLimit::pressure:
      return "over the pump's pressure";
    case WindowLimit::failed:
      break;
  }
  return "not calculated";
}

nlohmann::json window_views(const std::vector<analysis::OperatingWindow>& windows) {
  json all = json::array();
  for (const analysis::OperatingWindow& window : windows) all.push_back(view_of(window));
  return all;
}

}  // namespace dullcast::pages
