#include "models/geometry/worn_profile.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <stdexcept>

#include "models/common/bounds.hpp"
#include "models/common/constants.hpp"
#include "models/common/wide.hpp"

namespace dullcast::geometry {

namespace {
/// A pocket is milled and brazed no truer than a degree [asm]: a cutter meant to stand at no back rake has
/// this one, and its flat grows with wear instead of being all there at the first micrometre.
const double least_rake_sine = std::sin(pi / 180.0);

/// Keeps 0/0 out of a contact of no length, which bears nothing.
constexpr double least_length = 1e-30;  // m

/// What no strip is: far above every bottom.
constexpr double above_all = -1e30;

struct StripPointers {
  double *depth_inner, *depth_outer, *cosine, *secant, *across;
  double *diamond_length, *carbide_length, *flat_weight, *per_full;
};

StripPointers pointers(OutlineStrips& strips, std::size_t at) {
  return {
      strips.depth_inner.data() + at,    strips.depth_outer.data() + at, strips.cosine.data() + at,
      strips.secant.data() + at,         strips.across.data() + at,      strips.diamond_length.data() + at,
      strips.carbide_length.data() + at, strips.flat_weight.data() + at, strips.per_full.data() + at};
}

/// All strips of one cutter over so many cells, the last block filled up; the integral of its flat's weight
/// along its edge, m2.
DULLCAST_WIDE
double fill(const Outline& of, const ContactLengths& by, double u, const double* inner, const double* outer,
            const StripPointers& to, int strips) {
  const Outline outline = of;
  const ContactLengths contact = by;
  double *depth_inner = to.depth_inner, *depth_outer = to.depth_outer, *cosine = to.cosine,
         *secant = to.secant, *across = to.across, *diamond = to.diamond_length, *carbide = to.carbide_length,
         *flat_weight = to.flat_weight, *per_full = to.per_full;
  const int all = filled_up(strips);
  DULLCAST_TURNS_APART
  for (int k = 0; k < all; ++k) depth_outer[k] = outline.depth_at(outer[k]);
  depth_inner[0] = outline.depth_at(inner[0]);
  DULLCAST_TURNS_APART
  for (int k = 1; k < all; ++k) depth_inner[k] = depth_outer[k - 1];
  for (int k = strips; k < all; ++k) depth_inner[k] = depth_outer[k] = above_all;
  const double a = outline.a, edge = std::max(u, contact.edge_radius);
  DULLCAST_TURNS_APART
  for (int k = 0; k < all; ++k) {
    const double width = outer[k] - inner[k], rise = depth_outer[k] - depth_inner[k];
    const double chord = std::sqrt(width * width + rise * rise), per_chord = 1.0 / chord;
    cosine[k] = width * per_chord;
    secant[k] = chord / width;
    across[k] = -rise * per_chord;
    const double x =
        outline.across_face(0.5 * (inner[k] + outer[k]), 0.5 * (depth_inner[k] + depth_outer[k]));
    const double arc = std::sqrt(at_least((a - x) * (a + x), 0.0)) - a;
    const double flat = at_most(at_least(u + arc, 0.0) * contact.per_height, contact.whole);
    const double on_diamond = at_least(at_most(flat, contact.table), contact.land) * contact.per_turn;
    diamond[k] = on_diamond;
    carbide[k] = at_least(flat - contact.table, 0.0) * contact.per_turn;
    flat_weight[k] =
        at_most(at_least(edge + arc, 0.0) * contact.per_height, contact.table) * contact.per_turn;
    per_full[k] = width * per_chord / at_least(on_diamond, least_length);
  }
  for (int k = strips; k < all; ++k) flat_weight[k] = 0.0;
  double parts[wide_block] = {};
  for (int block = 0; block < all; block += wide_block)
    for (int k = block; k < block + wide_block; ++k)
      parts[k - block] += flat_weight[k] * (secant[k] * (outer[k] - inner[k]));
  return block_sum(parts);
}
}  // namespace

void OutlineStrips::reserve(std::size_t strips) {
  for (auto* one : {&depth_inner, &depth_outer, &cosine, &secant, &across, &diamond_length, &carbide_length,
                    &flat_weight, &per_full})
    one->reserve(strips);
}

void OutlineStrips::resize(std::size_t strips) {
  for (auto* one : {&depth_inner, &depth_outer, &cosine, &secant, &across, &diamond_length, &carbide_length,
                    &flat_weight, &per_full})
    one->resize(strips);
}

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
    phase_.push_back(bit.azimuth(i) / two_pi);
  }
  runs_.resize(n);
  flat_weight_total_.setZero(bit.count());
  place_base_nodes();
  make_room();
  worn_.setZero(bit.count());
}

