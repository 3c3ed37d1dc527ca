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
    plan.side_rake = draw.count(0, 1) == 0 ? 0.0 : draw.between(-20.0, 20.0) * degree;
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
  for (auto& height : u)
    height = draw.count(0, 3) == 0 ? 0.0 : draw.between(0.0, 0.35) * bit.shapes.front().radius;
  return u;
}

/// Cutters on a flat face: every profile angle 0, tips level, radii from near the axis outward on `blades`
/// straight blades.
inline geometry::BitLayout flat_faced_bit(int cutters, int blades, double cutter_radius, double back_rake,
                                          double spread) {
  geometry::BitLayout bit;
  bit.blades = blades;
  bit.shapes.front() = {cutter_radius, 13e-3, 2e-3, 0.0, 0.4e-3, pi / 4.0, 30e-6};
  geometry::resize(bit, cutters);
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

/// Lowest point of cutter i's worn face over radius r, from the disc itself: its points (x, y) with x^2 + y^2
/// <= a^2 and y <= a - u, tilted by the back rake and turned by the side rake, lie x cos(beta) - y sin(theta)
/// sin(beta) along the profile and y cos(theta) along the normal. None where the face does not reach.
inline std::optional<double> lowest_point(const geometry::BitLayout& bit, Eigen::Index i, double u,
                                          double r) {
  const double a = bit.shape(i).radius, rake = std::cos(bit.back_rake(i));
  const double s = std::sin(bit.profile_angle(i)), c = std::cos(bit.profile_angle(i));
  const double side = std::cos(bit.side_rake(i)),
               slope = std::tan(bit.back_rake(i)) * std::sin(bit.side_rake(i));
  // The tip is the disc's point (0, a).
  const double p = r - (bit.radius(i) - a * rake * (s - slope * c));
  const double centre_z = bit.depth(i) - a * rake * (c + slope * s);
  // On the vertical line r = const p c - q s lies along the profile and p s + q c along the normal, q = z -
  // centre_z: a quadratic in q.
  const double x_p = (c + slope * s) / side, x_q = (slope * c - s) / side, y_p = s / rake, y_q = c / rake;
  const double A = x_q * x_q + y_q * y_q;
  const double B = p * (x_p * x_q + y_p * y_q);
  const double C = p * p * (x_p * x_p + y_p * y_p) - a * a;
  const double discriminant = B * B - A * C;
  if (!(discriminant >= 0.0)) return std::nullopt;
  const double lowest = (-B + std::sqrt(discriminant)) / A, highest = (-B - std::sqrt(discriminant)) / A;
  const double flat = (a - u) * rake;
  const double on_flat = c > 0.0 ? (flat - p * s) / c : lowest;
  const double q = std::min(lowest, on_flat);
  if (q < highest) return std::nullopt;
  return centre_z + q;
}

}  // namespace dullcast::samples
