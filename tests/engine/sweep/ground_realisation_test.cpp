#include "engine/sweep/ground_realisation.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "tools/samples/invented_scenario.hpp"

namespace dullcast::sweep {
namespace {

using samples::invented_rock;

/// Layers between the depths given, shale and sandstone by turns.
scenario::Column layered(const std::vector<double>& depths) {
  scenario::Column column;
  for (std::size_t k = 0; k + 1 < depths.size(); ++k) {
    const scenario::RockRecord rock = k % 2 == 0 ? samples::invented_rock("shale", 30e6, 0.6)
                                                 : samples::invented_rock("sandstone", 50e6, 2.5);
    column.layers.push_back({depths[k], depths[k + 1], rock, 1e5 * static_cast<double>(k), {}});
  }
  return column;
}

/// ln of the factors over many draws: a row a draw, a column a layer.
struct Logarithms {
  Eigen::ArrayXXd strength, abrasivity;
};

Logarithms logarithms(const scenario::Column& column, const LayerSpread& spread, long draws) {
  const auto layers = static_cast<Eigen::Index>(column.layers.size());
  Logarithms ln{Eigen::ArrayXXd(draws, layers), Eigen::ArrayXXd(draws, layers)};
  for (long j = 0; j < draws; ++j) {
    const LayerFactors factors = layer_factors(column, spread, 42, static_cast<std::uint64_t>(j));
    ln.strength.row(j) = factors.strength.log().transpose();
    ln.abrasivity.row(j) = factors.abrasivity.log().transpose();
  }
  return ln;
}

/// Correlation about the known means, 0, with the known deviations.
double together(const Eigen::ArrayXd& x, const Eigen::ArrayXd& y, double x_spread, double y_spread) {
  return (x * y).mean() / (x_spread * y_spread);
}

constexpr long many = 20000;

/// Standard error of such a correlation over n draws of two normal variables: sqrt((1 + r^2)/n).
double error_of(double r) {
  return std::sqrt((1.0 + r * r) / static_cast<double>(many));
}

const std::vector<double> uneven{0.0, 12.0, 15.0, 40.0, 41.0, 90.0};

TEST(GroundRealisation, LogarithmsHaveTheirSpreadAndMedianOneInEveryLayer) {
  // Normal with mean 0 and the spread asked for. Over 20,000 draws, within four standard errors: of a mean,
  // s/sqrt(n); of a variance, s^2 sqrt(2/n); of the share below the median, 0.5/sqrt(n); of the share below
  // one deviation, 0.841345 [hb: normal tables].
  const LayerSpread spread{0.3, 0.5, 0.6, 20.0, ""};
  const Logarithms ln = logarithms(layered(uneven), spread, many);
  const double root = std::sqrt(static_cast<double>(many));
  for (Eigen::Index layer = 0; layer < 5; ++layer) {
    for (const bool strength : {true, false}) {
      const double s = strength ? 0.3 : 0.5;
      const Eigen::ArrayXd x = strength ? ln.strength.col(layer) : ln.abrasivity.col(layer);
      EXPECT_NEAR(x.mean(), 0.0, 4.0 * s / root) << layer;
      EXPECT_NEAR(x.square().mean() / (s * s), 1.0, 4.0 * std::sqrt(2.0) / root) << layer;
      EXPECT_NEAR((x < 0.0).cast<double>().mean(), 0.5, 4.0 * 0.5 / root) << layer;
      EXPECT_NEAR((x < s).cast<double>().mean(), 0.841345, 4.0 * std::sqrt(0.8413 * 0.1587) / root) << layer;
    }
  }
}

TEST(GroundRealisation, CorrelationOverDepthIsAnExponentialOfTheDistance) {
  // Between any two layers, not only neighbours: exp(-distance between middles/correlation depth), for
  // strength and for abrasivity alike, and `together` times that between the strength of one layer and the
  // abrasivity of another (Vanmarcke 1983 [hb]).
  const LayerSpread spread{0.3, 0.5, -0.4, 20.0, ""};
  const scenario::Column column = layered(uneven);
  const Logarithms ln = logarithms(column, spread, many);
  for (Eigen::Index a = 0; a < 5; ++a) {
    for (Eigen::Index b = 0; b < 5; ++b) {
      const auto middle = [&](Eigen::Index k) {
        return 0.5 * (uneven[static_cast<std::size_t>(k)] + uneven[static_cast<std::size_t>(k) + 1]);
      };
      const double rho = std::exp(-std::abs(middle(a) - middle(b)) / 20.0);
      EXPECT_NEAR(together(ln.strength.col(a), ln.strength.col(b), 0.3, 0.3), rho, 4.0 * error_of(rho));
      EXPECT_NEAR(together(ln.abrasivity.col(a), ln.abrasivity.col(b), 0.5, 0.5), rho, 4.0 * error_of(rho));
      EXPECT_NEAR(together(ln.strength.col(a), ln.abrasivity.col(b), 0.3, 0.5), -0.4 * rho,
                  4.0 * error_of(0.4 * rho));
    }
  }
}

TEST(GroundRealisation, WithoutACorrelationDepthLayersAreIndependent) {
  const LayerSpread spread{0.2, 0.4, 0.0, 0.0, ""};
  const Logarithms ln = logarithms(layered(uneven), spread, many);
  for (Eigen::Index a = 0; a < 5; ++a) {
    for (Eigen::Index b = 0; b < 5; ++b) {
      if (a != b) {
        EXPECT_NEAR(together(ln.strength.col(a), ln.strength.col(b), 0.2, 0.2), 0.0, 4.0 * error_of(0.0));
        EXPECT_NEAR(together(ln.abrasivity.col(a), ln.abrasivity.col(b), 0.4, 0.4), 0.0, 4.0 * error_of(0.0));
      }
      EXPECT_NEAR(together(ln.strength.col(a), ln.abrasivity.col(b), 0.2, 0.4), 0.0, 4.0 * error_of(0.0));
    }
  }
}

TEST(GroundRealisation, WhollyTogetherIsOneProcess) {
  for (const double sign : {1.0, -1.0}) {
    const Logarithms ln = logarithms(layered(uneven), {0.3, 0.6, sign, 15.0, ""}, 50);
    EXPECT_LT((ln.abrasivity - 2.0 * sign * ln.strength).abs().maxCoeff(), 1e-14);
  }
}

TEST(GroundRealisation, AVeryLongCorrelationMovesTheWholeColumnAsOne) {
  const Logarithms ln = logarithms(layered(uneven), {0.3, 0.3, 0.0, 1e9, ""}, 100);
  // The outer middles lie 59.5 m apart, so their logarithms differ by 0.3 sqrt(2 59.5e-9) as a rule; five
  // times that.
  EXPECT_LT((ln.strength.rowwise().maxCoeff() - ln.strength.rowwise().minCoeff()).maxCoeff(),
            5.0 * 0.3 * std::sqrt(2.0 * 59.5e-9));
}

TEST(GroundRealisation, DrawsAreIndependentOfEachOther) {
  // Neighbouring draws: correlation of draw j with j + 1 within four standard errors.
  const Logarithms ln = logarithms(layered({0.0, 10.0}), {0.3, 0.3, 0.0, 10.0, ""}, many + 1);
  const Eigen::ArrayXd x = ln.strength.col(0);
  EXPECT_NEAR(together(x.head(many), x.tail(many), 0.3, 0.3), 0.0, 4.0 * error_of(0.0));
}

TEST(GroundRealisation, FactorsAreThoseOfTheirSeedAndDrawAlone) {
  const scenario::Column column = layered(uneven);
  const LayerSpread spread{0.3, 0.5, 0.4, 20.0, ""};
  const LayerFactors one = layer_factors(column, spread, 9, 3), again = layer_factors(column, spread, 9, 3);
  EXPECT_TRUE((one.strength == again.strength).all() && (one.abrasivity == again.abrasivity).all());
  EXPECT_TRUE((one.strength != layer_factors(column, spread, 9, 4).strength).all());
  EXPECT_TRUE((one.strength != layer_factors(column, spread, 10, 3).strength).all());
  // What is asked of abrasivity changes nothing of strength, and layers below nothing of those above.
  EXPECT_TRUE((one.strength == layer_factors(column, {0.3, 0.0, -1.0, 20.0, ""}, 9, 3).strength).all());
  scenario::Column upper = column;
  upper.layers.resize(3);
  EXPECT_TRUE((one.strength.head(3) == layer_factors(upper, spread, 9, 3).strength).all());
  // Without spread every factor is 1.
  const LayerFactors none = layer_factors(column, {0.0, 0.0, 0.4, 20.0, ""}, 9, 3);
  EXPECT_TRUE((none.strength == 1.0).all() && (none.abrasivity == 1.0).all());
}

TEST(GroundRealisation, FactorsMultiplyLowCentralAndHighOfTwoNumbersOnly) {
  scenario::Column column = layered({0.0, 10.0, 30.0});
  column.layers[0].rock.unconfined_strength = {20e6, 30e6, 45e6, "hb", "invented"};
  const scenario::Column before = column;
  apply_factors(column, {Eigen::Array2d(1.5, 0.5), Eigen::Array2d(2.0, 3.0)});
  const scenario::Quantity& strength = column.layers[0].rock.unconfined_strength;
  EXPECT_DOUBLE_EQ(strength.low, 30e6);
  EXPECT_DOUBLE_EQ(strength.central, 45e6);
  EXPECT_DOUBLE_EQ(strength.high, 67.5e6);
  EXPECT_EQ(strength.mark, "hb");
  EXPECT_DOUBLE_EQ(column.layers[1].rock.unconfined_strength.central, 25e6);
  EXPECT_DOUBLE_EQ(column.layers[1].rock.cerchar_abrasivity.central, 7.5);
  for (std::size_t k = 0; k < 2; ++k) {
    EXPECT_EQ(column.layers[k].rock.friction_angle.central, before.layers[k].rock.friction_angle.central);
    EXPECT_EQ(column.layers[k].rock.density.central, before.layers[k].rock.density.central);
    EXPECT_EQ(column.layers[k].top, before.layers[k].top);
  }
}

}  // namespace
}  // namespace dullcast::sweep