WornProfile::WornProfile(const WornProfile& other)
    : bit_(other.bit_),
      contact_(other.contact_),
      spacing_(other.spacing_),
      worn_(other.worn_),
      made_(other.made_),
      changes_(other.changes_),
      passing_order_(other.passing_order_),
      phase_(other.phase_),
      outlines_(other.outlines_),
      base_nodes_(other.base_nodes_),
      runs_(other.runs_),
      flat_weight_total_(other.flat_weight_total_),
      core_radius_(other.core_radius_),
      outer_radius_(other.outer_radius_) {
  make_room();
  // What grows with wear is copied into the room for it.
  breaks_ = other.breaks_;
  nodes_ = other.nodes_;
  cells_ = other.cells_;
  inner_ = other.inner_;
  outer_ = other.outer_;
  standing_ = other.standing_;
  filled_ = other.filled_;
  strips_ = other.strips_;
}

/// Room for any wear, so that updates do not allocate.
void WornProfile::make_room() {
  const std::size_t n = outlines_.size(), cells = base_nodes_.size() + 4 * n + 4;
  for (std::vector<double>* nodes : {&breaks_, &nodes_}) nodes->reserve(cells + 1);
  for (std::vector<double>* ends : {&inner_, &outer_}) ends->reserve(cells + wide_block);
  cells_.reserve(cells);
  filled_.reserve(cells + 1);
  standing_.reserve(cells * std::min<std::size_t>(n, 6));
  strips_.reserve(standing_.capacity() + n * wide_block);
}

void WornProfile::place_base_nodes() {
  constexpr double least_share = 0.125;  // near gauge, where the profile is nearly upright
  const Eigen::ArrayXd cosine = bit_.profile_angle.cos().abs();
  const Eigen::ArrayXd step = spacing_ * (cosine * cosine.sqrt()).max(least_share);
  for (double r = spacing_; r < bit_.bit_radius + spacing_;) {
    Eigen::Index nearest = 0;
    (bit_.radius - r).abs().minCoeff(&nearest);
    base_nodes_.push_back(r);
    r += step(nearest);
  }
}

