#include "engine/pages/bit_view.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <vector>

#include "engine/pages/json_parts.hpp"
#include "engine/pages/run_words.hpp"
#include "models/common/constants.hpp"
#include "models/geometry/outline.hpp"

namespace dullcast::pages {
namespace {

/// The zone that people speak of: by the profile angle at the tip and by the nose, the lowest place of the
/// profile [common practice].
const char* zone_of(const geometry::BitLayout& bit, Eigen::Index i) {
  const double angle = bit.profile_angle(i);
  if (angle < -1e-9) return "cone";
  // The outermost cutters, whose outline reaches the wall.
  const geometry::Outline outline = geometry::make_outline(bit, i, 0.0);
  if (outline.reach_outer > bit.bit_radius * (1.0 - 1e-3)) return "gauge";
  return angle < pi / 9.0 ? "nose" : "shoulder";
}

nlohmann::json cutter_of(const scenario::BitRecord& bit, Eigen::Index i) {
  const geometry::BitLayout& layout = bit.layout;
  const geometry::CutterShape& shape = layout.shape(i);
  const auto start = [&](const Eigen::ArrayXd& values) { return i < values.size() ? values(i) : 0.0; };
  const auto flag = [&](const Eigen::ArrayXi& values) { return i < values.size() && values(i) != 0; };
  return {{"number", i + 1},
          {"blade", layout.blade(i) + 1},
          {"zone", zone_of(layout, i)},
          {"radius", number(layout.radius(i))},
          {"depth", number(layout.depth(i))},
          {"azimuth", number(layout.azimuth(i))},
          {"profile_angle", number(layout.profile_angle(i))},
          {"back_rake", number(layout.back_rake(i))},
          {"side_rake", number(layout.side_rake(i))},
          {"exposure", number(layout.exposure(i))},
          {"diameter", number(2.0 * shape.radius)},
          {"length", number(shape.length)},
          {"table_thickness", number(shape.table_thickness)},
          {"bevel_width", number(shape.bevel_width)},
          {"bevel_angle", number(shape.bevel_angle)},
          {"leach_depth", number(shape.leach_depth)},
          {"kind", spoken(bit.kinds[static_cast<std::size_t>(layout.kind(i))].name)},
          {"grade", spoken(bit.grade_of(i).name)},
          {"starting_wear", number(start(bit.starting_wear))},
          {"starts_lost", flag(bit.starting_lost)},
          {"starts_without_table", flag(bit.starting_table_gone)},
          {"starts_chipped", flag(bit.starting_chipped)}};
}

/// The lowest of all unworn outlines at radii from the axis to the wall.
nlohmann::json profile_of(const geometry::BitLayout& bit) {
  constexpr int places = 160;
  std::vector<geometry::Outline> outlines;
  for (Eigen::Index i = 0; i < bit.count(); ++i) outlines.push_back(geometry::make_outline(bit, i, 0.0));
  nlohmann::json radii = nlohmann::json::array(), depths = nlohmann::json::array();
  for (int k = 0; k <= places; ++k) {
    const double r = bit.bit_radius * k / places;
    double z = -std::numeric_limits<double>::infinity();
    for (const geometry::Outline& outline : outlines) {
      if (r >= outline.reach_inner && r <= outline.reach_outer) z = std::max(z, outline.depth_at(r));
    }
    radii.push_back(number(r));
    depths.push_back(number(z));
  }
  return {{"radius", std::move(radii)}, {"depth", std::move(depths)}};
}

}  // namespace

nlohmann::json bit_view(const scenario::Scenario& scenario) {
  const scenario::BitRecord& bit = scenario.bit;
  nlohmann::json cutters = nlohmann::json::array();
  for (Eigen::Index i = 0; i < bit.layout.count(); ++i) cutters.push_back(cutter_of(bit, i));
  return {{"name", bit.name},
          {"diameter", number(2.0 * bit.layout.bit_radius)},
          {"blades", bit.layout.blades},
          {"body", spoken(bit.body.name)},
          {"lot", spoken(bit.lot.name)},
          {"blade_thickness", number(bit.build.blade_thickness)},
          {"port_diameter", number(bit.build.port_diameter)},
          {"cutters", std::move(cutters)},
          {"profile", profile_of(bit.layout)}};
}

}  // namespace dullcast::pages
