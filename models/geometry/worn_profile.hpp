#pragma once

#include <Eigen/Core>
#include <vector>

#include "models/geometry/bit_layout.hpp"
#include "models/geometry/outline.hpp"

namespace dullcast::geometry {

struct ProfileCell {
  double inner = 0.0, outer = 0.0;  // m
  int first = 0, count = 0;         // its strips, in the order in which the cutters pass
};

/// Cutters that may stand over one radius; usual layouts hold three to six.
inline constexpr int most_overlapping_cutters = 32;

/// The part of one cutter's worn outline that lies in one cell of radius, taken as straight. Lengths m.
struct OutlineSegment {
  int cutter = 0;
  int strip = 0;                // its place in OutlineStrips
  double pass_phase = 0.0;      // azimuth over 2 pi
  double depth_inner = 0.0;     // z of the outline at the cell's inner radius
  double depth_outer = 0.0;     // and at its outer radius
  double cosine = 1.0;          // cos gamma of the chord
  double diamond_length = 0.0;  // L_d along travel
  double carbide_length = 0.0;  // L_c along travel, behind the table
  double flat_weight = 0.0;     // diamond length of the flat alone: weighs the mean mobilisation
};

/// The same for all cutters and cells, one array a measure, for loops that take several at once (wide.hpp). A
/// cutter's strips stand one after another by rising radius and begin at a multiple of wide_block. What fills
/// the last block of each up has no depth and cuts nothing.
struct OutlineStrips {
  std::vector<double> depth_inner, depth_outer;  // m
  std::vector<double> cosine, secant;            // of gamma
  std::vector<double> across;                    // sin gamma: above 0 where the outline rises outward
  std::vector<double> diamond_length, carbide_length, flat_weight;  // m
  std::vector<double> per_full;  // 1/m, cos gamma/L_d: the cut that mobilises a strip scales with 1 over it
  void reserve(std::size_t strips);
  void resize(std::size_t strips);
};

/// What of a cutter's contact lengths does not follow wear, m.
struct ContactLengths {
  double land = 0.0, edge_radius = 0.0;
  double per_height = 0.0;          // 1, length of flat per height worn off, over the rake's sine
  double per_turn = 1.0;            // 1, lengths along the travel over those along the edge
  double table = 0.0, whole = 0.0;  // greatest lengths of a flat on the diamond and on all of the cutter
};

/// The strips of one cutter: over which cells, and where they begin in OutlineStrips.
struct CutterRun {
  int first_cell = 0, cells = 0, first_strip = 0;
};

/// The worn outlines of a whole bit on one set of radii: every end of an outline and of a flat is a node, so
/// that the cells move continuously with wear. Build once with the bit, then call update() for each state of
/// wear; update() does not allocate after the first call, and does nothing for the wear of the last. One
/// object per thread.
class WornProfile {
 public:
  /// `spacing` is the greatest width of a cell, m, at the nose; where the profile stands at gamma cells are
  /// narrower by (cos gamma)^1.5, which keeps the sag of a chord the same.
  WornProfile(const BitLayout& bit, const EdgeLaw& law, double spacing);
  /// A copy has room for any wear too, and its outlines are those of what it was copied from.
  WornProfile(const WornProfile& other);
  WornProfile(WornProfile&&) = default;
  WornProfile& operator=(const WornProfile&) = delete;
  WornProfile& operator=(WornProfile&&) = default;
  ~WornProfile() = default;

  /// Outlines at worn heights u (m, one per cutter, 0 <= u < 2 a).
  /// Contact lengths: L_d = max(land, min(max(s, 0)/sin theta, t/cos theta)) with s(x) = u - a + sqrt(a^2 -
  /// x^2), x along the face, and the carbide behind it to l/cos theta; theta counts as 1 deg at least [asm].
  /// Side rake beta turns the contact on the rock: across the travel it is cos beta as wide, along it 1/cos
  /// beta as long. Throws std::length_error when more than most_overlapping_cutters stand over one radius.
  void update(const Eigen::ArrayXd& u);

  /// How often the outlines have become other ones: what was found for them holds as long as that stays.
  long changes() const { return changes_; }
  const std::vector<ProfileCell>& cells() const { return cells_; }
  /// Radii of the cells' ends, m, one entry a cell and a block more.
  const std::vector<double>& inner() const { return inner_; }
  const std::vector<double>& outer() const { return outer_; }
  const OutlineStrips& strips() const { return strips_; }
  /// How many cells and strips there is room for, whatever the wear.
  std::size_t most_cells() const { return cells_.capacity(); }
  std::size_t most_strips() const { return strips_.cosine.capacity(); }
  /// One per cutter.
  const std::vector<CutterRun>& runs() const { return runs_; }
  /// Cutters, the first to pass a point of the hole first, and each cutter's azimuth over 2 pi.
  const std::vector<int>& passing_order() const { return passing_order_; }
  double pass_phase(int cutter) const { return phase_[static_cast<std::size_t>(cutter)]; }
  /// Cutter number k (0 .. count - 1, in the order of passing) of a cell, and its strip there.
  int cutter_at(const ProfileCell& cell, int k) const { return standing_[place(cell, k)].cutter; }
  int strip_at(const ProfileCell& cell, int k) const { return standing_[place(cell, k)].strip; }
  OutlineSegment segment(const ProfileCell& cell, int k) const;

  const BitLayout& bit() const { return bit_; }
  /// Integral of flat_weight along each cutter's whole flat, m2, whether it cuts or not.
  const Eigen::ArrayXd& flat_weight_total() const { return flat_weight_total_; }
  /// Outermost radius of a cutter's worn outline, m.
  double reach_outer(Eigen::Index cutter) const {
    return outlines_[static_cast<std::size_t>(cutter)].reach_outer;
  }
  double core_radius() const { return core_radius_; }    // m; below it no cutter reaches
  double outer_radius() const { return outer_radius_; }  // m; R, the current outermost reach

 private:
  struct Standing {
    int cutter = 0, strip = 0;
  };
  static std::size_t place(const ProfileCell& cell, int k) {
    return static_cast<std::size_t>(cell.first) + static_cast<std::size_t>(k);
  }
  void make_room();
  void place_base_nodes();
  void place_nodes();
  void place_cells();
  void find_runs();
  void place_strips();
  void fill_strips(const Eigen::ArrayXd& u);

  BitLayout bit_;
  std::vector<ContactLengths> contact_;  // one per cutter
  double spacing_;
  Eigen::ArrayXd worn_;  // m, of the last update
  bool made_ = false;    // outlines are those of worn_
  long changes_ = 0;
  std::vector<int> passing_order_;  // cutters, the first to pass a point of the hole first
  std::vector<double> phase_;       // 1, of each cutter
  std::vector<Outline> outlines_;
  std::vector<double> base_nodes_;  // m, evenly fine along the profile, whatever the wear
  std::vector<double> breaks_, nodes_;
  std::vector<ProfileCell> cells_;
  std::vector<double> inner_, outer_;
  std::vector<CutterRun> runs_;
  std::vector<Standing> standing_;  // cell by cell in the order of passing
  std::vector<int> filled_;         // of standing_, up to where a cell's are filled in
  OutlineStrips strips_;
  Eigen::ArrayXd flat_weight_total_;
  double core_radius_ = 0.0, outer_radius_ = 0.0;
};

/// Width of cells that resolves outlines well, m: a share of the smallest cutter's radius.
inline double usual_spacing(const BitLayout& bit) {
  return cutter_radii(bit).minCoeff() / 16.0;
}

}  // namespace dullcast::geometry
