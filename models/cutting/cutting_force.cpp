#include "models/cutting/cutting_force.hpp"

#include <algorithm>
#include <cmath>

#include "models/common/constants.hpp"

namespace dullcast::cutting {
namespace {

/// strength_at_depth at the mean depth of a cut; 1 where nothing is cut.
inline double strength_in_cut(const RockResistance& rock, double area, double depth_moment) {
  return area > 0.0 ? strength_at_depth(rock.rate, depth_moment / area) : 1.0;
}

}  // namespace

RockResistance rock_resistance(const materials::Rock& rock, double excess_pressure, double flat_friction,
                               double drilling_efficiency, double bearing_ratio) {
  RockResistance resistance;
  resistance.specific_energy = materials::bottom_hole_strength(rock, excess_pressure);
  resistance.contact_strength = rock.contact_strength_ratio * resistance.specific_energy;
  resistance.mobilisation_slope = 4.0 * (1.0 - rock.poissons_ratio * rock.poissons_ratio) *
                                  resistance.contact_strength / rock.youngs_modulus;
  resistance.flat_friction = flat_friction;
  resistance.drilling_efficiency = drilling_efficiency;
  resistance.bearing_strength = bearing_ratio * resistance.specific_energy;
  resistance.core_strength = rock.unconfined_strength;
  return resistance;
}

RockResistance stony_resistance(const RockResistance& ground, double share, double stone_strength) {
  const double s = std::clamp(share, 0.0, 1.0);
  if (s == 0.0) return ground;
  RockResistance stony = ground;
  stony.specific_energy = (1.0 - s) * ground.specific_energy + s * stone_strength;
  stony.contact_strength *= stony.specific_energy / ground.specific_energy;
  stony.bearing_strength *= stony.specific_energy / ground.specific_energy;
  return stony;
}

double load_on_stones(const RockResistance& stony, double share, double stone_strength) {
  const double s = std::clamp(share, 0.0, 1.0);
  return s == 0.0 ? 0.0 : s * stone_strength / stony.specific_energy;
}

ForceDirections force_directions(const geometry::BitLayout& bit, const geometry::EdgeLaw& law) {
  ForceDirections directions;
  const Eigen::Index n = bit.count();
  for (auto* part : {&directions.zeta, &directions.chip_friction, &directions.axial, &directions.across})
    part->resize(n);
  for (Eigen::Index i = 0; i < n; ++i) {
    const geometry::CuttingDirection force =
        geometry::cutting_direction(bit.back_rake(i), bit.side_rake(i), law);
    const double cosine = std::cos(bit.profile_angle(i)), sine = std::sin(bit.profile_angle(i));
    directions.zeta(i) = force.normal;
    directions.chip_friction(i) = force.friction;
    directions.axial(i) = std::max(0.0, force.normal * cosine - force.sideways * sine);
    directions.across(i) = force.normal * sine + force.sideways * cosine;
  }
  return directions;
}

void CutterLoads::resize(Eigen::Index cutters) {
  for (auto* field :
       {&area, &area_moment, &contact_force, &contact_moment, &contact_axial, &contact_across, &contact_area,
        &engaged_width, &cutting_width, &flat_mobilised, &diamond_area, &depth_moment}) {
    field->setZero(cutters);
  }
  for (auto* factor : {&speed_strength, &cut_strength}) factor->setOnes(cutters);
}

namespace {

/// Loads straight on by `further`, before strengths: by their slopes, and what else bears in proportion.
void go_further(const StripSums& sums, double further, CutterLoads& loads) {
  for (Eigen::Index i = 0; i < loads.area.size(); ++i) {
    const auto more = [&](StripSum sum) {
      const auto at = static_cast<std::size_t>(i);
      const double there = sums.of(sum, at);
      return there > 0.0 ? std::max(0.0, 1.0 + further * sums.slope_of(sum, at) / there) : 1.0;
    };
    const double cut = more(StripSum::area), bears = more(StripSum::bearing);
    loads.area(i) *= cut;
    loads.area_moment(i) *= cut;
    loads.depth_moment(i) *= more(StripSum::depth_moment);
    for (auto* borne :
         {&loads.contact_force, &loads.contact_moment, &loads.contact_axial, &loads.contact_across,
          &loads.contact_area, &loads.engaged_width, &loads.flat_mobilised, &loads.diamond_area})
      (*borne)(i) *= bears;
  }
}

}  // namespace

void cutter_loads(const geometry::WornProfile& profile, const RockResistance& rock,
                  const Eigen::ArrayXd& carbide_share, double d, CutterLoads& loads, ForceStorage& storage,
                  double further) {
  StripSums& sums = storage.sums;
  const Eigen::Index n = profile.bit().count();
  loads.resize(n);
  if (!(d > 0.0)) return;
  sums.find(profile, rock.mobilisation_slope, carbide_share.data(), d, false);
  const double strength = rock.contact_strength;
  for (Eigen::Index i = 0; i < n; ++i) {
    const auto of = [&](StripSum sum) { return sums.of(sum, static_cast<std::size_t>(i)); };
    loads.area(i) = of(StripSum::area);
    loads.area_moment(i) = of(StripSum::area_moment);
    loads.contact_force(i) = strength * of(StripSum::contact_area);
    loads.contact_moment(i) = strength * of(StripSum::contact_moment);
    loads.contact_axial(i) = strength * of(StripSum::bearing);
    loads.contact_across(i) = strength * of(StripSum::contact_across);
    loads.contact_area(i) = of(StripSum::contact_area);
    loads.engaged_width(i) = of(StripSum::engaged_width);
    loads.cutting_width(i) = of(StripSum::cutting_width);
    loads.flat_mobilised(i) = of(StripSum::flat_mobilised);
    loads.diamond_area(i) = of(StripSum::diamond_area);
    loads.depth_moment(i) = of(StripSum::depth_moment);
  }
  if (further != 0.0) go_further(sums, further, loads);
  apply_rate(rock, storage.at_speed.of(rock.rate, rock.rotary_speed, profile.bit().radius), loads);
}

void cutter_loads(const geometry::WornProfile& profile, const RockResistance& rock,
                  const Eigen::ArrayXd& carbide_share, double d, CutterLoads& loads) {
  ForceStorage storage;
  cutter_loads(profile, rock, carbide_share, d, loads, storage);
}

void apply_rate(const RockResistance& rock, const Eigen::ArrayXd& speed_strength, CutterLoads& loads) {
  loads.speed_strength = speed_strength;
  for (Eigen::Index i = 0; i < speed_strength.size(); ++i)
    loads.cut_strength(i) = speed_strength(i) * strength_in_cut(rock, loads.area(i), loads.depth_moment(i));
  for (auto* force :
       {&loads.contact_force, &loads.contact_moment, &loads.contact_axial, &loads.contact_across})
    *force *= speed_strength;
}

double axial_force(const geometry::WornProfile& profile, const RockResistance& rock,
                   const ForceDirections& directions, const Eigen::ArrayXd& carbide_share, double d,
                   ForceStorage& storage, bool loads_follow) {
  storage.force_slope = 0.0;
  if (!(d > 0.0)) return 0.0;
  StripSums& sums = storage.sums;
  const Eigen::ArrayXd& speed_strength =
      storage.at_speed.of(rock.rate, rock.rotary_speed, profile.bit().radius);
  sums.find(profile, rock.mobilisation_slope, carbide_share.data(), d, !loads_follow);
  const double cutting = rock.specific_energy / rock.drilling_efficiency;
  double force = 0.0, slope = 0.0;
  for (Eigen::Index i = 0; i < speed_strength.size(); ++i) {
    const auto of = [&](StripSum sum) { return sums.of(sum, static_cast<std::size_t>(i)); };
    const double area = of(StripSum::area);
    const double pressure = cutting * strength_in_cut(rock, area, of(StripSum::depth_moment));
    force += speed_strength(i) *
             (directions.axial(i) * (pressure * area) + rock.contact_strength * of(StripSum::bearing));
    if (!(area > 0.0)) continue;
    const auto by_depth = [&](StripSum sum) { return sums.slope_of(sum, static_cast<std::size_t>(i)); };
    // Strength goes with the mean depth, depth moment over area, to the minus exponent of the law.
    const double wider = by_depth(StripSum::area),
                 deeper = by_depth(StripSum::depth_moment) * area / of(StripSum::depth_moment);
    slope += speed_strength(i) *
             (directions.axial(i) * pressure * (wider - rock.rate.exponent * (deeper - wider)) +
              rock.contact_strength * by_depth(StripSum::bearing));
  }
  storage.force_slope = slope;
  return force;
}

double axial_force(const geometry::WornProfile& profile, const RockResistance& rock,
                   const ForceDirections& directions, const Eigen::ArrayXd& carbide_share, double d) {
  ForceStorage storage;
  return axial_force(profile, rock, directions, carbide_share, d, storage);
}

double axial_force(const CutterLoads& loads, const RockResistance& rock, const ForceDirections& directions) {
  return rock.specific_energy / rock.drilling_efficiency *
             (directions.axial * loads.cut_strength * loads.area).sum() +
         loads.contact_axial.sum();
}

double cutter_torque(const CutterLoads& loads, const RockResistance& rock) {
  return rock.specific_energy / rock.drilling_efficiency * (loads.cut_strength * loads.area_moment).sum() +
         rock.flat_friction * loads.contact_moment.sum();
}

}  // namespace dullcast::cutting
