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

bool is_kind(int kind, const std::vector<CutterShape>& shapes) {
  return kind >= 0 && kind < static_cast<int>(shapes.size());
}

void check(const BladePlan& plan, const std::vector<CutterShape>& shapes) {
  if (!(plan.bit_diameter > 0.0)) refuse("the bit diameter must be above 0");
  if (shapes.empty()) refuse("there must be at least one kind of cutter");
  for (const CutterShape& shape : shapes) {
    if (!(shape.radius > 0.0) || !(2.0 * shape.radius < 0.5 * plan.bit_diameter)) {
      refuse("a cutter must be narrower than half the bit");
    }
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
  if (!plan.wing_twist.empty() &&
      plan.wing_twist.size() != static_cast<std::size_t>(plan.cutters_per_blade.size()))
    refuse("there must be one twist for every blade");
  for (std::size_t k = 0; k < plan.zones.size(); ++k) {
    if (!is_kind(plan.zones[k].kind, shapes)) refuse("a zone has cutters of a kind that is not there");
    if (k > 0 && !(plan.zones[k - 1].from < plan.zones[k].from)) refuse("zones must be in rising order");
  }
  const Eigen::Index n = plan.cutters_per_blade.sum();
  for (const FittedCutter& fitted : plan.fitted) {
    if (!(fitted.cutter >= 0 && fitted.cutter < n)) refuse("a cutter is fitted that the bit does not have");
    if (!is_kind(fitted.kind, shapes)) refuse("a cutter is fitted of a kind that is not there");
  }
}

/// Share of the outermost tip's radius at which cutter k of n sits.
double tip_share(const BladePlan& plan, Eigen::Index k, Eigen::Index n) {
  return std::pow((static_cast<double>(k) + 0.5) / (static_cast<double>(n) - 0.5), plan.crowding);
}

Eigen::ArrayXi kinds_of(const BladePlan& plan, Eigen::Index n) {
  Eigen::ArrayXi kinds = Eigen::ArrayXi::Zero(n);
  for (Eigen::Index k = 0; k < n; ++k) {
    for (const KindZone& zone : plan.zones)
      if (tip_share(plan, k, n) >= zone.from) kinds(k) = zone.kind;
  }
  for (const FittedCutter& fitted : plan.fitted) kinds(fitted.cutter) = fitted.kind;
  return kinds;
}

/// Turns each blade's cutters so that azimuth falls linearly from its innermost to its outermost cutter.
void twist_wings(const BladePlan& plan, BitLayout& bit) {
  for (std::size_t b = 0; b < plan.wing_twist.size(); ++b) {
    double inner = bit.bit_radius, outer = 0.0;
    for (Eigen::Index i = 0; i < bit.count(); ++i) {
      if (bit.blade(i) != static_cast<int>(b)) continue;
      inner = std::min(inner, bit.radius(i)), outer = std::max(outer, bit.radius(i));
    }
    if (!(outer > inner)) continue;
    const WingTwist& twist = plan.wing_twist[b];
    const double angle = twist.angle + twist.arc / bit.bit_radius;
    for (Eigen::Index i = 0; i < bit.count(); ++i) {
      if (bit.blade(i) == static_cast<int>(b))
        bit.azimuth(i) -= angle * (bit.radius(i) - inner) / (outer - inner);
    }
  }
}

}  // namespace

void resize(BitLayout& bit, Eigen::Index cutters) {
  for (auto* field : {&bit.radius, &bit.azimuth, &bit.depth, &bit.back_rake, &bit.side_rake,
                      &bit.profile_angle, &bit.exposure}) {
    field->setZero(cutters);
  }
  bit.blade.setZero(cutters);
  bit.kind.setZero(cutters);
}

Eigen::ArrayXd cutter_radii(const BitLayout& bit) {
  Eigen::ArrayXd radii(bit.count());
  for (Eigen::Index i = 0; i < bit.count(); ++i) radii(i) = bit.shape(i).radius;
  return radii;
}

BitLayout lay_out_blades(const BladePlan& plan, const CutterShape& shape) {
  return lay_out_mixed(plan, std::vector<CutterShape>{shape});
}

BitLayout lay_out_mixed(const BladePlan& plan, const std::vector<CutterShape>& shapes) {
  check(plan, shapes);
  const Eigen::Index blades = plan.cutters_per_blade.size();
  const Eigen::Index n = plan.cutters_per_blade.sum();

  BitLayout bit;
  bit.bit_radius = 0.5 * plan.bit_diameter;
  bit.blades = static_cast<int>(blades);
  bit.shapes = shapes;
  resize(bit, n);
  bit.kind = kinds_of(plan, n);

  // The outermost tip sits so that the outline's reach is the bit radius.
  bit.profile_angle(n - 1) = plan.gauge_angle;
  bit.back_rake(n - 1) = plan.outer_back_rake;
  bit.side_rake(n - 1) = plan.side_rake;
  const double tip_radius = bit.bit_radius - make_outline(bit, n - 1, 0.0).reach_outer;
  const double nose_radius = plan.nose_share * bit.bit_radius;
  if (!(tip_radius > nose_radius)) refuse("the nose lies outside the outermost cutter");
  const TipProfile profile{nose_radius, (tip_radius - nose_radius) / std::sin(plan.gauge_angle),
                           std::sin(plan.cone_angle)};

  // From gauge inward, so that blades with a cutter more reach further towards the axis.
  Eigen::ArrayXi room = plan.cutters_per_blade;
  Eigen::Index next_blade = 0;
  for (Eigen::Index k = n - 1; k >= 0; --k) {
    while (room(next_blade) == 0) next_blade = (next_blade + 1) % blades;
    const double r = tip_share(plan, k, n) * tip_radius;
    bit.radius(k) = r;
    bit.azimuth(k) = two_pi * static_cast<double>(next_blade) / static_cast<double>(blades) -
                     (plan.wing_twist.empty() ? plan.wing_sweep * r / bit.bit_radius : 0.0);
    bit.depth(k) = profile.depth(r);
    bit.profile_angle(k) = k == n - 1 ? plan.gauge_angle : profile.angle(r);
    bit.back_rake(k) = 3.0 * r <= 2.0 * bit.bit_radius ? plan.inner_back_rake : plan.outer_back_rake;
    bit.side_rake(k) = plan.side_rake;
    bit.exposure(k) = plan.exposure.value_or(bit.shape(k).radius);
    bit.blade(k) = static_cast<int>(next_blade);
    --room(next_blade);
    next_blade = (next_blade + 1) % blades;
  }
  twist_wings(plan, bit);
  for (double& azimuth : bit.azimuth) azimuth -= two_pi * std::floor(azimuth / two_pi);
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
