#pragma once

#include <Eigen/Core>
#include <cmath>
#include <cstdint>
#include <limits>
#include <optional>
#include <random>
#include <stdexcept>
#include <utility>

#include "models/common/constants.hpp"
#include "models/geometry/bit_layout.hpp"

/// Invented bits for tests of the engagement, and their geometry worked out a second way.
namespace dullcast::samples {

/// The same numbers on every machine: the standard fixes the engine but not its distributions.
class Draw {
 public:
  explicit Draw(std::uint32_t seed) : engine_(seed) {}
  double between(double low, double high) {
    return low + (high - low) * (static_cast<double>(engine_()) + 0.5) / 4294967296.0;
  }
  int count(int low, int high) {
    return low + static_cast<int>(engine_() % static_cast<unsigned>(high - low + 1));
  }

 private:
  std::mt19937 engine_;
};

inline geometry::EdgeLaw made_edge_law() {
  constexpr double degree = pi / 180.0;
  return {0.5e-3, 0.4e-3, 45.0 * degree, 15.0 * degree, 15.0 * degree, 0.8, 5.0 * degree};
}

/// Any bit that can be laid out and leaves no radius uncovered: 3 to 6 blades, 2 to 6 cutters each, any
/// profile.
inline geometry::BitLayout random_bit(Draw& draw) {
  constexpr double degree = pi / 180.0;
  for (int trial = 0; trial < 1000; ++trial) {
    geometry::BladePlan plan;
    plan.bit_diameter = draw.between(0.09, 0.25);
    plan.cutters_per_blade.resize(draw.count(3, 6));
    for (auto& cutters : plan.cutters_per_blade) cutters = draw.count(2, 6);
    plan.wing_sweep = draw.between(-40.0, 60.0) * degree;
    plan.cone_angle = draw.between(0.0, 25.0) * degree;
    plan.nose_share = draw.between(0.3, 0.7);
    plan.gauge_angle = draw.between(5.0, 88.0) * degree;
    plan.inner_back_rake = draw.between(5.0, 25.0) * degree;
    plan.outer_back_rake = draw.between(5.0, 25.0) * degree;
    plan.exposure = draw.between(3e-3, 9e-3);
    plan.crowding = draw.between(0.6, 1.1);
    geometry::CutterShape shape{draw.between(4e-3, 9.5e-3), 13e-3, 2e-3, 0.0, 0.4e-3, 45.0 * degree, 30e-6};
    try {
      geometry::BitLayout bit = geometry::lay_out_blades(plan, shape);
      const geometry::UncoveredBand gap = geometry::first_uncovered_band(bit);
      if (gap.inner == gap.outer) return bit;
    } catch (const std::invalid_argument&) {
      // Not every drawn plan fits.
    }
  }
  throw std::runtime_error("no bit could be drawn");
}

/// Worn heights from none to a third of the cutter's radius, every cutter its own.
inline Eigen::ArrayXd random_wear(const geometry::BitLayout& bit, Draw& draw) {
  Eigen::ArrayXd u(bit.count());
  for (auto& height : u) height = draw.count(0, 3) == 0 ? 0.0 : draw.between(0.0, 0.35) * bit.shape.radius;
  return u;
}

/// Cutters on a flat face: every profile angle 0, tips level, radii from near the axis outward on `blades`
/// straight blades.
inline geometry::BitLayout flat_faced_bit(int cutters, int blades, double cutter_radius, double back_rake,
                                          double spread) {
  geometry::BitLayout bit;
  bit.blades = blades;
  bit.shape = {cutter_radius, 13e-3, 2e-3, 0.0, 0.4e-3, pi / 4.0, 30e-6};
  for (auto* field : {&bit.radius, &bit.azimuth, &bit.depth, &bit.back_rake, &bit.side_rake,
                      &bit.profile_angle, &bit.exposure})
    field->setZero(cutters);
  bit.blade.setZero(cutters);
  for (int i = 0; i < cutters; ++i) {
    bit.radius(i) = spread * (i + 0.5);
    bit.blade(i) = i % blades;
    bit.azimuth(i) = two_pi * bit.blade(i) / blades;
  }
  bit.back_rake.setConstant(back_rake);
  bit.exposure.setConstant(cutter_radius);
  bit.bit_radius = bit.radius(cutters - 1) + cutter_radius;
  return bit;
}

/// Lowest point of cutter i's worn face over radius r, from the tilted disc itself: the points (x along the
/// profile, y along the normal) with x^2/a^2 + y^2/b^2 <= 1 and y <= (a - u) cos(theta), turned by the
/// profile angle. None where the face does not reach.
inline std::optional<double> lowest_point(const geometry::BitLayout& bit, Eigen::Index i, double u,
                                          double r) {
  const double a = bit.shape.radius, b = a * std::cos(bit.back_rake(i));
  const double s = std::sin(bit.profile_angle(i)), c = std::cos(bit.profile_angle(i));
  const double p = r - (bit.radius(i) - b * s);
  const double centre_z = bit.depth(i) - b * c;
  // On the vertical line r = const, x = p c - q s and y = p s + q c with q = z - centre_z: a quadratic in q.
  const double A = s * s / (a * a) + c * c / (b * b);
  const double B = p * s * c * (1.0 / (b * b) - 1.0 / (a * a));
  const double C = p * p * (c * c / (a * a) + s * s / (b * b)) - 1.0;
  const double discriminant = B * B - A * C;
  if (!(discriminant >= 0.0)) return std::nullopt;
  const double lowest = (-B + std::sqrt(discriminant)) / A, highest = (-B - std::sqrt(discriminant)) / A;
  const double flat = (a - u) * std::cos(bit.back_rake(i));
  const double on_flat = c > 0.0 ? (flat - p * s) / c : lowest;
  const double q = std::min(lowest, on_flat);
  if (q < highest) return std::nullopt;
  return centre_z + q;
}

}  // namespace dullcast::samples
