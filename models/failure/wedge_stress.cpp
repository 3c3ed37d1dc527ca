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

namespace {

EdgeShape edge_shape(const geometry::CutterShape& shape, double back_rake) {
  const double theta = std::clamp(back_rake, 0.0, 0.5 * pi);
  const double chi = std::clamp(shape.bevel_angle, 0.0, 0.5 * pi - theta);
  const double width = shape.bevel_width < 0.0 ? 0.0 : shape.bevel_width;
  const double edge = shape.edge_radius < least_edge_radius ? least_edge_radius : shape.edge_radius;
  return {theta, chi, edge, width * std::tan(chi) * std::tan(theta), width};
}

/// How much of the flat is there, and of the bevel: shares.
struct FlatAndBevel {
  double flat, bevel;
};

FlatAndBevel flat_and_bevel(const EdgeShape& shape, double worn_height) {
  return {cubic_step((worn_height - shape.first_touch) / shape.edge_radius),
          cubic_step((shape.used_up - worn_height) / (bevel_lengths_needed * shape.edge_radius))};
}

EdgeWedge wedge_of(const EdgeShape& shape, const FlatAndBevel& there) {
  const double chi_left = shape.chi * there.bevel;
  const double opening = 0.5 * pi + chi_left + there.flat * shape.theta;
  // From pi/4 + theta + chi/2 against the side to half the opening along the flat.
  const double load = 0.25 * pi + 0.5 * chi_left + shape.theta - 0.5 * there.flat * shape.theta;
  return {0.5 * opening, load};
}

double factor_of(const EdgeShape& shape, const FlatAndBevel& there) {
  const EdgeWedge wedge = wedge_of(shape, there);
  return wedge_stress_factor(wedge.half_angle, wedge.load_angle);
}

}  // namespace

EdgeWedge edge_wedge(const geometry::CutterShape& shape, double back_rake, double worn_height) {
  const EdgeShape edge = edge_shape(shape, back_rake);
  return wedge_of(edge, flat_and_bevel(edge, worn_height));
}

WearingWedge::WearingWedge(const geometry::CutterShape& shape, double back_rake)
    : shape_(edge_shape(shape, back_rake)),
      without_flat_(factor_of(shape_, {0.0, 1.0})),
      with_both_(factor_of(shape_, {1.0, 1.0})),
      without_bevel_(factor_of(shape_, {1.0, 0.0})) {}

double WearingWedge::stress_factor(double worn_height) const {
  const FlatAndBevel there = flat_and_bevel(shape_, worn_height);
  if (there.bevel == 1.0 && there.flat == 0.0) return without_flat_;
  if (there.bevel == 1.0 && there.flat == 1.0) return with_both_;
  if (there.bevel == 0.0 && there.flat == 1.0) return without_bevel_;
  return factor_of(shape_, there);
}

}  // namespace dullcast::failure
