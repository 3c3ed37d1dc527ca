#include "models/geometry/worn_profile.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <stdexcept>

#include "models/common/constants.hpp"

namespace dullcast::geometry {

namespace {
/// A pocket is milled and brazed no truer than a degree [asm]: a cutter meant to stand at no back rake has
/// this one, and its flat grows with wear instead of being all there at the first micrometre.
const double least_rake_sine = std::sin(pi / 180.0);
}  // namespace

WornProfile::WornProfile(const BitLayout& bit, const EdgeLaw& law, double spacing)
    : bit_(bit), land_(bit.count()), spacing_(spacing) {
  const auto n = static_cast<std::size_t>(bit.count());
  for (Eigen::Index i = 0; i < bit.count(); ++i) land_(i) = bearing_land(bit.shape(i), bit.back_rake(i), law);
  passing_order_.resize(n);
  std::iota(passing_order_.begin(), passing_order_.end(), 0);
  // The cutter at the larger azimuth passes a point first; at equal azimuth the lower number.
  std::stable_sort(passing_order_.begin(), passing_order_.end(),
                   [&](int first, int second) { return bit_.azimuth(first) > bit_.azimuth(second); });
  outlines_.resize(n);
  node_depth_.assign(n, 0.0);
  node_radius_.assign(n, -1.0);
  flat_weight_total_.setZero(bit.count());
  place_base_nodes();
}

void WornProfile::place_base_nodes() {
  constexpr double least_share = 0.125;  // near gauge, where the profile is nearly upright
  for (double r = spacing_; r < bit_.bit_radius + spacing_;) {
    Eigen::Index nearest = 0;
    (bit_.radius - r).abs().minCoeff(&nearest);
    base_nodes_.push_back(r);
    r += spacing_ * std::max(least_share, std::pow(std::abs(std::cos(bit_.profile_angle(nearest))), 1.5));
  }
}

void WornProfile::update(const Eigen::ArrayXd& u) {
  core_radius_ = bit_.bit_radius;
  outer_radius_ = 0.0;
  breaks_.clear();
  for (Eigen::Index i = 0; i < bit_.count(); ++i) {
    // The edge radius stands in for a flat that has not formed yet.
    const double flat_height = std::max(u(i), bit_.shape(i).edge_radius);
    Outline& outline = outlines_[static_cast<std::size_t>(i)];
    outline = make_outline(bit_, i, flat_height);
    const double edge_flat_inner = outline.flat_inner, edge_flat_outer = outline.flat_outer;
    if (u(i) < flat_height) outline = make_outline(bit_, i, u(i));
    core_radius_ = std::min(core_radius_, std::max(0.0, outline.reach_inner));
    outer_radius_ = std::max(outer_radius_, outline.reach_outer);
    for (const double r : {outline.reach_inner, outline.reach_outer, edge_flat_inner, edge_flat_outer}) {
      breaks_.push_back(r);
    }
  }
  place_nodes();
  fill_cells(u);
}

void WornProfile::place_nodes() {
  // The outermost outline falls away steeply at its end: finer cells there.
  for (const double share : {1.0 / 64.0, 1.0 / 16.0, 1.0 / 4.0})
    breaks_.push_back(outer_radius_ - share * spacing_);
  breaks_.push_back(core_radius_);
  std::sort(breaks_.begin(), breaks_.end());
  nodes_.clear();
  auto base = base_nodes_.begin();
  while (base != base_nodes_.end() && *base <= core_radius_) ++base;
  for (const double r : breaks_) {
    if (r < core_radius_ || r > outer_radius_) continue;
    for (; base != base_nodes_.end() && *base < r; ++base) nodes_.push_back(*base);
    nodes_.push_back(r);
  }
}

void WornProfile::fill_cells(const Eigen::ArrayXd& u) {
  cells_.clear();
  segments_.clear();
  flat_weight_total_.setZero();
  std::fill(node_radius_.begin(), node_radius_.end(), -1.0);
  const double least_width = 1e-9 * spacing_;
  for (std::size_t k = 0; k + 1 < nodes_.size(); ++k) {
    const double inner = nodes_[k], outer = nodes_[k + 1];
    if (!(outer - inner > least_width)) continue;
    ProfileCell cell{inner, outer, static_cast<int>(segments_.size()), 0};
    const double middle = 0.5 * (inner + outer);
    for (const int cutter : passing_order_) {
      const Outline& outline = outlines_[static_cast<std::size_t>(cutter)];
      if (middle > outline.reach_inner && middle < outline.reach_outer)
        add_segment(cutter, inner, outer, u(cutter));
    }
    cell.count = static_cast<int>(segments_.size()) - cell.first;
    if (cell.count > most_overlapping_cutters)
      throw std::length_error("more cutters over one radius than 32");
    if (cell.count > 0) cells_.push_back(cell);
  }
}

void WornProfile::add_segment(int cutter, double inner, double outer, double u) {
  const auto index = static_cast<std::size_t>(cutter);
  const Outline& outline = outlines_[index];
  OutlineSegment s;
  s.cutter = cutter;
  s.pass_phase = bit_.azimuth(cutter) / two_pi;
  s.depth_inner = node_radius_[index] == inner ? node_depth_[index] : outline.depth_at(inner);
  s.depth_outer = outline.depth_at(outer);
  node_radius_[index] = outer;
  node_depth_[index] = s.depth_outer;

  const double width = outer - inner;
  const double rise = s.depth_outer - s.depth_inner;
  const double chord = std::sqrt(width * width + rise * rise);
  s.cosine = width / chord;

  const double turned = outline.side_cosine;  // widths across the travel over those along the edge
  const double x = outline.across_face(0.5 * (inner + outer), 0.5 * (s.depth_inner + s.depth_outer));
  const double a = outline.a;
  const CutterShape& shape = bit_.shape(cutter);
  const double arc = std::sqrt(std::max(0.0, (a - x) * (a + x))) - a;
  const double worn = std::max(0.0, u + arc);
  const double sine = std::max(outline.rake_sine, least_rake_sine), cosine = outline.rake_cosine;
  const double table = shape.table_thickness / cosine, whole = shape.length / cosine;
  const double flat_length = std::min(worn / sine, whole);
  s.diamond_length = std::max(land_(cutter), std::min(flat_length, table)) / turned;
  s.diamond_per_cosine = s.diamond_length / s.cosine;
  s.carbide_length = std::max(0.0, flat_length - table) / turned;
  const double edge_worn = std::max(0.0, std::max(u, shape.edge_radius) + arc);
  s.flat_weight = std::min(edge_worn / sine, table) / turned;
  flat_weight_total_(cutter) += s.flat_weight * chord;
  segments_.push_back(s);
}

}  // namespace dullcast::geometry
