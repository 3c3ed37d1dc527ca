#include "models/cutting/blade_rubbing.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "models/common/constants.hpp"

namespace dullcast::cutting {
namespace {

constexpr double unlimited = std::numeric_limits<double>::infinity();

double lead_angle(double cutter_azimuth, double blade_azimuth) {
  const double lead = cutter_azimuth - blade_azimuth;
  return lead - two_pi * std::floor(lead / two_pi);
}

/// The greatest depth of cut that keeps the blade clear at the inner radius of a cell, where its surface is
/// at z.
double clearing_depth_of_cut(const geometry::WornProfile& profile, const geometry::ProfileCell& cell,
                             int blade, double z, double azimuth) {
  const geometry::BitLayout& bit = profile.bit();
  double most = 0.0;
  for (int k = 0; k < cell.count; ++k) {
    const geometry::OutlineSegment& s =
        profile.segments()[static_cast<std::size_t>(cell.first) + static_cast<std::size_t>(k)];
    const double stands_out = s.depth_inner - z;
    if (!(stands_out > 0.0)) continue;
    if (bit.blade(s.cutter) == blade) return unlimited;
    most = std::max(most, stands_out * two_pi / lead_angle(bit.azimuth(s.cutter), azimuth));
  }
  return most;
}

}  // namespace

BladeSurfaces blade_surfaces(const geometry::BitLayout& bit) {
  BladeSurfaces surfaces(static_cast<std::size_t>(bit.blades));
  for (Eigen::Index i = 0; i < bit.count(); ++i) {
    surfaces[static_cast<std::size_t>(bit.blade(i))].push_back(
        {bit.radius(i) - bit.exposure(i) * std::sin(bit.profile_angle(i)),
         bit.depth(i) - bit.exposure(i) * std::cos(bit.profile_angle(i)), bit.azimuth(i)});
  }
  for (auto& surface : surfaces) {
    std::sort(surface.begin(), surface.end(),
              [](const BladePoint& a, const BladePoint& b) { return a.r < b.r; });
    for (std::size_t k = 1; k < surface.size(); ++k) {
      const double turn = surface[k].azimuth - surface[k - 1].azimuth;
      surface[k].azimuth -= two_pi * std::round(turn / two_pi);
    }
  }
  return surfaces;
}

RubbingLimit rubbing_limit(const geometry::WornProfile& profile, const BladeSurfaces& surfaces) {
  RubbingLimit limit{unlimited, 0.0};
  for (int blade = 0; blade < static_cast<int>(surfaces.size()); ++blade) {
    const auto& surface = surfaces[static_cast<std::size_t>(blade)];
    std::size_t k = 0;
    for (const geometry::ProfileCell& cell : profile.cells()) {
      const double r = cell.inner;
      if (surface.size() < 2 || r < surface.front().r || r > surface.back().r) continue;
      while (surface[k + 1].r < r) ++k;
      const BladePoint &below = surface[k], &above = surface[k + 1];
      const double share = above.r > below.r ? (r - below.r) / (above.r - below.r) : 0.0;
      const double d = clearing_depth_of_cut(profile, cell, blade, below.z + share * (above.z - below.z),
                                             below.azimuth + share * (above.azimuth - below.azimuth));
      if (d < limit.depth_of_cut) limit = {d, r};
    }
  }
  return limit;
}

}  // namespace dullcast::cutting
