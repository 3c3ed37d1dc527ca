#pragma once

#include <vector>

#include "models/geometry/worn_profile.hpp"

namespace dullcast::geometry {

/// A stretch of radius over which one cutter's cut varies linearly. Lengths m.
struct CutPiece {
  double inner = 0.0, outer = 0.0;          // radii
  double cut_inner = 0.0, cut_outer = 0.0;  // depth of rock cut in one revolution, both >= 0
  double cut_slope = 0.0;                   // 1, by which both grow with the bit's depth of cut
};

/// Parts of strips, one array a measure: where cutters hand over inside a cell. Filled up to a whole block by
/// parts of no width that cut nothing.
struct StripParts {
  std::vector<int> cutter, strip;
  std::vector<double> inner, outer;          // m, radii
  std::vector<double> cut_inner, cut_outer;  // m
  std::vector<double> cut_slope;             // 1
  int count = 0;                             // those that cut
  void clear() { count = 0; }
  void reserve(std::size_t parts);
  void make_room(int parts) {
    if (cutter.size() < static_cast<std::size_t>(parts)) grow(parts);
  }
  void add(int of_cutter, int of_strip, const CutPiece& piece) {
    const auto at = static_cast<std::size_t>(count++);
    cutter[at] = of_cutter;
    strip[at] = of_strip;
    inner[at] = piece.inner;
    outer[at] = piece.outer;
    cut_inner[at] = piece.cut_inner;
    cut_outer[at] = piece.cut_outer;
    cut_slope[at] = piece.cut_slope;
  }
  void fill_up();

 private:
  void grow(int parts);
};

/// Exact steady engagement at depth of cut d (m per revolution, d > 0), without marching over revolutions.
/// At a radius, e_i = c_i - d az_i/(2 pi). Cutters pass in the order of falling azimuth over a bottom left by
/// the last revolution at max_m e_m - d, so
///   cut_i = max(0, e_i - max(max over earlier m of e_m, max over all m of e_m - d)),
/// which is c_i - max_m [c_m - d dphi(m->i)/(2 pi)] with dphi the angle by which m leads i (2 pi for m = i).
/// The cuts telescope: they sum to d at every covered radius.
/// Outlines being straight over a cell, so is every cut where the same cutters lie lowest at both of its
/// ends; only where they do not is the cell divided, from one hand-over to the next, so that integrals of the
/// cut are exact for the outlines of the profile. Keeps its storage from one call to the next, and what it
/// found for the same d on the same outlines: one engagement goes with one profile for as long as that lives.
class Engagement {
 public:
  /// Whether anything had to be found: false where it stands as it was left.
  bool find(const WornProfile& profile, double d);

  /// Cuts at the ends of each strip (OutlineStrips), m; 0 in cells that are divided.
  const std::vector<double>& cut_inner() const { return cut_inner_; }
  const std::vector<double>& cut_outer() const { return cut_outer_; }
  /// By how much the cuts of a strip grow with d (1): the turn between the cutter and the one whose bottom it
  /// cuts, over a whole one. 0 where nothing is cut.
  const std::vector<double>& cut_slope() const { return cut_slope_; }
  /// Strips of a cutter outside of which it cuts nothing: whole blocks.
  struct Range {
    int first = 0, last = 0;
  };
  const std::vector<Range>& cutting() const { return cutting_; }
  /// What is cut in cells that are divided, cell by cell.
  const StripParts& parts() const { return parts_; }

 private:
  void make_room(const WornProfile& profile);
  void find_anew(const WornProfile& profile, double d);
  void divide(const WornProfile& profile, std::size_t cell, double d);

  std::vector<double> cut_inner_, cut_outer_, cut_slope_;
  std::vector<double> top_slope_;  // 1, one per cell: by which the bottom rises with d
  std::vector<double> top_inner_, top_outer_, lowest_inner_, lowest_outer_;  // one per cell
  std::vector<double> divided_;                                              // not 0: so is this cell
  std::vector<Range> cutting_;
  StripParts parts_;
  // What the above was found for.
  const WornProfile* profile_ = nullptr;
  long changes_ = 0;
  double d_ = 0.0;
};

/// Calls visit(cutter, piece) for every cutter and stretch with a cut.
template <typename Visit>
void for_each_cut(const WornProfile& profile, double d, Visit&& visit) {
  Engagement engagement;
  engagement.find(profile, d);
  for (std::size_t i = 0; i < profile.runs().size(); ++i) {
    const CutterRun& run = profile.runs()[i];
    for (int k = 0; k < run.cells; ++k) {
      const auto strip = static_cast<std::size_t>(run.first_strip) + static_cast<std::size_t>(k);
      const auto cell = static_cast<std::size_t>(run.first_cell) + static_cast<std::size_t>(k);
      const CutPiece piece{profile.inner()[cell], profile.outer()[cell], engagement.cut_inner()[strip],
                           engagement.cut_outer()[strip], engagement.cut_slope()[strip]};
      if (piece.cut_inner + piece.cut_outer > 0.0) visit(static_cast<int>(i), piece);
    }
  }
  const StripParts& parts = engagement.parts();
  for (std::size_t k = 0; k < static_cast<std::size_t>(parts.count); ++k)
    visit(parts.cutter[k], CutPiece{parts.inner[k], parts.outer[k], parts.cut_inner[k], parts.cut_outer[k],
                                    parts.cut_slope[k]});
}

}  // namespace dullcast::geometry
