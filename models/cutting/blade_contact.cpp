#include "models/cutting/blade_contact.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "models/common/constants.hpp"
#include "models/common/wide.hpp"
#include "models/cutting/blade_stretches.hpp"

namespace dullcast::cutting {
namespace {

constexpr double unlimited = std::numeric_limits<double>::infinity();
constexpr double least_yield = 1e-9;  // m: no rock is so stiff that it bears at once
// By how much less than the depth of cut that clears a stretch is surely less, whatever the last digits.
constexpr double surely = 1.0 - 1e-9;

/// Mean of min(1, max(0, x)) where x runs straight from one value to another.
double mean_within_one(double from, double to) {
  if (from > to) std::swap(from, to);
  if (to <= 0.0) return 0.0;
  if (from >= 1.0) return 1.0;
  const double low = std::max(from, 0.0), high = std::min(to, 1.0);
  if (!(to - from > 1e-12)) return high;
  return (0.5 * (low + high) * (high - low) + (to - high)) / (to - from);
}

/// The shares of a turn that cutters run ahead (`ahead`, rad; a whole turn for the blade's own, whose rock
/// was left a turn ago), and the depths of cut up to which each keeps a place clear: 0 where it stands no
/// higher.
DULLCAST_WIDE void clear_leads(int count, const double* stands_out, const double* ahead, const double* own,
                               double* turns, double* clear) {
  DULLCAST_TURNS_APART
  for (int i = 0; i < count; ++i) {
    const double lead = (ahead[i] - two_pi * std::floor(ahead[i] / two_pi)) / two_pi;
    turns[i] = own[i] > 0.0 ? 1.0 : lead;
    const double until = turns[i] > 0.0 ? stands_out[i] / turns[i] : unlimited;
    clear[i] = stands_out[i] > 0.0 ? until : 0.0;
  }
}

}  // namespace

void BladeClearances::make_room(const geometry::WornProfile& profile, std::size_t blades) {
  std::size_t leads = 0;
  for (const geometry::ProfileCell& cell : profile.cells()) leads += static_cast<std::size_t>(cell.count);
  leads *= 2 * blades;  // two places a stretch
  if (leads > turns_.size()) {
    // What there is grows a little as bits wear; room for it is made now and then, not at every step.
    for (std::vector<double>* each : {&stands_out_, &ahead_, &own_, &turns_, &clear_})
      each->resize(2 * leads);
    stretches_.reserve(2 * blades * profile.cells().size());
  }
}

void BladeClearances::find(const geometry::WornProfile& profile, const BladeSurfaces& surfaces,
                           double lost_steel) {
  if (profile_ == &profile && changes_ == profile.changes() && surfaces_ == &surfaces &&
      lost_steel_ == lost_steel)
    return;
  profile_ = nullptr;  // until all is
  find_anew(profile, surfaces, lost_steel);
  profile_ = &profile;
  changes_ = profile.changes();
  surfaces_ = &surfaces;
  lost_steel_ = lost_steel;
}

void BladeClearances::find_anew(const geometry::WornProfile& profile, const BladeSurfaces& surfaces,
                                double lost_steel) {
  make_room(profile, surfaces.size());
  stretches_.clear();
  const geometry::BitLayout& bit = profile.bit();
  Eigen::Index innermost = 0;
  bit.radius.minCoeff(&innermost);
  const double widest_core = bit.shape(innermost).radius;
  const geometry::OutlineStrips& strips = profile.strips();
  int leads = 0;
  for_each_stretch(profile, surfaces, lost_steel,
                   [&](int blade, const geometry::ProfileCell& cell, const Place& first, const Place& last) {
                     stretches_.push_back({0.5 * (first.r + last.r), last.r - first.r, 0.0, blade, leads,
                                           cell.count, first.r >= widest_core});
                     for (const Place* at : {&first, &last}) {
                       for (int k = 0; k < cell.count; ++k) {
                         const int cutter = profile.cutter_at(cell, k);
                         const auto strip = static_cast<std::size_t>(profile.strip_at(cell, k));
                         const double inner = strips.depth_inner[strip], outer = strips.depth_outer[strip];
                         const auto lead = static_cast<std::size_t>(leads++);
                         stands_out_[lead] = inner + at->share * (outer - inner) - at->z;
                         ahead_[lead] = bit.azimuth(cutter) - at->azimuth;
                         own_[lead] = bit.blade(cutter) == blade ? 1.0 : 0.0;
                       }
                     }
                   });
  clear_leads(leads, stands_out_.data(), ahead_.data(), own_.data(), turns_.data(), clear_.data());
  for (Stretch& stretch : stretches_) {
    const auto most = [&](int begin) {
      return *std::max_element(clear_.begin() + begin, clear_.begin() + begin + stretch.cutters);
    };
    const double first = most(stretch.leads), last = most(stretch.leads + stretch.cutters);
    stretch.clear = std::min(first, last);
    stretch.leaves_core = stretch.leaves_core || first > 0.0;
  }
}

BladeContact BladeClearances::contact(const RockResistance& rock, const BladeBearing& blades,
                                      double d) const {
  BladeContact contact;
  const double yield = rock.mobilisation_slope * rock.bearing_strength / rock.contact_strength;
  const double around = two_pi / static_cast<double>(blades.surfaces->size());
  // How the rock that a blade meets at a place stands over the blade, m.
  const auto over_blade = [&](int begin, int cutters) {
    double depth = unlimited;
    for (int k = begin; k < begin + cutters; ++k) {
      const auto i = static_cast<std::size_t>(k);
      depth = std::min(depth, d * turns_[i] - stands_out_[i]);
    }
    return depth;
  };
  int core_of = -1;  // the blade over whose core we are
  int last_blade = -1;
  for (const Stretch& stretch : stretches_) {
    if (stretch.blade != last_blade) core_of = last_blade = stretch.blade;
    if (stretch.leaves_core) core_of = -1;
    if (d < surely * stretch.clear) continue;
    const double begin = over_blade(stretch.leads, stretch.cutters),
                 end = over_blade(stretch.leads + stretch.cutters, stretch.cutters);
    const double along = std::min(blades.thickness, around * stretch.r);
    const double full = std::max(yield * along, least_yield);
    const double strength = core_of == stretch.blade ? rock.core_strength : rock.bearing_strength;
    // Rock that stands over a sunk blade slides up its front.
    const double front = core_of == stretch.blade ? 0.0 : std::max(0.0, 0.5 * (begin + end));
    const double force =
        strength * (along + front) * stretch.width * mean_within_one(begin / full, end / full);
    contact.weight += force;
    contact.moment += stretch.r * force;
  }
  return contact;
}

BladeContact blade_contact(const geometry::WornProfile& profile, const RockResistance& rock,
                           const BladeBearing& blades, double d) {
  if (blades.surfaces == nullptr || !(d >= blades.limit.depth_of_cut)) return {};
  BladeClearances clearances;
  clearances.find(profile, *blades.surfaces, blades.lost_steel);
  return clearances.contact(rock, blades, d);
}

}  // namespace dullcast::cutting
