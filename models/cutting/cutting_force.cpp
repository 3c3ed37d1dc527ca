#include "models/cutting/cutting_force.hpp"

#include <algorithm>
#include <cmath>

#include "models/common/constants.hpp"
#include "models/geometry/engagement.hpp"

namespace dullcast::cutting {
namespace {

/// Mean of sqrt(x) over an x that runs straight from one value >= 0 to another, in terms of their roots.
inline double mean_root(double one, double other) {
  const double sum = one + other;
  return sum > 0.0 ? 2.0 / 3.0 * (one * one + one * other + other * other) / sum : 0.0;
}

/// Mean of the mobilisation over a stretch on which the cut runs linearly between two values >= 0.
inline double mean_mobilisation(const geometry::CutPiece& piece, double full) {
  static const double at_rest = std::sqrt(elastic_share), at_full = std::sqrt(1.0 + elastic_share);
  const double least = std::min(piece.cut_inner, piece.cut_outer),
               most = std::max(piece.cut_inner, piece.cut_outer);
  if (least >= full) return 1.0;
  const double from = std::sqrt(least / full + elastic_share);
  const double to = most < full ? std::sqrt(most / full + elastic_share) : at_full;
  const double below = (mean_root(from, to) - at_rest) / (at_full - at_rest);
  if (most <= full) return below;
  const double share_below = (full - least) / (most - least);
  return share_below * below + (1.0 - share_below);
}

/// strength_at_speed of a cutter at a radius, m.
inline double strength_at_radius(const RockResistance& rock, double radius) {
  return strength_at_speed(rock.rate, two_pi * rock.rotary_speed * radius);
}

/// strength_at_depth at the mean depth of a cut; 1 where nothing is cut.
inline double strength_in_cut(const RockResistance& rock, double area, double depth_moment) {
  return area > 0.0 ? strength_at_depth(rock.rate, depth_moment / area) : 1.0;
}

/// Integral over a piece of the square of its cut, normal to the outline, along the edge, m3.
inline double depth_moment_of(const geometry::CutPiece& piece, double width, double cosine) {
  const double a = piece.cut_inner, b = piece.cut_outer;
  return width * cosine * (a * a + a * b + b * b) / 3.0;
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

void CutterSums::resize(Eigen::Index cutters) {
  for (auto* field : {&area, &depth_moment, &bearing}) field->setZero(cutters);
}

void cutter_loads(const geometry::WornProfile& profile, const RockResistance& rock,
                  const Eigen::ArrayXd& carbide_share, double d, CutterLoads& loads) {
  loads.resize(profile.bit().count());
  if (!(d > 0.0)) return;
  geometry::for_each_cut(profile, d, [&](const geometry::OutlineSegment& s, const geometry::CutPiece& piece) {
    const int i = s.cutter;
    const double width = piece.outer - piece.inner;
    const double mean_cut = 0.5 * (piece.cut_inner + piece.cut_outer);
    loads.area(i) += width * mean_cut;
    loads.area_moment(i) += width / 6.0 *
                            (piece.inner * (2.0 * piece.cut_inner + piece.cut_outer) +
                             piece.outer * (piece.cut_inner + 2.0 * piece.cut_outer));
    const double edge = width / s.cosine;
    const double full_cut = rock.mobilisation_slope * s.diamond_per_cosine;  // mobilises fully
    const double mobilised = mean_mobilisation(piece, full_cut);
    const double bearing = s.diamond_length + carbide_share(i) * s.carbide_length;
    const double force = rock.contact_strength * bearing * mobilised * edge;
    loads.contact_force(i) += force;
    loads.contact_moment(i) += force * 0.5 * (piece.inner + piece.outer);
    loads.contact_axial(i) += force * s.cosine;
    const double sine = std::sqrt(std::max(0.0, 1.0 - s.cosine * s.cosine));
    loads.contact_across(i) += s.depth_inner > s.depth_outer ? force * sine : -force * sine;
    loads.contact_area(i) += bearing * mobilised * edge;
    loads.engaged_width(i) += mobilised * edge;
    loads.cutting_width(i) += edge;
    loads.flat_mobilised(i) += s.flat_weight * mobilised * edge;
    loads.diamond_area(i) += s.diamond_length * mobilised * edge;
    loads.depth_moment(i) += depth_moment_of(piece, width, s.cosine);
  });
  apply_rate(rock, profile.bit().radius, loads);
}

void apply_rate(const RockResistance& rock, const Eigen::ArrayXd& radius, CutterLoads& loads) {
  for (Eigen::Index i = 0; i < radius.size(); ++i) {
    const double by_speed = strength_at_radius(rock, radius(i));
    loads.speed_strength(i) = by_speed;
    loads.cut_strength(i) = by_speed * strength_in_cut(rock, loads.area(i), loads.depth_moment(i));
    for (auto* force :
         {&loads.contact_force, &loads.contact_moment, &loads.contact_axial, &loads.contact_across})
      (*force)(i) *= by_speed;
  }
}

double axial_force(const geometry::WornProfile& profile, const RockResistance& rock,
                   const ForceDirections& directions, const Eigen::ArrayXd& carbide_share, double d,
                   CutterSums& sums) {
  if (!(d > 0.0)) return 0.0;
  const Eigen::ArrayXd& radius = profile.bit().radius;
  sums.resize(radius.size());
  geometry::for_each_cut(profile, d, [&](const geometry::OutlineSegment& s, const geometry::CutPiece& piece) {
    const int i = s.cutter;
    const double width = piece.outer - piece.inner;
    const double mean_cut = 0.5 * (piece.cut_inner + piece.cut_outer);
    const double full_cut = rock.mobilisation_slope * s.diamond_per_cosine;  // mobilises fully
    const double mobilised = mean_mobilisation(piece, full_cut);
    const double bearing = s.diamond_length + carbide_share(i) * s.carbide_length;
    sums.area(i) += width * mean_cut;
    sums.depth_moment(i) += depth_moment_of(piece, width, s.cosine);
    sums.bearing(i) += width * bearing * mobilised;
  });
  const double cutting = rock.specific_energy / rock.drilling_efficiency;
  double force = 0.0;
  for (Eigen::Index i = 0; i < radius.size(); ++i) {
    const double in_cut = cutting * strength_in_cut(rock, sums.area(i), sums.depth_moment(i)) * sums.area(i);
    force += strength_at_radius(rock, radius(i)) *
             (directions.axial(i) * in_cut + rock.contact_strength * sums.bearing(i));
  }
  return force;
}

double axial_force(const geometry::WornProfile& profile, const RockResistance& rock,
                   const ForceDirections& directions, const Eigen::ArrayXd& carbide_share, double d) {
  CutterSums sums;
  return axial_force(profile, rock, directions, carbide_share, d, sums);
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
