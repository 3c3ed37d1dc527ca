// A disc of uniform heat on a half-space [hb: Carslaw & Jaeger 1959, sec. 8.2]: mean rise 8/(3 pi^2 k a) per
// watt steady, and its rise in time from the same book's Bessel integral.
#include <gtest/gtest.h>

#include <algorithm>
#include <boost/math/quadrature/gauss_kronrod.hpp>
#include <boost/math/special_functions/bessel.hpp>
#include <cmath>
#include <cstdio>

#include "models/common/constants.hpp"
#include "models/thermal/heat.hpp"
#include "tools/heat_reference/march.hpp"

namespace dullcast::heat_reference {
namespace {

constexpr double a = 1e-3, far = 30e-3;  // m: the disc, and where the half-space ends
const Conductor solid{100.0, 3.2e6};

/// A cylinder as wide and as long as the half-space is kept, with lines through the disc's rim. Its far sides
/// take what a point source would send through them: q = k T (x . n)/|x|^2.
struct HalfSpace {
  CutterMesh mesh;
  Discretised parts;
  Matrix exchange;
  Vector load;
  explicit HalfSpace(int cells) {
    WornCutter block;
    block.shape = {far, far, 0.5 * far, 0.0, 0.0, 0.0, 30e-6};
    block.back_rake = 0.3;
    GridLines lines;
    const double growth = std::exp(1.8 / cells);
    for (const double r : graded(a, 0.25 * a / cells, growth)) lines.outward.push_back((a - r) / far);
    std::reverse(lines.outward.begin(), lines.outward.end());
    for (const double r : graded(far - a, 0.25 * a / cells, growth))
      if (r > 0.0) lines.outward.push_back((a + r) / far);
    lines.axial = graded(0.5 * far, 0.25 * a / cells, growth);
    for (const double z : graded(0.5 * far, lines.axial.back() - lines.axial[lines.axial.size() - 2], growth))
      if (z > 0.0) lines.axial.push_back(0.5 * far + z);
    lines.flat_angles = 1;
    lines.least_angle = pi / (2.0 * cells);
    lines.pocket_edge = pi;
    for (int j = 0; j <= 2 * cells; ++j) lines.bare.push_back(static_cast<double>(j) / (2 * cells));
    mesh = mesh_on(block, lines);
    parts = discretise(mesh, solid, solid);
    exchange = parts.stiffness + surface_matrix(mesh, [](const SurfacePoint& point) {
                 const Eigen::Vector3d& x = point.place;
                 if (x.z() < 1e-9) return 0.0;
                 const double through = point.outside == Outside::back ? x.z() : std::hypot(x.x(), x.y());
                 return solid.conductivity * through / x.squaredNorm();
               });
    load = surface_load(mesh, [](const SurfacePoint& point) {
      return point.place.z() < 1e-9 && std::hypot(point.place.x(), point.place.y()) < a ? 1.0 : 0.0;
    });
    load *= 0.5 / load.sum();
  }
  double mean_rise(const Vector& field) const { return 2.0 * load.dot(field); }
};

/// Share of the steady mean rise reached at Fourier number kappa t/a^2: over the integral at late times,
/// integral of J1(x)^2 erf(x sqrt(Fo))/x^2 dx, whose limit is 4/(3 pi).
double reached(double fourier) {
  const auto integrand = [&](double x) {
    const double j = x > 0.0 ? boost::math::cyl_bessel_j(1, x) / x : 0.5;
    return j * j * std::erf(x * std::sqrt(fourier));
  };
  double sum = 0.0;
  for (int piece = 0; piece < 400; ++piece)
    sum += boost::math::quadrature::gauss_kronrod<double, 15>::integrate(integrand, piece * pi,
                                                                         (piece + 1) * pi, 3);
  // The tail of J1^2/x^2, whose mean is 1/(pi x^3).
  const double end = 400.0 * pi;
  return (sum + 1.0 / (2.0 * pi * end * end)) / (4.0 / (3.0 * pi));
}

TEST(DiscSourceOnAHalfSpace, MeanRiseIsCarslawAndJaegers) {
  const double exact = thermal::uniform_spot_resistance(solid.conductivity, pi * a * a);
  double off[2];
  for (const int round : {0, 1}) {
    const HalfSpace space(round == 0 ? 4 : 8);
    const Vector field = Solver(space.exchange).solve(space.load, Vector::Zero(space.load.size()));
    off[round] = space.mean_rise(field) / exact - 1.0;
    std::printf("  %d cells across the disc: %+.3f %%\n", round == 0 ? 4 : 8, 100.0 * off[round]);
  }
  EXPECT_NEAR(off[1], 0.0, 0.01);
  EXPECT_LT(std::abs(off[1]), 0.5 * std::abs(off[0]));
}

TEST(DiscSourceOnAHalfSpace, RiseInTimeIsCarslawAndJaegers) {
  const HalfSpace space(6);
  const double diffusivity = solid.conductivity / solid.volume_capacity;
  const double exact = thermal::uniform_spot_resistance(solid.conductivity, pi * a * a);
  std::vector<double> times;
  for (const double fourier : {0.1, 0.3, 1.0, 3.0, 10.0}) times.push_back(fourier * a * a / diffusivity);
  march(space.parts.mass, {{times.back(), space.exchange, space.load}}, Vector::Zero(space.load.size()),
        times, 8, [&](double time, const Vector& field) {
          const double off = space.mean_rise(field) / (exact * reached(time * diffusivity / (a * a))) - 1.0;
          std::printf("  Fourier number %.1f: %+.3f %%\n", time * diffusivity / (a * a), 100.0 * off);
          EXPECT_NEAR(off, 0.0, 0.01) << time;
        });
}

}  // namespace
}  // namespace dullcast::heat_reference
