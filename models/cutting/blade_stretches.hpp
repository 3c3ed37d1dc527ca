#pragma once

#include <algorithm>
#include <cmath>

#include "models/common/constants.hpp"
#include "models/cutting/blade_rubbing.hpp"

/// Blades over the cells of a worn profile: what blade_rubbing and blade_contact go along.
namespace dullcast::cutting {

inline double lead_angle(double cutter_azimuth, double blade_azimuth) {
  const double lead = cutter_azimuth - blade_azimuth;
  return lead - two_pi * std::floor(lead / two_pi);
}

/// A place on a blade's surface beside the rock that one end of a cell gives.
struct Place {
  double r, z, azimuth;  // m, m, rad
  double share;          // of the cell, from its inner end
};

/// How far a cutter of a cell stands out of the blade at a place, m.
inline double stands_out(const geometry::WornProfile& profile, const geometry::ProfileCell& cell, int k,
                         const Place& at) {
  const auto strip = static_cast<std::size_t>(profile.strip_at(cell, k));
  const double inner = profile.strips().depth_inner[strip], outer = profile.strips().depth_outer[strip];
  return inner + at.share * (outer - inner) - at.z;
}

/// That, and the share of a turn that it runs ahead.
struct Lead {
  double stands_out, turns;
};

inline Lead lead_of(const geometry::WornProfile& profile, const geometry::ProfileCell& cell, int k, int blade,
                    const Place& at) {
  const geometry::BitLayout& bit = profile.bit();
  const int cutter = profile.cutter_at(cell, k);
  // The rock that a blade's own cutters are about to cut was left a turn ago.
  const double turns =
      bit.blade(cutter) == blade ? 1.0 : lead_angle(bit.azimuth(cutter), at.azimuth) / two_pi;
  return {stands_out(profile, cell, k, at), turns};
}

/// Calls visit(blade, cell, first place, last place) for every stretch of a blade over a cell.
template <typename Visit>
void for_each_stretch(const geometry::WornProfile& profile, const BladeSurfaces& surfaces, double lost_steel,
                      const Visit& visit) {
  const auto worn_r = [&](const BladePoint& point) { return point.r - lost_steel * point.sine; };
  const auto worn_z = [&](const BladePoint& point) { return point.z - lost_steel * point.cosine; };
  for (int blade = 0; blade < static_cast<int>(surfaces.size()); ++blade) {
    const auto& surface = surfaces[static_cast<std::size_t>(blade)];
    if (surface.size() < 2) continue;
    const double begins = worn_r(surface.front()), ends = worn_r(surface.back());
    std::size_t k = 0;
    const auto place = [&](const geometry::ProfileCell& cell, double r) {
      while (k + 2 < surface.size() && worn_r(surface[k + 1]) < r) ++k;
      const BladePoint &below = surface[k], &above = surface[k + 1];
      const double across = worn_r(above) - worn_r(below);
      const double share = across > 0.0 ? (r - worn_r(below)) / across : 0.0;
      return Place{r, worn_z(below) + share * (worn_z(above) - worn_z(below)),
                   below.azimuth + share * (above.azimuth - below.azimuth),
                   (r - cell.inner) / (cell.outer - cell.inner)};
    };
    Place last{-1.0, 0.0, 0.0, 0.0};
    for (const geometry::ProfileCell& cell : profile.cells()) {
      const double inner = std::max(cell.inner, begins), outer = std::min(cell.outer, ends);
      if (!(outer > inner)) continue;
      const Place first = last.r == inner && inner == cell.inner ? Place{last.r, last.z, last.azimuth, 0.0}
                                                                 : place(cell, inner);
      last = place(cell, outer);
      visit(blade, cell, first, last);
    }
  }
}

}  // namespace dullcast::cutting
