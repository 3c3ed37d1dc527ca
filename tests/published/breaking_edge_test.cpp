#include <gtest/gtest.h>

#include <algorithm>
#include <boost/math/quadrature/gauss.hpp>
#include <cmath>
#include <cstdio>
#include <random>

#include "models/common/constants.hpp"
#include "models/failure/chipping.hpp"
#include "tools/proofs/handbook_setting.hpp"

// What the chip model takes from elsewhere, against its exact source: the pressure under a punch, the count
// of spheres met by a probe, the stress of a quenched plate.
namespace dullcast::published {
namespace {

TEST(RigidPunch, LoadWithinAnEdgeRadiusOfItsEndFollowsThePressure) {
  // p = P'/(pi sqrt(s (d - s))) [hb: Sadowsky 1928; Johnson, Contact Mechanics, 1985, eq. 2.64, number from
  // memory], integrated from the end with s = t^2, against the smooth form: its stated departures.
  for (const double ratio : {1.5, 3.0, 15.0, 30.0, 100.0}) {
    const double edge = 30e-6, depth = ratio * edge;
    const double exact = boost::math::quadrature::gauss<double, 30>::integrate(
        [&](double t) { return 2.0 / (pi * std::sqrt(depth - t * t)); }, 0.0, std::sqrt(edge));
    const double form = failure::edge_load_share(depth, edge);
    EXPECT_LT(form, exact) << ratio;
    EXPECT_GT(form, exact - 0.47) << ratio;
    if (ratio >= 15.0) {
      EXPECT_NEAR(form / exact, 1.0, 0.025) << ratio;
    }
  }
  EXPECT_EQ(failure::edge_load_share(0.0, 30e-6), 1.0);
}

TEST(StonesMet, AThinLineMeetsShareOverTheMeanChord) {
  // Mean chord of a sphere 2 D/3, N_L = V_V/chord [hb: Underwood, Quantitative Stereology, 1970].
  const failure::Inclusions stones{0.3, 20e-3, 150e6};
  EXPECT_NEAR(failure::inclusions_met_per_metre(stones, 0.0, 0.0), 0.3 / (2.0 / 3.0 * 20e-3), 1e-12);
  // A wide thin blade meets N_A = N_V D a square metre [hb, as above].
  const double per_volume = 0.3 / (pi / 6.0 * std::pow(20e-3, 3));
  const double wide = failure::inclusions_met_per_metre(stones, 1000.0, 0.0) / 1000.0;
  EXPECT_NEAR(wide / (per_volume * 20e-3), 1.0, 1e-4);  // the ends of the blade: D pi/4 in 1,000 m
}

TEST(StonesMet, CountsSpheresThrownAtRandom) {
  // A million centres in a strip of unit length around a 10 x 2 mm swept section, N_V from the share; the
  // count within D/2 of the section is Poisson, tolerance four standard errors.
  const double size = 25e-3, width = 10e-3, depth = 2e-3, side = 60e-3;
  std::mt19937_64 engine(20240501);
  std::uniform_real_distribution<double> place(-0.5 * side, 0.5 * side);
  const int thrown = 1000000;
  int met = 0;
  for (int i = 0; i < thrown; ++i) {
    const double x = std::max(0.0, std::fabs(place(engine)) - 0.5 * width);
    const double y = std::max(0.0, std::fabs(place(engine)) - 0.5 * depth);
    if (x * x + y * y < 0.25 * size * size) ++met;
  }
  const double share = 0.5, per_volume = share / (pi / 6.0 * size * size * size);
  const double strip = met / static_cast<double>(thrown) * side * side;  // m2 of centres that touch
  EXPECT_NEAR(failure::inclusions_met_per_metre({share, size, 150e6}, width, depth) / (per_volume * strip),
              1.0, 4.0 / std::sqrt(met));
}

using proofs::exact_plate_stress;

TEST(QuenchedPlate, MansonsFormulaFollowsTheExactSeries) {
  // Manson, Thermal Stress and Low-Cycle Fatigue, 1966 [hb, formula from memory], against the exact plate
  // over the range it was fitted for.
  for (const double biot : {0.1, 0.3, 1.0, 3.0, 10.0, 20.0}) {
    const double ratio = failure::manson_stress_share(biot) / exact_plate_stress(biot);
    std::printf("quenched plate, Biot %5.2f: Manson's formula is %+.1f %% off the exact stress\n", biot,
                100.0 * (ratio - 1.0));
    EXPECT_NEAR(ratio, 1.0, 0.05) << biot;  // the worst measured is 4.8 %, at Biot 0.1
  }
}

TEST(QuenchedPlate, HasMansonsLimits) {
  EXPECT_NEAR(failure::manson_stress_share(1e12), 1.0, 1e-10);  // 1/(1.5 - 0.5): full constraint
  EXPECT_NEAR(failure::manson_stress_share(1e-6) / (1e-6 / 3.25), 1.0, 1e-6);
  EXPECT_EQ(failure::manson_stress_share(0.0), 0.0);
}

}  // namespace
}  // namespace dullcast::published
