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
    : bit_(bit), spacing_(spacing) {
  const auto n = static_cast<std::size_t>(bit.count());
  passing_order_.resize(n);
  std::iota(passing_order_.begin(), passing_order_.end(), 0);
  // The cutter at the larger azimuth passes a point first; at equal azimuth the lower number.
  std::stable_sort(passing_order_.begin(), passing_order_.end(),
                   [&](int first, int second) { return bit_.azimuth(first) > bit_.azimuth(second); });
  for (Eigen::Index i = 0; i < bit.count(); ++i) {
    const CutterShape& shape = bit.shape(i);
    outlines_.push_back(make_outline(bit, i, 0.0));
    const Outline& outline = outlines_.back();
    contact_.push_back({bearing_land(shape, bit.back_rake(i), law), shape.edge_radius,
                        1.0 / std::max(outline.rake_sine, least_rake_sine), 1.0 / outline.side_cosine,
                        shape.table_thickness / outline.rake_cosine, shape.length / outline.rake_cosine});
  }
  standing_.resize(n);
  flat_weight_total_.setZero(bit.count());
  place_base_nodes();
  // Room for any wear, so that updates do not allocate.
  const std::size_t cells = base_nodes_.size() + 4 * n + 4;
  for (std::vector<double>* nodes : {&breaks_, &nodes_}) nodes->reserve(cells + 1);
  cells_.reserve(cells);
  filled_.reserve(cells);
  segments_.reserve(cells * std::min<std::size_t>(n, 6));
  traces_.reserve(segments_.capacity());
  worn_.setZero(bit.count());
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
  if (made_ && (u == worn_).all()) return;
  made_ = false;  // until all is
  core_radius_ = bit_.bit_radius;
  outer_radius_ = 0.0;
  breaks_.clear();
  for (Eigen::Index i = 0; i < bit_.count(); ++i) {
    const auto index = static_cast<std::size_t>(i);
    // The edge radius stands in for a flat that has not formed yet.
    const double flat_height = std::max(u(i), contact_[index].edge_radius);
    Outline& outline = outlines_[index];
    outline.wear_to(flat_height);
    const double edge_flat_inner = outline.flat_inner, edge_flat_outer = outline.flat_outer;
    if (u(i) < flat_height) outline.wear_to(u(i));
    core_radius_ = std::min(core_radius_, std::max(0.0, outline.reach_inner));
    outer_radius_ = std::max(outer_radius_, outline.reach_outer);
    for (const double r : {outline.reach_inner, outline.reach_outer, edge_flat_inner, edge_flat_outer}) {
      breaks_.push_back(r);
    }
  }
  place_nodes();
  place_cells();
  find_standing();
  fill_segments(u);
  worn_ = u;
  made_ = true;
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

void WornProfile::place_cells() {
  cells_.clear();
  const double least_width = 1e-9 * spacing_;
  for (std::size_t k = 0; k + 1 < nodes_.size(); ++k) {
    if (nodes_[k + 1] - nodes_[k] > least_width) cells_.push_back({nodes_[k], nodes_[k + 1], 0, 0});
  }
}

/// Which cutters stand over the middle of which cells; cells without any are taken out.
void WornProfile::find_standing() {
  const auto find = [&] {
    for (ProfileCell& cell : cells_) cell.count = 0;
    for (std::size_t i = 0; i < outlines_.size(); ++i) {
      const Outline& outline = outlines_[i];
      const auto middle = [](const ProfileCell& cell) { return 0.5 * (cell.inner + cell.outer); };
      const auto first = std::partition_point(cells_.begin(), cells_.end(), [&](const ProfileCell& cell) {
        return !(middle(cell) > outline.reach_inner);
      });
      const auto last = std::partition_point(
          first, cells_.end(), [&](const ProfileCell& cell) { return middle(cell) < outline.reach_outer; });
      standing_[i] = {static_cast<std::size_t>(first - cells_.begin()),
                      static_cast<std::size_t>(last - cells_.begin())};
      for (auto cell = first; cell != last; ++cell) ++cell->count;
    }
  };
  find();
  const auto empty = [](const ProfileCell& cell) { return cell.count == 0; };
  if (std::any_of(cells_.begin(), cells_.end(), empty)) {
    std::erase_if(cells_, empty);
    find();
  }
}

void WornProfile::fill_segments(const Eigen::ArrayXd& u) {
  int total = 0;
  for (ProfileCell& cell : cells_) {
    if (cell.count > most_overlapping_cutters)
      throw std::length_error("more cutters over one radius than 32");
    cell.first = total;
    total += cell.count;
  }
  segments_.resize(static_cast<std::size_t>(total));
  traces_.resize(segments_.size());
  filled_.assign(cells_.size(), 0);
  flat_weight_total_.setZero();
  // Cutter by cutter in the order of passing, so that each cell's segments stand in that order too.
  for (const int cutter : passing_order_) {
    const auto index = static_cast<std::size_t>(cutter);
    const Outline& outline = outlines_[index];
    const double phase = bit_.azimuth(cutter) / two_pi;
    double radius = -1.0, depth = 0.0;  // of the last node
    for (std::size_t k = standing_[index].first; k < standing_[index].second; ++k) {
      const ProfileCell& cell = cells_[k];
      const int next = cell.first + filled_[k]++;
      const auto place = static_cast<std::size_t>(next);
      OutlineSegment& s = segments_[place];
      s.depth_inner = radius == cell.inner ? depth : outline.depth_at(cell.inner);
      s.depth_outer = depth = outline.depth_at(cell.outer);
      radius = cell.outer;
      s.pass_phase = phase;
      traces_[place] = {s.depth_inner, s.depth_outer, phase};
      fill(s, cutter, cell, u(cutter));
      flat_weight_total_(cutter) += s.flat_weight * ((cell.outer - cell.inner) / s.cosine);
    }
  }
}

/// All of a segment but its depths.
void WornProfile::fill(OutlineSegment& s, int cutter, const ProfileCell& cell, double u) const {
  const Outline& outline = outlines_[static_cast<std::size_t>(cutter)];
  const ContactLaw& contact = contact_[static_cast<std::size_t>(cutter)];
  s.cutter = cutter;
  const double width = cell.outer - cell.inner;
  const double rise = s.depth_outer - s.depth_inner;
  const double chord = std::sqrt(width * width + rise * rise);
  s.cosine = width / chord;

  const double x =
      outline.across_face(0.5 * (cell.inner + cell.outer), 0.5 * (s.depth_inner + s.depth_outer));
  const double a = outline.a;
  const double arc = std::sqrt(std::max(0.0, (a - x) * (a + x))) - a;
  const double worn = std::max(0.0, u + arc);
  const double flat_length = std::min(worn * contact.per_height, contact.whole);
  s.diamond_length = std::max(contact.land, std::min(flat_length, contact.table)) * contact.per_turn;
  s.diamond_per_cosine = s.diamond_length / s.cosine;
  s.carbide_length = std::max(0.0, flat_length - contact.table) * contact.per_turn;
  const double edge_worn = std::max(0.0, std::max(u, contact.edge_radius) + arc);
  s.flat_weight = std::min(edge_worn * contact.per_height, contact.table) * contact.per_turn;
}

}  // namespace dullcast::geometry
