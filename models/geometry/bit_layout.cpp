#include "models/geometry/bit_layout.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

#include "models/common/constants.hpp"
#include "models/geometry/outline.hpp"

namespace dullcast::geometry {
namespace {

/// Profile of the tips: a cone, a nose at z = 0 and a circular shoulder that ends at the gauge angle.
struct TipProfile {
  double nose_radius;      // m, where the profile angle is 0
  double shoulder_radius;  // m, of the arc
  double cone_sine;        // sine of the cone angle

  double angle(double r) const {
    return std::asin(std::clamp((r - nose_radius) / shoulder_radius, -cone_sine, 1.0));
  }
  double depth(double r) const {
    const double arc_inner = nose_radius - shoulder_radius * cone_sine;
    const double on_arc = std::max(r, arc_inner);
    const double arc_depth = -shoulder_radius * (1.0 - std::cos(angle(on_arc)));
    const double cone_cosine = std::sqrt(1.0 - cone_sine * cone_sine);
    return arc_depth - (on_arc - r) * cone_sine / cone_cosine;
  }
};

[[noreturn]] void refuse(const std::string& reason) {
  throw std::invalid_argument("blade plan: " + reason);
}

void check(const BladePlan& plan, const CutterShape& shape) {
  if (!(plan.bit_diameter > 0.0)) refuse("the bit diameter must be above 0");
  if (!(shape.radius > 0.0) || !(2.0 * shape.radius < 0.5 * plan.bit_diameter)) {
    refuse("a cutter must be narrower than half the bit");
  }
  if (plan.cutters_per_blade.size() < 1) refuse("there must be at least one blade");
  if ((plan.cutters_per_blade < 1).any()) refuse("every blade needs at least one cutter");
  if (!(plan.nose_share > 0.0 && plan.nose_share < 1.0)) refuse("the nose must lie between axis and gauge");
  if (!(plan.gauge_angle > 0.0 && plan.gauge_angle <= 0.5 * pi)) {
    refuse("the gauge angle must lie above 0 and up to 90 deg");
  }
  if (!(plan.cone_angle >= 0.0 && plan.cone_angle < 0.5 * pi))
    refuse("the cone angle must lie from 0 to 90 deg");
  if (!(plan.crowding > 0.0 && plan.crowding <= 2.0)) refuse("crowding must lie above 0 and up to 2");
}

}  // namespace

BitLayout lay_out_blades(const BladePlan& plan, const CutterShape& shape) {
  check(plan, shape);
  const Eigen::Index blades = plan.cutters_per_blade.size();
  const Eigen::Index n = plan.cutters_per_blade.sum();

  BitLayout bit;
  bit.bit_radius = 0.5 * plan.bit_diameter;
  bit.blades = static_cast<int>(blades);
  bit.shape = shape;
  for (auto* field : {&bit.radius, &bit.azimuth, &bit.depth, &bit.back_rake, &bit.side_rake,
                      &bit.profile_angle, &bit.exposure}) {
    field->setZero(n);
  }
  bit.blade.setZero(n);

  // The outermost tip sits so that the outline's reach is the bit radius.
  const double a = shape.radius;
  const double b = a * std::cos(plan.outer_back_rake);
  const double half_reach = std::hypot(a * std::cos(plan.gauge_angle), b * std::sin(plan.gauge_angle));
  const double tip_radius = bit.bit_radius - half_reach + b * std::sin(plan.gauge_angle);
  const double nose_radius = plan.nose_share * bit.bit_radius;
  if (!(tip_radius > nose_radius)) refuse("the nose lies outside the outermost cutter");
  const TipProfile profile{nose_radius, (tip_radius - nose_radius) / std::sin(plan.gauge_angle),
                           std::sin(plan.cone_angle)};

  // From gauge inward, so that blades with a cutter more reach further towards the axis.
  Eigen::ArrayXi room = plan.cutters_per_blade;
  Eigen::Index next_blade = 0;
  for (Eigen::Index k = n - 1; k >= 0; --k) {
    while (room(next_blade) == 0) next_blade = (next_blade + 1) % blades;
    const double share =
        std::pow((static_cast<double>(k) + 0.5) / (static_cast<double>(n) - 0.5), plan.crowding);
    const double r = share * tip_radius;
    const double azimuth = two_pi * static_cast<double>(next_blade) / static_cast<double>(blades) -
                           plan.wing_sweep * r / bit.bit_radius;
    bit.radius(k) = r;
    bit.azimuth(k) = azimuth - two_pi * std::floor(azimuth / two_pi);
    bit.depth(k) = profile.depth(r);
    bit.profile_angle(k) = k == n - 1 ? plan.gauge_angle : profile.angle(r);
    bit.back_rake(k) = 3.0 * r <= 2.0 * bit.bit_radius ? plan.inner_back_rake : plan.outer_back_rake;
    bit.side_rake(k) = plan.side_rake;
    bit.exposure(k) = plan.exposure;
    bit.blade(k) = static_cast<int>(next_blade);
    --room(next_blade);
    next_blade = (next_blade + 1) % blades;
  }
  if (bit.back_rake(n - 1) != plan.outer_back_rake)
    refuse("the outermost cutter does not sit in the outer third");
  return bit;
}

UncoveredBand first_uncovered_band(const BitLayout& bit, double tolerance) {
  std::vector<std::pair<double, double>> reaches;
  for (Eigen::Index i = 0; i < bit.count(); ++i) {
    const Outline outline = make_outline(bit, i, 0.0);
    reaches.emplace_back(outline.reach_inner, outline.reach_outer);
  }
  std::sort(reaches.begin(), reaches.end());
  double covered_to = reaches.empty() ? 0.0 : reaches.front().second;
  for (const auto& [inner, outer] : reaches) {
    if (inner > covered_to + tolerance) return {covered_to, inner};
    covered_to = std::max(covered_to, outer);
  }
  return {};
}

}  // namespace dullcast::geometry
