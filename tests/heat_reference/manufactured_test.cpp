// The heat reference against solutions known in closed form.
#include <gtest/gtest.h>

#include <cmath>
#include <cstdio>

#include "models/common/constants.hpp"
#include "tools/heat_reference/conduction.hpp"

namespace dullcast::heat_reference {
namespace {

using Eigen::Vector3d;

WornCutter worn_cutter() {
  WornCutter c;
  c.shape = {6.5e-3, 8e-3, 2e-3, 0.0, 0.4e-3, pi / 4.0, 30e-6};
  c.back_rake = 15.0 * pi / 180.0;
  c.worn = 1.1e-3;
  return c;
}

/// A field without symmetry in x or z, even in y as the plane of symmetry asks.
constexpr double k = 200.0, p = 260.0, q = 190.0, s = 310.0;  // W/(m K), 1/m
double field(const Vector3d& x) {
  return std::sin(p * x.x() + 0.4) * std::cos(q * x.y()) * std::exp(s * x.z());
}
double source(const Vector3d& x) {
  return -k * (s * s - p * p - q * q) * field(x);
}
Vector3d gradient(const Vector3d& x) {
  const double exponential = std::exp(s * x.z());
  return {p * std::cos(p * x.x() + 0.4) * std::cos(q * x.y()) * exponential,
          -q * std::sin(p * x.x() + 0.4) * std::sin(q * x.y()) * exponential, s * field(x)};
}

/// Outward normal of the true surface at a point of it.
Vector3d normal(const WornCutter& c, const SurfacePoint& point) {
  const Vector3d& x = point.place;
  if (point.outside == Outside::back) return {0.0, 0.0, 1.0};
  if (point.outside == Outside::contact) return {std::cos(c.back_rake), 0.0, -std::sin(c.back_rake)};
  if (x.z() < 1e-9) return {0.0, 0.0, -1.0};
  const double r = std::hypot(x.x(), x.y());
  if (x.z() < bevel_height(c.shape)) {
    const double angle = c.shape.bevel_angle;
    return {x.x() / r * std::sin(angle), x.y() / r * std::sin(angle), -std::cos(angle)};
  }
  return {x.x() / r, x.y() / r, 0.0};
}

/// Root mean square error over the nodes, weighted by their volumes, for the manufactured problem with
/// exchange h on the whole surface.
double error_with(int halvings) {
  const WornCutter c = worn_cutter();
  const CutterMesh mesh = mesh_cutter(c, {4, halvings});
  const Discretised parts = discretise(mesh, {k, 1.0}, {k, 1.0});
  constexpr double h = 3e4;
  const Matrix matrix = parts.stiffness + surface_matrix(mesh, [](const SurfacePoint&) { return h; });
  const Vector load = volume_load(mesh, source) + surface_load(mesh, [&](const SurfacePoint& point) {
                        return h * field(point.place) + k * gradient(point.place).dot(normal(c, point));
                      });
  const Vector found = Solver(matrix).solve(load, Vector::Zero(load.size()));
  double squares = 0.0, volume = 0.0;
  const Vector weights = parts.mass * Vector::Ones(load.size());
  for (Eigen::Index i = 0; i < found.size(); ++i) {
    const double off = found(i) - field(mesh.points[static_cast<std::size_t>(i)]);
    squares += weights(i) * off * off;
    volume += weights(i);
  }
  return std::sqrt(squares / volume);
}

TEST(ManufacturedSolution, ErrorOfTrilinearBricksFallsWithTheSquareOfTheCells) {
  const double coarse = error_with(0), middle = error_with(1), fine = error_with(2);
  const double first = std::log2(coarse / middle), second = std::log2(middle / fine);
  std::printf("  errors %.2e, %.2e, %.2e K: orders %.2f, %.2f\n", coarse, middle, fine, first, second);
  // Trilinear bricks are of second order; a tenth is left for what is not yet asymptotic.
  EXPECT_NEAR(second, 2.0, 0.1);
  EXPECT_NEAR(first, 2.0, 0.3);
}

}  // namespace
}  // namespace dullcast::heat_reference
