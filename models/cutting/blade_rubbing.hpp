#pragma once

#include <vector>

#include "models/geometry/worn_profile.hpp"

namespace dullcast::cutting {

/// One point of a blade's surface: a tip less its exposure along the normal.
struct BladePoint {
  double r = 0.0, z = 0.0;  // m
  double azimuth = 0.0;     // rad, unwrapped along the blade
};

/// The surface of every blade, points by rising radius. Made once a bit; exposures do not change with cutter
/// wear.
using BladeSurfaces = std::vector<std::vector<BladePoint>>;
BladeSurfaces blade_surfaces(const geometry::BitLayout& bit);

/// Where the blades would start to bear.
struct RubbingLimit {
  double depth_of_cut = 0.0;    // m/rev; infinity when no blade can reach the bottom
  double contact_radius = 0.0;  // m, where the first blade touches
};

/// The greatest depth of cut that the blades allow. A blade's surface is its tips' profile less the exposure
/// along the normal, straight between neighbours on the blade. It bears where it would lie below the cut
/// bottom max_m [c_m - d dphi(m->blade)/(2 pi)], so the limit is
///   min over r of max over m of (c_m - c_blade)/(dphi/(2 pi)),
/// and a blade's own cutters, which run right in front of it, clear it wherever they stand out. At the limit
/// the gap is closed and the blades take what weight the cutters leave: gap and blade weight are
/// complementary. Does not allocate.
RubbingLimit rubbing_limit(const geometry::WornProfile& profile, const BladeSurfaces& surfaces);

}  // namespace dullcast::cutting
