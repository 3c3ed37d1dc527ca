#include "models/failure/chipping.hpp"

#include <algorithm>
#include <cmath>

#include "models/common/bounds.hpp"
#include "models/common/constants.hpp"
#include "models/common/wide_functions.hpp"

namespace dullcast::failure {
namespace {

constexpr double cold = 20.0 + celsius_zero;  // K
constexpr double hot = 700.0 + celsius_zero;  // K
constexpr double corner = 5.0;                // K, half of what the corner at 20 C is rounded over
constexpr double least_hot_share = 0.1;       // 1
constexpr double least_share_corner = 0.02;   // 1
constexpr double least_edge_radius = 1e-9;    // m
constexpr double certain = 700.0;             // exp(-700) is about the least positive double
constexpr double whole_depth = 1.0;    // a blow on a stone is taken at its whole depth: no more above it
constexpr double most_skimming = 4.0;  // times the mean depth of cut that a peak may add [asm]

/// max(0, x), its corner rounded by a parabola from -width to width: C1.
double rounded_ramp(double x, double width) {
  if (x <= -width) return 0.0;
  if (x >= width) return x;
  return (x + width) * (x + width) / (4.0 * width);
}

double wedge_factor(const geometry::CutterShape& shape, const CuttingEdge& edge) {
  if (edge.wedge != nullptr) return edge.wedge->stress_factor(edge.worn_height);
  const EdgeWedge wedge = edge_wedge(shape, edge.back_rake, edge.worn_height);
  return wedge_stress_factor(wedge.half_angle, wedge.load_angle);
}

/// (stress/strength)^modulus, at most `certain`.
double chip_exponent(double stress, double strength, double modulus) {
  if (std::isnan(strength) || std::isnan(modulus)) return strength + modulus;
  if (stress <= 0.0) return 0.0;
  if (strength <= 0.0) return certain;
  constexpr double hardly_any = 1e-300, beyond_measure = 1e300;
  const double share = stress / strength;
  if (share < hardly_any) return 0.0;
  return share > beyond_measure ? certain : std::min(wide_pow(share, modulus), certain);
}

/// Mean exponent of Weibull's law over the peaks of a load whose mean is `stress`.
double peak_exponent(double factor, double stress, double strength, double modulus) {
  return std::min(factor * chip_exponent(stress, strength, modulus), certain);
}

}  // namespace

double edge_strength(const ChipLaw& law, double T, double heat_damage) {
  const double warmed = rounded_ramp(T - cold - corner, corner) / (hot - cold - corner);
  const double hot_share = 1.0 - (1.0 - law.hot_share) * warmed;
  const double share = least_hot_share + rounded_ramp(hot_share - least_hot_share, least_share_corner);
  const double damaged = 1.0 - (1.0 - law.damaged_share) * std::clamp(heat_damage, 0.0, 1.0);
  return law.edge_strength * share * damaged;
}

double load_variation(const ChipLaw& law, double strength) {
  const double q = at_least(strength, 0.0);
  return q == 0.0 ? 0.0 : law.load_variation * q / (q + law.brittle_strength);
}

double peak_factor(double variation, double modulus) {
  if (variation <= 0.0) return 1.0;
  const double k = std::pow(variation > 1.0 ? 1.0 : variation, -1.086);
  return std::tgamma(1.0 + modulus / k) / std::pow(std::tgamma(1.0 + 1.0 / k), modulus);
}

double peak_depth(double depth, double unevenness) {
  if (depth <= 0.0) return 0.0;
  return depth + unevenness / (1.0 + unevenness / (most_skimming * depth));
}

double depth_in_stone(const Inclusions& inclusions, double depth) {
  // d s/(d^4 + s^4)^(1/4): close to the lesser of the two, without a corner.
  const double half = 0.5 * inclusions.size, met = depth + at_least(inclusions.protrusion, 0.0);
  const double larger = half < met ? met : half, smaller = half < met ? half : met;
  return smaller / std::sqrt(std::sqrt(1.0 + std::pow(smaller / larger, 4)));
}

double stone_protrusion(double share, double size, double ground_strength, double stone_strength) {
  if (!(stone_strength > ground_strength)) return std::isnan(stone_strength) ? stone_strength : 0.0;
  return share * size * (1.0 - ground_strength / stone_strength);
}

double impact_line_load(double impedance, double strength, double v, double depth) {
  return (at_least(strength, 0.0) + at_least(impedance, 0.0) * at_least(v, 0.0)) * at_least(depth, 0.0);
}

double edge_load_share(double depth, double edge_radius) {
  const double edge = edge_radius < least_edge_radius ? least_edge_radius : edge_radius;
  return 1.0 / std::sqrt(1.0 + 0.25 * pi * pi * at_least(depth, 0.0) / edge);
}

double impact_stress(double impedance, const geometry::CutterShape& shape, const CuttingEdge& edge,
                     double strength, double v, double depth) {
  const double radius = shape.edge_radius < least_edge_radius ? least_edge_radius : shape.edge_radius;
  return impact_line_load(impedance, strength, v, depth) * edge_load_share(depth, radius) / radius *
         wedge_factor(shape, edge);
}

double chip_probability(double stress, double strength, double modulus) {
  return -std::expm1(-chip_exponent(stress, strength, modulus));
}

double inclusions_met_per_metre(const Inclusions& inclusions, double width, double depth) {
  const double share = std::clamp(inclusions.share, 0.0, 1.0), size = inclusions.size;
  if (share == 0.0 || size <= 0.0) return 0.0;
  const double w = at_least(width, 0.0), d = at_least(depth, 0.0);
  const double per_volume = share / (pi / 6.0 * size * size * size);
  return per_volume * (w * d + size * (w + d) + 0.25 * pi * size * size);
}

double chip_hazard_rate(const ChipLaw& law, const geometry::CutterShape& shape, const CuttingEdge& edge,
                        const EdgeImpacts& impacts, const PeakFactors& factors) {
  if (impacts.width <= 0.0 || impacts.depth <= 0.0 || impacts.sliding_speed <= 0.0) return 0.0;
  const double v = impacts.sliding_speed, peaks = at_least(law.roughness_impacts, 0.0);
  const double holds = edge_strength(law, edge.temperature, edge.heat_damage);
  const auto chance = [&](double factor, double impedance, double strength, double depth) {
    const double stress = impact_stress(impedance, shape, edge, strength, v, depth);
    return -std::expm1(-peak_exponent(factor, stress, holds, law.weibull_modulus));
  };
  const Inclusions& stones = impacts.inclusions;
  const double depth = peak_depth(impacts.depth, law.unevenness);
  const double met = inclusions_met_per_metre(stones, impacts.width, impacts.depth);
  const double in_ground = chance(factors.ground, impacts.rock_impedance, impacts.rock_strength, depth);
  if (met == 0.0) return v * peaks * in_ground;
  const double share = std::clamp(stones.share, 0.0, 1.0), impedance = law.impact_impedance;
  const double in_stone = chance(factors.stones, impedance, stones.strength, depth);
  const double entering =
      chance(whole_depth, impedance, stones.strength, depth_in_stone(stones, impacts.depth));
  return v * (peaks * ((1.0 - share) * in_ground + share * in_stone) + met * entering);
}

double boundary_hazard(const ChipLaw& law, const geometry::CutterShape& shape, const CuttingEdge& edge,
                       double depth_before, double harder_strength, double v, double impacts) {
  const double stress = impact_stress(law.impact_impedance, shape, edge, harder_strength, v, depth_before);
  return at_least(impacts, 0.0) * chip_probability(stress,
                                                   edge_strength(law, edge.temperature, edge.heat_damage),
                                                   law.weibull_modulus);
}

double touch_down_hazard(const ChipLaw& law, const geometry::CutterShape& shape, const CuttingEdge& edge,
                         const EdgeImpacts& impacts, const PeakFactors& factors) {
  if (impacts.width <= 0.0 || impacts.depth <= 0.0) return 0.0;
  const double holds = edge_strength(law, edge.temperature, edge.heat_damage);
  const double depth = peak_depth(law.touch_down_overload * impacts.depth, law.unevenness);
  const auto exponent = [&](double factor, double impedance, double strength) {
    const double stress = impact_stress(impedance, shape, edge, strength, impacts.sliding_speed, depth);
    return peak_exponent(factor, stress, holds, law.weibull_modulus);
  };
  const double share = std::clamp(impacts.inclusions.share, 0.0, 1.0);
  const double in_ground = exponent(factors.ground, impacts.rock_impedance, impacts.rock_strength);
  if (share == 0.0) return in_ground;
  const double in_stone = exponent(factors.stones, law.impact_impedance, impacts.inclusions.strength);
  return (1.0 - share) * in_ground + share * in_stone;
}

PeakFactors peak_factors(const ChipLaw& law, double ground_strength, const Inclusions& inclusions) {
  const auto factor = [&](double strength) {
    return peak_factor(load_variation(law, strength), law.weibull_modulus);
  };
  return {factor(ground_strength), inclusions.share > 0.0 ? factor(inclusions.strength) : 1.0};
}

double manson_stress_share(double biot) {
  if (biot <= 0.0) return 0.0;
  return 1.0 / (1.5 + 3.25 / biot - 0.5 * std::exp(-16.0 / biot));
}

double quench_stress(const ChipLaw& law, double T_before, double T_fluid, double h, double thickness,
                     double conductivity) {
  const double full =
      law.table_modulus * law.table_expansion * at_least(T_before - T_fluid, 0.0) / (1.0 - law.table_poisson);
  return law.shock_share * full * manson_stress_share(h * thickness / conductivity);
}

double quench_hazard(const ChipLaw& law, double stress, const CuttingEdge& edge) {
  return chip_exponent(stress, edge_strength(law, edge.temperature, edge.heat_damage), law.weibull_modulus);
}

double chip_height(const ChipLaw& law, const geometry::CutterShape& shape, double depth) {
  const double height = at_least(law.chip_size_share * depth, 0.0);
  const double least = at_least(shape.edge_radius, 0.0), most = 0.5 * at_least(shape.radius, 0.0);
  if (height < least) return std::min(least, most);
  return height > most ? most : height;
}

}  // namespace dullcast::failure
