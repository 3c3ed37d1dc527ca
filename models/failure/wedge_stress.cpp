#include "models/failure/wedge_stress.hpp"

#include <algorithm>
#include <cmath>

#include "models/common/bounds.hpp"
#include "models/common/constants.hpp"

namespace dullcast::failure {
namespace {

constexpr double least_half_angle = 1e-3;     // rad: keeps the stress of a needle finite
constexpr double least_edge_radius = 1e-9;    // m
constexpr double bevel_lengths_needed = 2.0;  // edge radii of bevel that make it a face of the wedge [asm]

}  // namespace

double wedge_radial_stress_factor(double half_angle, double load_angle, double position) {
  const double alpha = std::clamp(half_angle, least_half_angle, 0.5 * pi);
  const double half_sine = 0.5 * std::sin(2.0 * alpha);
  return -std::cos(load_angle) * std::cos(position) / (alpha + half_sine) -
         std::sin(load_angle) * std::sin(position) / (alpha - half_sine);
}

double wedge_stress_factor(double half_angle, double load_angle) {
  const double alpha = std::clamp(half_angle, least_half_angle, 0.5 * pi);
  const double tension = wedge_radial_stress_factor(alpha, load_angle, -alpha);
  return tension < 0.0 ? 0.0 : tension;
}

EdgeWedge edge_wedge(const geometry::CutterShape& shape, double back_rake, double worn_height) {
  const double theta = std::clamp(back_rake, 0.0, 0.5 * pi);
  const double chi = std::clamp(shape.bevel_angle, 0.0, 0.5 * pi - theta);
  const double width = shape.bevel_width < 0.0 ? 0.0 : shape.bevel_width;
  const double edge = shape.edge_radius < least_edge_radius ? least_edge_radius : shape.edge_radius;
  const double first_touch = width * std::tan(chi) * std::tan(theta);
  const double used_up = width;
  const double flat = cubic_step((worn_height - first_touch) / edge);
  const double chi_left = chi * cubic_step((used_up - worn_height) / (bevel_lengths_needed * edge));
  const double opening = 0.5 * pi + chi_left + flat * theta;
  // From pi/4 + theta + chi/2 against the side to half the opening along the flat.
  const double load = 0.25 * pi + 0.5 * chi_left + theta - 0.5 * flat * theta;
  return {0.5 * opening, load};
}

}  // namespace dullcast::failure
