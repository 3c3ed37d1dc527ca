// One layer on another, heated from its face: the heat reference against the series of eigenfunctions [hb:
// Carslaw & Jaeger 1959, composite solids; Ozisik, Heat Conduction].
#include "tools/heat_reference/march.hpp"

#include <gtest/gtest.h>

#include <boost/math/tools/roots.hpp>
#include <cmath>
#include <cstdio>

#include "models/common/constants.hpp"

namespace dullcast::heat_reference {
namespace {

constexpr double t = 2e-3, l = 8e-3, h = 2e4;  // m, m, W/(m2 K)
const Conductor diamond{543.0, 3510.0 * 856.0}, carbide{100.0, 14900.0 * 220.0};

/// A cylinder heated evenly with 1 W/m2 on its face, insulated around, cooled at its back.
struct Slab {
  CutterMesh mesh;
  Discretised parts;
  Matrix exchange;
  Vector load, face;
  explicit Slab(int halvings) {
    WornCutter cutter;
    cutter.shape = {6.5e-3, l, t, 0.0, 0.0, 0.0, 30e-6};
    cutter.back_rake = 0.3;
    GridLines lines;
    lines.outward = lines.bare = {0.0, 0.5, 1.0};
    lines.flat_angles = 1;
    lines.least_angle = 0.5;
    lines.pocket_edge = pi;
    const int n = 12 << halvings;
    for (int i = 0; i < n; ++i) lines.axial.push_back(t * i / n);
    for (int i = 0; i <= 2 * n; ++i) lines.axial.push_back(t + (l - t) * i / (2 * n));
    mesh = mesh_on(cutter, lines);
    parts = discretise(mesh, diamond, carbide);
    exchange = parts.stiffness + surface_matrix(mesh, [](const SurfacePoint& point) {
                 return point.outside == Outside::back ? h : 0.0;
               });
    load = surface_load(mesh, [](const SurfacePoint& point) { return point.place.z() < 1e-9 ? 1.0 : 0.0; });
    face = load / load.sum();
  }
};

double steady(double z) {
  return 1.0 / h + (l - std::max(z, t)) / carbide.conductivity + std::max(t - z, 0.0) / diamond.conductivity;
}

/// A mode decaying at `rate` (1/s): cos in the table, joined to the carbide in temperature and flux.
struct Mode {
  double rate;
  double in_table() const { return std::sqrt(rate * diamond.volume_capacity / diamond.conductivity); }
  double in_carbide() const { return std::sqrt(rate * carbide.volume_capacity / carbide.conductivity); }
  double sine_part() const {
    return -diamond.conductivity * in_table() * std::sin(in_table() * t) /
           (carbide.conductivity * in_carbide());
  }
  double at(double z) const {
    if (z < t) return std::cos(in_table() * z);
    const double b = in_carbide() * (z - t);
    return std::cos(in_table() * t) * std::cos(b) + sine_part() * std::sin(b);
  }
  /// What is wrong at the back: k T' + h T.
  double at_back() const {
    const double b = in_carbide() * (l - t);
    return carbide.conductivity * in_carbide() *
               (-std::cos(in_table() * t) * std::sin(b) + sine_part() * std::cos(b)) +
           h * at(l);
  }
};

double integral(const auto& of) {
  double sum = 0.0;
  constexpr int n = 4000;
  for (const auto& [from, to] : {std::pair{0.0, t}, std::pair{t, l}}) {
    const double capacity = from < t ? diamond.volume_capacity : carbide.volume_capacity;
    // Middles of slices, so that the bond belongs to no slice's edge.
    for (int i = 0; i < n; ++i) sum += capacity * of(from + (to - from) * (i + 0.5) / n) * (to - from) / n;
  }
  return sum;
}

/// Rise of the face after `time`, from rest.
double face_rise(double time) {
  double rise = steady(0.0);
  int modes = 0;
  double before = 1e-6;
  for (double root = 0.02; modes < 40; root += 0.02) {
    // Rates go with the square of the root.
    const double rate = root * root;
    if (Mode{before}.at_back() * Mode{rate}.at_back() < 0.0) {
      std::uintmax_t iterations = 200;
      const auto bracket =
          boost::math::tools::bisect([](double candidate) { return Mode{candidate}.at_back(); }, before, rate,
                                     boost::math::tools::eps_tolerance<double>(45), iterations);
      const Mode mode{0.5 * (bracket.first + bracket.second)};
      const double share = integral([&](double z) { return steady(z) * mode.at(z); }) /
                           integral([&](double z) { return mode.at(z) * mode.at(z); });
      rise -= share * std::exp(-mode.rate * time);
      ++modes;
    }
    before = rate;
  }
  return rise;
}

TEST(LayeredSlab, SteadyFaceTemperatureIsTheSumOfResistances) {
  const Slab slab(0);
  const Vector found = Solver(slab.exchange).solve(slab.load, Vector::Zero(slab.load.size()));
  // Straight lines are in the space of trilinear bricks, so only the solver's tolerance is left.
  EXPECT_NEAR(slab.face.dot(found) / steady(0.0), 1.0, 1e-8);
}

TEST(LayeredSlab, HeatingFollowsTheEigenfunctionSeries) {
  const std::vector<double> times{0.02, 0.05, 0.2, 1.0, 5.0};
  double worst[2];
  for (const int halvings : {0, 1}) {
    const Slab slab(halvings);
    worst[halvings] = 0.0;
    march(slab.parts.mass, {{5.0, slab.exchange, slab.load}}, Vector::Zero(slab.load.size()), times,
          6 << halvings, [&](double time, const Vector& field) {
            const double off = slab.face.dot(field) / face_rise(time) - 1.0;
            std::printf("  %d halvings, %.2f s: %+.4f %%\n", halvings, time, 100.0 * off);
            worst[halvings] = std::max(worst[halvings], std::abs(off));
          });
  }
  // Second order in space and time: a quarter, with some room.
  EXPECT_LT(worst[0], 0.01);
  EXPECT_LT(worst[1], worst[0] / 3.0);
}

}  // namespace
}  // namespace dullcast::heat_reference
