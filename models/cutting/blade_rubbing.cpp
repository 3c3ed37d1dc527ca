#include "models/cutting/blade_rubbing.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

#include "models/common/constants.hpp"

namespace dullcast::cutting {
namespace {

constexpr double unlimited = std::numeric_limits<double>::infinity();
constexpr double least_yield = 1e-9;  // m: no rock is so stiff that it bears at once

double lead_angle(double cutter_azimuth, double blade_azimuth) {
  const double lead = cutter_azimuth - blade_azimuth;
  return lead - two_pi * std::floor(lead / two_pi);
}

/// A place on a blade's surface beside the rock that one end of a cell gives.
struct Place {
  double r, z, azimuth;  // m, m, rad
  double share;          // of the cell, from its inner end
};

/// How far a cutter of a cell stands out of the blade at a place, m, and the share of a turn that it runs
/// ahead.
struct Lead {
  double stands_out, turns;
};

Lead lead_of(const geometry::WornProfile& profile, const geometry::ProfileCell& cell, int k, int blade,
             const Place& at) {
  const geometry::BitLayout& bit = profile.bit();
  const int cutter = profile.cutter_at(cell, k);
  const auto strip = static_cast<std::size_t>(profile.strip_at(cell, k));
  const double inner = profile.strips().depth_inner[strip], outer = profile.strips().depth_outer[strip];
  const double depth = inner + at.share * (outer - inner);
  // The rock that a blade's own cutters are about to cut was left a turn ago.
  const double turns =
      bit.blade(cutter) == blade ? 1.0 : lead_angle(bit.azimuth(cutter), at.azimuth) / two_pi;
  return {depth - at.z, turns};
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

bool same_cutters(const geometry::WornProfile& profile, const geometry::ProfileCell& one,
                  const geometry::ProfileCell& other) {
  if (one.count != other.count) return false;
  for (int k = 0; k < one.count; ++k)
    if (profile.cutter_at(one, k) != profile.cutter_at(other, k)) return false;
  return true;
}

/// How the rock that a blade meets at a place stands over the blade, m.
struct Interference {
  double depth = unlimited;
  bool cleared = false;  // some cutter stands out
};

Interference interference(const geometry::WornProfile& profile, const geometry::ProfileCell& cell, int blade,
                          const Place& at, double d) {
  Interference found;
  for (int k = 0; k < cell.count; ++k) {
    const Lead lead = lead_of(profile, cell, k, blade, at);
    found.depth = std::min(found.depth, d * lead.turns - lead.stands_out);
    found.cleared = found.cleared || lead.stands_out > 0.0;
  }
  return found;
}

/// Mean of min(1, max(0, x)) where x runs straight from one value to another.
double mean_within_one(double from, double to) {
  if (from > to) std::swap(from, to);
  if (to <= 0.0) return 0.0;
  if (from >= 1.0) return 1.0;
  const double low = std::max(from, 0.0), high = std::min(to, 1.0);
  if (!(to - from > 1e-12)) return high;
  return (0.5 * (low + high) * (high - low) + (to - high)) / (to - from);
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
                     // What one cell ends with the next begins with, where the same cutters stand over it.
                     const bool joined = blade == last_blade && same_cutters(profile, *before, cell) &&
                                         before->outer == first.r;
                     before = &cell;
                     last_blade = blade;
                     for (const Place* at : {&first, &last}) {
                       if (joined && at == &first) continue;
                       const double d = clearing_depth_of_cut(profile, cell, blade, *at, limit.depth_of_cut);
                       if (d < limit.depth_of_cut) limit = {d, at->r};
                     }
                   });
  return limit;
}

BladeContact blade_contact(const geometry::WornProfile& profile, const RockResistance& rock,
                           const BladeBearing& blades, double d) {
  BladeContact contact;
  if (blades.surfaces == nullptr || !(d >= blades.limit.depth_of_cut)) return contact;
  const double yield = rock.mobilisation_slope * rock.bearing_strength / rock.contact_strength;
  const double around = two_pi / static_cast<double>(blades.surfaces->size());
  Eigen::Index innermost = 0;
  profile.bit().radius.minCoeff(&innermost);
  const double widest_core = profile.bit().shape(innermost).radius;
  int core_of = -1;  // the blade over whose core we are
  int last_blade = -1;
  for_each_stretch(
      profile, *blades.surfaces, blades.lost_steel,
      [&](int blade, const geometry::ProfileCell& cell, const Place& first, const Place& last) {
        if (blade != last_blade) core_of = last_blade = blade;
        const Interference begin = interference(profile, cell, blade, first, d),
                           end = interference(profile, cell, blade, last, d);
        if (begin.cleared || first.r >= widest_core) core_of = -1;
        const double r = 0.5 * (first.r + last.r), along = std::min(blades.thickness, around * r);
        const double full = std::max(yield * along, least_yield);
        const double strength = core_of == blade ? rock.core_strength : rock.bearing_strength;
        // Rock that stands over a sunk blade slides up its front.
        const double front = core_of == blade ? 0.0 : std::max(0.0, 0.5 * (begin.depth + end.depth));
        const double force = strength * (along + front) * (last.r - first.r) *
                             mean_within_one(begin.depth / full, end.depth / full);
        contact.weight += force;
        contact.moment += r * force;
      });
  return contact;
}

}  // namespace dullcast::cutting
