#pragma once

#include <vector>

#include "models/geometry/engagement.hpp"

namespace dullcast::cutting {

/// x_0 of the mobilisation (cutter_loads): rock under a flat answers elastically up to about this share of
/// the depth that mobilises it fully. Without it the least cut would bear without measure.
inline constexpr double elastic_share = 0.01;

/// Integrals over what each cutter cuts, of geometry and mobilisation alone: no strength is in them.
enum class StripSum : std::size_t {
  area,            // m2, of the cut
  depth_moment,    // m3, of h_n^2 ds
  bearing,         // m2, of (L_d + p_c L_c) m dr: as it faces along the axis
  area_moment,     // m3, of r cut dr
  contact_area,    // m2, of (L_d + p_c L_c) m ds
  contact_moment,  // m3, of that times r
  contact_across,  // m2, of that times sin gamma
  engaged_width,   // m, of m ds
  cutting_width,   // m, of ds
  flat_mobilised,  // m2, of the flat's weight times m ds
  diamond_area     // m2, of L_d m ds
};
inline constexpr std::size_t strip_sums = 11;
/// The first so many are what the balance of weight asks for.
inline constexpr std::size_t strip_sums_of_weight = 3;

/// Of the first so many it is known how they grow with the depth of cut.
inline constexpr std::size_t strip_slopes = 3;

/// The sums of each cutter, and what finding them needs to store. Keeps its storage, and what it found while
/// the same is asked for.
class StripSums {
 public:
  /// Sums at depth of cut d (m/rev, > 0): all of them, or those of weight only, and the slopes by d of these.
  /// `mobilisation_slope` is d*/L_d, `carbide_share` p_c of each cutter (cutting_force.hpp). Each sum is the
  /// same either way.
  void find(const geometry::WornProfile& profile, double mobilisation_slope, const double* carbide_share,
            double d, bool of_weight_only);
  double of(StripSum sum, std::size_t cutter) const {
    return sums_[cutter * strip_sums + static_cast<std::size_t>(sum)];
  }

  /// d/dd of one of the first sums (strip_slopes), m, m2, m. Hand-overs move with d,
  /// but the cut goes through nothing there.
  double slope_of(StripSum sum, std::size_t cutter) const {
    return slopes_[cutter * strip_slopes + static_cast<std::size_t>(sum)];
  }

 private:
  void add_parts(const geometry::WornProfile& profile, double per_slope, const double* carbide_share,
                 std::size_t asked);

  geometry::Engagement engagement_;
  std::vector<double> sums_, slopes_;
  geometry::OutlineStrips part_strips_;  // of the engagement's parts, gathered
  std::vector<double> part_carbide_, part_values_;
  // What sums_ was found for.
  std::size_t known_ = 0;  // so many of the sums
  double mobilisation_slope_ = 0.0;
  std::vector<double> carbide_share_;
};

}  // namespace dullcast::cutting
