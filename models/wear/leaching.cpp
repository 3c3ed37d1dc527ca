#include "models/wear/leaching.hpp"

#include <algorithm>
#include <cmath>

#include "models/geometry/wear_flat.hpp"

namespace dullcast::wear {
namespace {

/// Of back rakes below this the share is that of this one, of the table to six digits; none divides by zero.
constexpr double least_slope = 1e-6;

/// Area of the flat, times sin theta, between two depths behind the face (m), m2, of a cylinder of that
/// radius.
double slice(double radius, double u, double from, double to, double slope) {
  const auto area = [&](double height) {
    return geometry::segment_area(radius, std::clamp(height, 0.0, 2.0 * radius));
  };
  return area(u - from * slope) - area(u - to * slope);
}

}  // namespace

double leached_share(const geometry::CutterShape& shape, double back_rake, double worn_height) {
  const double z_L = shape.leach_depth, z_s = shape.leach_side_depth, t = shape.table_thickness;
  if (!(z_L > 0.0 || z_s > 0.0)) return 0.0;
  const double slope = std::max(std::tan(back_rake), least_slope);
  const double u = std::clamp(worn_height, 0.0, 2.0 * shape.radius);
  const double whole = slice(shape.radius, u, 0.0, t, slope);
  if (!(whole > 0.0)) return 1.0;
  const double with_cobalt = slice(shape.radius - z_s, u - z_s, z_L, t, slope);
  return std::clamp(1.0 - with_cobalt / whole, 0.0, 1.0);
}

double depth_under_leached(const geometry::CutterShape& shape, double back_rake, double worn_height) {
  constexpr double least_sine = 0.05;
  return std::max(0.5 * shape.leach_depth / std::max(std::sin(back_rake), least_sine),
                  std::max(0.0, shape.leach_side_depth - std::max(worn_height, 0.0)));
}

}  // namespace dullcast::wear