void WornProfile::update(const Eigen::ArrayXd& u) {
  if (made_ && (u == worn_).all()) return;
  made_ = false;  // until all is
  ++changes_;
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
  find_runs();
  place_strips();
  fill_strips(u);
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

/// Cells from node to node. A node that follows the last by less than can matter is passed over, so that one
/// cell begins where the last ended.
void WornProfile::place_cells() {
  cells_.clear();
  const double least_width = 1e-9 * spacing_;
  double inner = nodes_.empty() ? 0.0 : nodes_.front();
  for (const double outer : nodes_) {
    if (!(outer - inner > least_width)) continue;
    cells_.push_back({inner, outer, 0, 0});
    inner = outer;
  }
}

/// Which cutters stand over the middle of which cells; cells without any are taken out.
void WornProfile::find_runs() {
  const auto middle = [](const ProfileCell& cell) { return 0.5 * (cell.inner + cell.outer); };
  const auto find = [&] {
    filled_.assign(cells_.size() + 1,
                   0);  // by how many more cutters stand over a cell than over the one before
    for (std::size_t i = 0; i < outlines_.size(); ++i) {
      const Outline& outline = outlines_[i];
      const auto first = std::partition_point(cells_.begin(), cells_.end(), [&](const ProfileCell& cell) {
        return !(middle(cell) > outline.reach_inner);
      });
      const auto last = std::partition_point(
          first, cells_.end(), [&](const ProfileCell& cell) { return middle(cell) < outline.reach_outer; });
      runs_[i] = {static_cast<int>(first - cells_.begin()), static_cast<int>(last - first), 0};
      ++filled_[static_cast<std::size_t>(first - cells_.begin())];
      --filled_[static_cast<std::size_t>(last - cells_.begin())];
    }
    int count = 0, least = 1;
    for (std::size_t k = 0; k < cells_.size(); ++k) {
      cells_[k].count = count += filled_[k];
      least = std::min(least, count);
    }
    return least;
  };
  if (find() < 1) {
    std::erase_if(cells_, [](const ProfileCell& cell) { return cell.count == 0; });
    find();
  }
  inner_.resize(cells_.size() + wide_block);
  outer_.resize(cells_.size() + wide_block);
  for (std::size_t k = 0; k < cells_.size(); ++k) inner_[k] = cells_[k].inner, outer_[k] = cells_[k].outer;
  // What fills blocks up has a width too.
  for (std::size_t k = cells_.size(); k < inner_.size(); ++k) inner_[k] = 0.0, outer_[k] = 1.0;
}

/// Gives every cutter its strips, and every cell a list of those over it in the order of passing.
void WornProfile::place_strips() {
  int strips = 0, total = 0;
  for (CutterRun& run : runs_) {
    run.first_strip = strips;
    strips += filled_up(run.cells);
  }
  strips_.resize(static_cast<std::size_t>(strips));
  for (std::size_t k = 0; k < cells_.size(); ++k) {
    if (cells_[k].count > most_overlapping_cutters)
      throw std::length_error("more cutters over one radius than 32");
    cells_[k].first = filled_[k] = total;
    total += cells_[k].count;
  }
  standing_.resize(static_cast<std::size_t>(total));
  for (const int cutter : passing_order_) {
    const CutterRun run = runs_[static_cast<std::size_t>(cutter)];
    int* next = filled_.data() + run.first_cell;
    for (int k = 0; k < run.cells; ++k)
      standing_[static_cast<std::size_t>(next[k]++)] = {cutter, run.first_strip + k};
  }
}

void WornProfile::fill_strips(const Eigen::ArrayXd& u) {
  for (std::size_t i = 0; i < runs_.size(); ++i) {
    const CutterRun& run = runs_[i];
    const auto at = static_cast<std::size_t>(run.first_strip);
    const auto cell = static_cast<std::size_t>(run.first_cell);
    const auto cutter = static_cast<Eigen::Index>(i);
    flat_weight_total_(cutter) = run.cells == 0
                                     ? 0.0
                                     : fill(outlines_[i], contact_[i], u(cutter), inner_.data() + cell,
                                            outer_.data() + cell, pointers(strips_, at), run.cells);
  }
}

OutlineSegment WornProfile::segment(const ProfileCell& cell, int k) const {
  OutlineSegment s;
  s.cutter = cutter_at(cell, k);
  s.strip = strip_at(cell, k);
  s.pass_phase = pass_phase(s.cutter);
  const auto at = static_cast<std::size_t>(s.strip);
  s.depth_inner = strips_.depth_inner[at];
  s.depth_outer = strips_.depth_outer[at];
  s.cosine = strips_.cosine[at];
  s.diamond_length = strips_.diamond_length[at];
  s.carbide_length = strips_.carbide_length[at];
  s.flat_weight = strips_.flat_weight[at];
  return s;
}

}  // namespace dullcast::geometry
