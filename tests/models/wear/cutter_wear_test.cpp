#include "models/wear/cutter_wear.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace dullcast::wear {
namespace {

/// One cutter of 16 mm worn by a millimetre, on a flat of 20 mm2 of which 8 bear.
struct OneFlat {
  CutterWearLaw law;
  Eigen::ArrayXd worn = Eigen::ArrayXd::Constant(1, 1e-3), leached = Eigen::ArrayXd::Zero(1),
                 mobilised = Eigen::ArrayXd::Constant(1, 5e-6), whole = Eigen::ArrayXd::Constant(1, 20e-6),
                 area = Eigen::ArrayXd::Constant(1, 8e-6), side = Eigen::ArrayXd::Zero(1),
                 T = Eigen::ArrayXd::Constant(1, 300.0), into = Eigen::ArrayXd::Zero(1),
                 v = Eigen::ArrayXd::Constant(1, 0.5), sigma = Eigen::ArrayXd::Constant(1, 100e6),
                 eps = Eigen::ArrayXd::Constant(1, 60e6), cut = Eigen::ArrayXd::Zero(1),
                 diamond = Eigen::ArrayXd::Constant(1, 6e-6);
  Flags ruined = Flags::Constant(1, false), lost = Flags::Constant(1, false);

  OneFlat() {
    law.abrasion.carbide_ratio = 100.0;
    law.abrasion.acceleration_temperature = 623.15;
    law.abrasion.acceleration_scale = 120.0;
    law.abrasion.leached_acceleration_temperature = 923.15;
    law.abrasion.cutting_share = 1.0;
    law.back_rake = Eigen::ArrayXd::Constant(1, 0.3);
    law.shapes.kinds.resize(1);
    law.shapes.kinds[0].radius = 8e-3;
    law.shapes.kind = Eigen::ArrayXi::Zero(1);
    law.table_conductivity = Eigen::ArrayXd::Constant(1, 500.0);
    law.wear_resistance = Eigen::ArrayXd::Constant(1, 2.0);
  }
  double rate() const {
    Eigen::ArrayXd rates(1);
    worn_height_rates(
        law, {worn, leached, mobilised, whole, area, side, T, into, v, sigma, eps, cut, diamond, 4e-16},
        ruined, lost, rates);
    return rates(0);
  }
};

// By hand: w sigma m v/cos(theta) on half the wear of the reference grade, with a quarter of the flat
// mobilised.
TEST(WornHeightRates, RubbingGoesWithTheMeanMobilisationOfTheFlat) {
  OneFlat flat;
  const double full = 2e-16 * 100e6 * 0.5 / std::cos(0.3);
  EXPECT_NEAR(flat.rate(), 0.25 * full, 1e-12 * full);
  // The wall presses 200 N on 8 mm2 of 100 MPa: a quarter of what the weight leaves.
  flat.side(0) = 200.0;
  EXPECT_NEAR(flat.rate(), (0.25 + 0.25 * 0.75) * full, 1e-12 * full);
  flat.side(0) = 1e6;
  EXPECT_NEAR(flat.rate(), full, 1e-12 * full);
}

// By hand: w kappa eps A v/(A_d cos(theta)), over the whole flat, the land while that is more, and of a
// ruined table all that bears.
TEST(WornHeightRates, CuttingSpreadsOverWhatRecedes) {
  OneFlat flat;
  flat.mobilised(0) = 0.0;
  flat.cut(0) = 3e-6;
  const auto by_cutting = [&](double recedes) {
    return 2e-16 * 60e6 * 3e-6 * 0.5 / (recedes * std::cos(0.3));
  };
  EXPECT_NEAR(flat.rate(), by_cutting(20e-6), 1e-12 * flat.rate());
  flat.diamond(0) = 25e-6;
  EXPECT_NEAR(flat.rate(), by_cutting(25e-6), 1e-12 * flat.rate());
  flat.area(0) = 40e-6;
  EXPECT_NEAR(flat.rate(), by_cutting(25e-6), 1e-12 * flat.rate());
  flat.ruined(0) = true;
  EXPECT_NEAR(flat.rate(), 100.0 * by_cutting(40e-6), 1e-12 * flat.rate());
  flat.area(0) = 10e-6;
  EXPECT_NEAR(flat.rate(), 100.0 * by_cutting(25e-6), 1e-12 * flat.rate());
}

TEST(WornHeightRates, AreNoneOfALostCutterAndPastTheCutter) {
  OneFlat flat;
  flat.worn(0) = 1.91 * 8e-3;
  EXPECT_EQ(flat.rate(), 0.0);
  flat.worn(0) = 1e-3;
  flat.lost(0) = true;
  EXPECT_EQ(flat.rate(), 0.0);
}

}  // namespace
}  // namespace dullcast::wear
