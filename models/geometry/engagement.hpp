#pragma once

#include <algorithm>
#include <array>
#include <utility>

#include "models/geometry/worn_profile.hpp"

namespace dullcast::geometry {

/// A stretch of radius over which one cutter's cut varies linearly. Lengths m.
struct CutPiece {
  double inner = 0.0, outer = 0.0;          // radii
  double cut_inner = 0.0, cut_outer = 0.0;  // depth of rock cut in one revolution, both >= 0
};

/// Exact steady engagement at depth of cut d (m per revolution, d > 0), without marching over revolutions.
/// At a radius, e_i = c_i - d az_i/(2 pi). Cutters pass in the order of falling azimuth over a bottom left by
/// the last revolution at max_m e_m - d, so
///   cut_i = max(0, e_i - max(max over earlier m of e_m, max over all m of e_m - d)),
/// which is c_i - max_m [c_m - d dphi(m->i)/(2 pi)] with dphi the angle by which m leads i (2 pi for m = i).
/// The cuts telescope: they sum to d at every covered radius.
/// Calls visit(segment, piece) for every cutter and stretch with a cut; stretches end where cutters hand
/// over, so that integrals of the cut are exact for the outlines of the profile.
template <typename Visit>
void for_each_cut(const WornProfile& profile, double d, Visit&& visit);

namespace engagement_detail {

using CutArray = std::array<double, most_overlapping_cutters>;

/// Cuts of the n cutters of a cell where e holds their e_i.
inline void cuts_at(const CutArray& e, int n, double d, CutArray& cut) {
  double top = e[0];
  for (int i = 1; i < n; ++i) top = std::max(top, e[static_cast<std::size_t>(i)]);
  double bottom = top - d;
  for (int i = 0; i < n; ++i) {
    const auto k = static_cast<std::size_t>(i);
    cut[k] = std::max(0.0, e[k] - bottom);
    bottom = std::max(bottom, e[k]);
  }
}

/// Adds to `shares` where a difference running from `inner` to `outer` over a cell passes `level`.
template <typename Shares>
void add_crossing(double inner, double outer, double level, Shares& shares, int& count) {
  if ((inner < level) != (outer < level) && inner != level && outer != level) {
    shares[static_cast<std::size_t>(count++)] = (inner - level) / (inner - outer);
  }
}

/// Between which of the levels -d, 0 and d a difference lies.
inline int band_of_difference(double difference, double d) {
  return static_cast<int>(difference >= -d) + static_cast<int>(difference >= 0.0) +
         static_cast<int>(difference >= d);
}

}  // namespace engagement_detail

template <typename Visit>
void for_each_cut(const WornProfile& profile, double d, Visit&& visit) {
  using namespace engagement_detail;
  CutArray inner_edge, outer_edge, between, cuts_one, cuts_two;
  std::array<double, 3 * most_overlapping_cutters * most_overlapping_cutters / 2> shares;
  for (const ProfileCell& cell : profile.cells()) {
    const OutlineSegment* segment = &profile.segments()[static_cast<std::size_t>(cell.first)];
    const SegmentTrace* trace = &profile.traces()[static_cast<std::size_t>(cell.first)];
    const int n = cell.count;
    for (int i = 0; i < n; ++i) {
      const auto k = static_cast<std::size_t>(i);
      inner_edge[k] = trace[k].depth_inner - d * trace[k].pass_phase;
      outer_edge[k] = trace[k].depth_outer - d * trace[k].pass_phase;
    }
    int count = 0;
    for (int i = 0; i < n; ++i) {
      for (int m = 0; m < i; ++m) {
        const double inner =
            inner_edge[static_cast<std::size_t>(i)] - inner_edge[static_cast<std::size_t>(m)];
        const double outer =
            outer_edge[static_cast<std::size_t>(i)] - outer_edge[static_cast<std::size_t>(m)];
        // Most cells hold no hand-over: their differences stay between two of the levels.
        if (band_of_difference(inner, d) == band_of_difference(outer, d)) continue;
        add_crossing(inner, outer, 0.0, shares, count);
        add_crossing(inner, outer, -d, shares, count);
        add_crossing(inner, outer, d, shares, count);
      }
    }
    if (count > 1) std::sort(shares.begin(), shares.begin() + count);
    const double width = cell.outer - cell.inner;
    // Where a cutter just meets another's trace the difference of depths leaves a few last bits, not a cut.
    const double rounding = 1e-10 * d;
    CutArray* start_cuts = &cuts_one;
    CutArray* end_cuts = &cuts_two;
    cuts_at(inner_edge, n, d, *start_cuts);
    double start = 0.0;
    for (int piece = 0; piece <= count; ++piece) {
      const double end = piece < count ? shares[static_cast<std::size_t>(piece)] : 1.0;
      if (piece < count) {
        for (int i = 0; i < n; ++i) {
          const auto k = static_cast<std::size_t>(i);
          between[k] = inner_edge[k] + end * (outer_edge[k] - inner_edge[k]);
        }
        cuts_at(between, n, d, *end_cuts);
      } else {
        cuts_at(outer_edge, n, d, *end_cuts);
      }
      if (end > start) {
        for (int i = 0; i < n; ++i) {
          const auto k = static_cast<std::size_t>(i);
          const double cut_start = (*start_cuts)[k], cut_end = (*end_cuts)[k];
          if (cut_start + cut_end > rounding) {
            visit(segment[k],
                  CutPiece{cell.inner + start * width, cell.inner + end * width, cut_start, cut_end});
          }
        }
      }
      start = end;
      std::swap(start_cuts, end_cuts);
    }
  }
}

}  // namespace dullcast::geometry
