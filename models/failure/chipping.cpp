#include "models/failure/chipping.hpp"

#include <algorithm>
#include <cmath>

#include "models/common/bounds.hpp"
#include "models/common/constants.hpp"
#include "models/failure/wedge_stress.hpp"

namespace dullcast::failure {
namespace {

constexpr double cold = 20.0 + celsius_zero;  // K
constexpr double hot = 700.0 + celsius_zero;  // K
constexpr double corner = 5.0;                // K, half of what the corner at 20 C is rounded over
constexpr double least_hot_share = 0.1;       // 1
constexpr double least_share_corner = 0.02;   // 1
constexpr double least_edge_radius = 1e-9;    // m
constexpr double certain = 700.0;             // exp(-700) is about the least positive double

/// max(0, x), its corner rounded by a parabola from -width to width: C1.
double rounded_ramp(double x, double width) {
  if (x <= -width) return 0.0;
  if (x >= width) return x;
  return (x + width) * (x + width) / (4.0 * width);
}

/// (stress/strength)^modulus, at most `certain`.
double chip_exponent(double stress, double strength, double modulus) {
  if (std::isnan(strength) || std::isnan(modulus)) return strength + modulus;
  if (stress <= 0.0) return 0.0;
  if (strength <= 0.0) return certain;
  return std::min(std::pow(stress / strength, modulus), certain);
}

double impact_probability(const ChipLaw& law, const geometry::CutterShape& shape, const CuttingEdge& edge,
                          double strength, double v, double depth) {
  return chip_probability(impact_stress(law, shape, edge, strength, v, depth),
                          edge_strength(law, edge.temperature, edge.heat_damage), law.weibull_modulus);
}

/// Depth to which a stone is met: the depth of cut d, but not past half its size s: d s/(d^4 + s^4)^(1/4).
double depth_in_stone(double depth, double size) {
  const double half = 0.5 * size;
  const double larger = half < depth ? depth : half, smaller = half < depth ? half : depth;
  return smaller / std::sqrt(std::sqrt(1.0 + std::pow(smaller / larger, 4)));
}

}  // namespace

double edge_strength(const ChipLaw& law, double T, double heat_damage) {
  const double warmed = rounded_ramp(T - cold - corner, corner) / (hot - cold - corner);
  const double hot_share = 1.0 - (1.0 - law.hot_share) * warmed;
  const double share = least_hot_share + rounded_ramp(hot_share - least_hot_share, least_share_corner);
  const double damaged = 1.0 - (1.0 - law.damaged_share) * std::clamp(heat_damage, 0.0, 1.0);
  return law.edge_strength * share * damaged;
}

double impact_line_load(const ChipLaw& law, double strength, double v, double depth) {
  return (at_least(strength, 0.0) + law.impact_impedance * at_least(v, 0.0)) * at_least(depth, 0.0);
}

double edge_load_share(double depth, double edge_radius) {
  const double edge = edge_radius < least_edge_radius ? least_edge_radius : edge_radius;
  return 1.0 / std::sqrt(1.0 + 0.25 * pi * pi * at_least(depth, 0.0) / edge);
}

double impact_stress(const ChipLaw& law, const geometry::CutterShape& shape, const CuttingEdge& edge,
                     double strength, double v, double depth) {
  const double radius = shape.edge_radius < least_edge_radius ? least_edge_radius : shape.edge_radius;
  const EdgeWedge wedge = edge_wedge(shape, edge.back_rake, edge.worn_height);
  return impact_line_load(law, strength, v, depth) * edge_load_share(depth, radius) / radius *
         wedge_stress_factor(wedge.half_angle, wedge.load_angle);
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
                        const EdgeImpacts& impacts) {
  if (impacts.width <= 0.0 || impacts.depth <= 0.0 || impacts.sliding_speed <= 0.0) return 0.0;
  const double v = impacts.sliding_speed;
  double per_metre = at_least(law.roughness_impacts, 0.0) *
                     impact_probability(law, shape, edge, impacts.rock_strength, v,
                                        impacts.depth * at_least(law.roughness_overload, 0.0));
  const double met = inclusions_met_per_metre(impacts.inclusions, impacts.width, impacts.depth);
  if (met != 0.0) {
    per_metre += met * impact_probability(law, shape, edge, impacts.inclusions.strength, v,
                                          depth_in_stone(impacts.depth, impacts.inclusions.size));
  }
  return v * per_metre;
}

double boundary_hazard(const ChipLaw& law, const geometry::CutterShape& shape, const CuttingEdge& edge,
                       double depth_before, double harder_strength, double v, double impacts) {
  return at_least(impacts, 0.0) * impact_probability(law, shape, edge, harder_strength, v, depth_before);
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
