#include <gtest/gtest.h>

#include <boost/math/quadrature/gauss_kronrod.hpp>
#include <cmath>

#include "models/common/constants.hpp"
#include "models/geometry/wear_flat.hpp"

// A worn cutter is a cylindrical wedge (a cylinder cut by an oblique plane), whose volume and cut face are in
// any table of solids: Beyer (ed.), CRC Standard Mathematical Tables, "cylindrical wedge"; Archimedes, The
// Method, proposition 12 [hb]. All tolerances are rounding (1e-13) unless said.
namespace dullcast::published {
namespace {

const double a = 8e-3;

double total_volume(const geometry::WearFlat& flat) {
  return flat.diamond_volume + flat.carbide_volume;
}
double total_area(const geometry::WearFlat& flat) {
  return flat.diamond_area + flat.carbide_area;
}

TEST(CylindricalWedge, CutToTheAxisHasTwoThirdsOfRadiusSquaredTimesHeight) {
  for (const double rake : {0.1, 0.2618, 0.35, 0.8, 1.3}) {
    const double height = a / std::tan(rake);
    // Long enough to hold the wedge, and with a bond inside it: diamond and carbide add up to one wedge.
    const geometry::WearFlat flat = geometry::wear_flat(a, 1.5 * height, 0.3 * height, rake, a);
    EXPECT_NEAR(total_volume(flat) / (2.0 / 3.0 * a * a * height), 1.0, 1e-13) << rake;
    EXPECT_GT(flat.diamond_volume, 0.0);
    EXPECT_GT(flat.carbide_volume, 0.0);
  }
}

TEST(CylindricalWedge, CutRightThroughIsHalfTheCylinder) {
  for (const double rake : {0.1, 0.35, 1.3}) {
    const double height = 2.0 * a / std::tan(rake);
    const geometry::WearFlat flat = geometry::wear_flat(a, 1.5 * height, 0.3 * height, rake, 2.0 * a);
    EXPECT_NEAR(total_volume(flat) / (0.5 * pi * a * a * height), 1.0, 1e-13) << rake;
  }
}

TEST(CylindricalWedge, CutFaceIsHalfAnEllipseAndThenAWholeOne) {
  for (const double rake : {0.1, 0.35, 1.3}) {
    const double ellipse = pi * a * a / std::sin(rake), height = 2.0 * a / std::tan(rake);
    EXPECT_NEAR(total_area(geometry::wear_flat(a, 1.5 * height, 0.2 * height, rake, a)) / (0.5 * ellipse),
                1.0, 1e-13);
    EXPECT_NEAR(total_area(geometry::wear_flat(a, 1.5 * height, 0.2 * height, rake, 2.0 * a)) / ellipse, 1.0,
                1e-13);
  }
}

TEST(CylindricalWedge, GeneralHeightFollowsTheHandbookFormula) {
  // V = h/(3 b) [c (3 a^2 - c^2) + 3 a^2 (b - a) psi], the wedge of base height b, half-chord c and base
  // half-angle psi (Beyer; Weisstein, "Cylindrical Wedge") [hb].
  const double rake = 0.2618;
  for (const double share : {0.05, 0.3, 0.9, 1.4, 1.9}) {
    const double b = share * a, c = std::sqrt(b * (2.0 * a - b)), psi = std::acos((a - b) / a);
    const double height = b / std::tan(rake);
    const double expected = height / (3.0 * b) * (c * (3.0 * a * a - c * c) + 3.0 * a * a * (b - a) * psi);
    const geometry::WearFlat flat = geometry::wear_flat(a, 2.0 * height, 0.4 * height, rake, b);
    // The handbook's bracket itself cancels, by a factor of some thousands at b = a/20.
    EXPECT_NEAR(total_volume(flat) / expected, 1.0, 1e-11) << share;
  }
}

TEST(WearFlat, AreaIsTheSlopeOfVolumeAgainstRecession) {
  // Identity dV/dn = A, n = u cos(theta), by a five-point difference: truncation (du/u)^4 of order 1e-12,
  // rounding 1e-15/1e-3; so 1e-10 leaves a margin of ten.
  const double l = 13e-3, t = 2e-3;
  for (const double rake : {0.02, 0.1745, 0.2618, 0.35})
    for (const double u : {0.02e-3, 0.2e-3, 0.45e-3, 1e-3, 2.5e-3, 6e-3}) {
      const double step = 1e-3 * u;
      const auto slope = [&](auto volume) {
        const auto at = [&](double k) { return volume(geometry::wear_flat(a, l, t, rake, u + k * step)); };
        return (8.0 * (at(1.0) - at(-1.0)) - (at(2.0) - at(-2.0))) / (12.0 * step * std::cos(rake));
      };
      const geometry::WearFlat flat = geometry::wear_flat(a, l, t, rake, u);
      EXPECT_NEAR(slope([](const geometry::WearFlat& f) { return f.diamond_volume; }) / flat.diamond_area,
                  1.0, 1e-10)
          << rake << " " << u;
      if (u > 1.1 * t * std::tan(rake)) {
        EXPECT_NEAR(slope([](const geometry::WearFlat& f) { return f.carbide_volume; }) / flat.carbide_area,
                    1.0, 1e-10)
            << rake << " " << u;
      } else {
        EXPECT_EQ(flat.carbide_area, 0.0);
      }
    }
}

TEST(WearFlat, AreaAndVolumeAreTheIntegralsOfChordAndSegment) {
  // The same solid added up slice by slice along the axis, with another quadrature and none of our closed
  // forms: a cut at distance y from the face has height z = u - y tan(theta), chord 2 sqrt(2 a z - z^2) and
  // the segment a^2 acos((a-z)/a) - (a-z) sqrt(2 a z - z^2).
  using Quadrature = boost::math::quadrature::gauss_kronrod<double, 61>;
  const double l = 13e-3, t = 2e-3;
  for (const double rake : {0.02, 0.1745, 0.35})
    for (const double u : {0.2e-3, 1e-3, 3e-3, 9e-3}) {
      const double end = u / std::tan(rake);
      // y = end - w^2 removes the root at the tip of the wedge.
      const auto along = [&](double from, double to, auto slice) {
        if (!(from < end)) return 0.0;
        return Quadrature::integrate(
            [&](double w) { return 2.0 * w * slice(std::min(w * w * std::tan(rake), 2.0 * a)); },
            std::sqrt(end - std::min(to, end)), std::sqrt(end - from), 12, 1e-12);
      };
      const auto chord = [](double z) { return 2.0 * std::sqrt(z * (2.0 * a - z)); };
      const auto segment = [](double z) {
        return a * a * std::acos((a - z) / a) - (a - z) * std::sqrt(z * (2.0 * a - z));
      };
      const geometry::WearFlat flat = geometry::wear_flat(a, l, t, rake, u);
      // 1e-10: the plain segment formula above loses digits near the tip of the wedge.
      EXPECT_NEAR(flat.diamond_area * std::cos(rake) / along(0.0, t, chord), 1.0, 1e-10) << rake << " " << u;
      EXPECT_NEAR(flat.diamond_volume / along(0.0, t, segment), 1.0, 1e-10) << rake << " " << u;
      if (end > t) {
        EXPECT_NEAR(flat.carbide_area * std::cos(rake) / along(t, l, chord), 1.0, 1e-10) << rake << " " << u;
        EXPECT_NEAR(flat.carbide_volume / along(t, l, segment), 1.0, 1e-10) << rake << " " << u;
      }
    }
}

}  // namespace
}  // namespace dullcast::published
