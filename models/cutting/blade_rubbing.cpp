#include "models/cutting/blade_rubbing.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "models/common/constants.hpp"
#include "models/cutting/blade_stretches.hpp"

namespace dullcast::cutting {
namespace {

constexpr double unlimited = std::numeric_limits<double>::infinity();

/// The greatest depth of cut that keeps the blade clear at a place; where it is `enough` or more, any that
/// is.
double clearing_depth_of_cut(const geometry::WornProfile& profile, const geometry::ProfileCell& cell,
                             int blade, const Place& at, double enough) {
  double most = 0.0;
  for (int k = 0; k < cell.count; ++k) {
    const Lead lead = lead_of(profile, cell, k, blade, at);
    if (!(lead.stands_out > 0.0)) continue;
    if (!(lead.turns > 0.0)) return unlimited;
    most = std::max(most, lead.stands_out / lead.turns);
    if (most >= enough) return most;
  }
  return most;
}

/// Whether some cutter stands out by so much: since none runs further ahead than a turn, that clears the
/// blade up to such a depth of cut at least, wherever it is.
bool stands_well_out(const geometry::WornProfile& profile, const geometry::ProfileCell& cell, const Place& at,
                     double by) {
  for (int k = 0; k < cell.count; ++k)
    if (stands_out(profile, cell, k, at) >= by) return true;
  return false;
}

bool same_cutters(const geometry::WornProfile& profile, const geometry::ProfileCell& one,
                  const geometry::ProfileCell& other) {
  if (one.count != other.count) return false;
  for (int k = 0; k < one.count; ++k)
    if (profile.cutter_at(one, k) != profile.cutter_at(other, k)) return false;
  return true;
}

}  // namespace

BladeSurfaces blade_surfaces(const geometry::BitLayout& bit) {
  BladeSurfaces surfaces(static_cast<std::size_t>(bit.blades));
  const auto behind_tip = [&](Eigen::Index i) {
    const double sine = std::sin(bit.profile_angle(i)), cosine = std::cos(bit.profile_angle(i));
    return BladePoint{bit.radius(i) - bit.exposure(i) * sine, bit.depth(i) - bit.exposure(i) * cosine,
                      bit.azimuth(i), sine, cosine};
  };
  const auto by_radius = [](const BladePoint& a, const BladePoint& b) { return a.r < b.r; };
  std::vector<BladePoint> all;
  for (Eigen::Index i = 0; i < bit.count(); ++i) {
    all.push_back(behind_tip(i));
    surfaces[static_cast<std::size_t>(bit.blade(i))].push_back(all.back());
  }
  std::sort(all.begin(), all.end(), by_radius);
  for (auto& surface : surfaces) {
    if (surface.empty()) continue;
    std::sort(surface.begin(), surface.end(), by_radius);
    for (std::size_t k = 1; k < surface.size(); ++k) {
      const double turn = surface[k].azimuth - surface[k - 1].azimuth;
      surface[k].azimuth -= two_pi * std::round(turn / two_pi);
    }
    const BladePoint outermost = surface.back();
    for (BladePoint point : all) {
      if (!(point.r > outermost.r)) continue;
      point.azimuth = outermost.azimuth;
      surface.push_back(point);
    }
    if (surface.size() > 1) continue;
    const auto from = std::lower_bound(all.begin(), all.end(), outermost, by_radius);
    if (from == all.begin()) continue;
    BladePoint inner = *(from - 1);
    inner.azimuth = outermost.azimuth;
    surface.insert(surface.begin(), inner);
  }
  return surfaces;
}

RubbingLimit rubbing_limit(const geometry::WornProfile& profile, const BladeSurfaces& surfaces,
                           double lost_steel) {
  RubbingLimit limit{unlimited, 0.0};
  const geometry::ProfileCell* before = nullptr;
  int last_blade = -1;
  for_each_stretch(profile, surfaces, lost_steel,
                   [&](int blade, const geometry::ProfileCell& cell, const Place& first, const Place& last) {
                     const geometry::ProfileCell* inside = blade == last_blade ? before : nullptr;
                     before = &cell;
                     last_blade = blade;
                     for (const Place* at : {&first, &last}) {
                       if (stands_well_out(profile, cell, *at, limit.depth_of_cut)) continue;
                       // What one cell ends with the next begins with, where the same cutters stand over it.
                       if (at == &first && inside != nullptr && inside->outer == first.r &&
                           same_cutters(profile, *inside, cell))
                         continue;
                       const double d = clearing_depth_of_cut(profile, cell, blade, *at, limit.depth_of_cut);
                       if (d < limit.depth_of_cut) limit = {d, at->r};
                     }
                   });
  return limit;
}

}  // namespace dullcast::cutting
