#pragma once

#include <vector>

#include "models/cutting/cutting_force.hpp"
#include "models/geometry/worn_profile.hpp"

namespace dullcast::cutting {

/// One point of a blade's surface: a tip less its exposure along the normal.
struct BladePoint {
  double r = 0.0, z = 0.0;          // m, unworn
  double azimuth = 0.0;             // rad, unwrapped along the blade
  double sine = 0.0, cosine = 1.0;  // of the profile angle: steel is lost along the normal
};

/// The surface of every blade, points by rising radius: behind its own cutters, and from its outermost on to
/// the gauge along the profile of all tips, straight out. A blade whose one cutter is the outermost of all
/// reaches in to the next tip. Made once a bit; exposures do not change with cutter wear.
using BladeSurfaces = std::vector<std::vector<BladePoint>>;
BladeSurfaces blade_surfaces(const geometry::BitLayout& bit);

/// Where the blades would start to bear.
struct RubbingLimit {
  double depth_of_cut = 0.0;    // m/rev; infinity when no blade can reach the bottom
  double contact_radius = 0.0;  // m, where the first blade touches
};

/// The depth of cut at which a blade begins to bear. A blade's surface is its tips' profile less the exposure
/// along the normal and less what the steel has lost (`lost_steel`, m), straight between neighbours. It meets
/// rock that the cutters left, max_m [c_m - d dphi(m->blade)/(2 pi)], with dphi a whole turn for the blade's
/// own cutters: the rock they are about to cut may stand no higher than they stand out. So the limit is
///   min over r of max over m of (c_m - c_blade)/(dphi/(2 pi)).
/// Does not allocate.
RubbingLimit rubbing_limit(const geometry::WornProfile& profile, const BladeSurfaces& surfaces,
                           double lost_steel = 0.0);

/// The limit falls by no more than this many times what cutters have worn: by two times at the most on random
/// bits, as a test sees. It is what a cutter stands out of the blade, which wear takes from, over the share
/// of a turn that it runs ahead.
inline constexpr double rubbing_limit_falls_by = 4.0;

}  // namespace dullcast::cutting
