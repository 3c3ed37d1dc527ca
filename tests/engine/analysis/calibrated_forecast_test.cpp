#include <gtest/gtest.h>

#include <Eigen/Dense>
#include <map>

#include "engine/analysis/calibrate.hpp"
#include "engine/analysis/uncertain_scenario.hpp"
#include "engine/simulation/run.hpp"
#include "engine/simulation/same_outcome.hpp"

namespace dullcast::analysis {
namespace {

using testing::between;
using testing::life;
using testing::quantity_of;
using testing::uncertain_scenario;

const Forecast& uncalibrated() {
  static const Forecast result = forecast(uncertain_scenario(), {});
  return result;
}

Forecast with(const InspectionEvidence& evidence) {
  ForecastOptions options;
  options.evidence = evidence;
  return forecast(uncertain_scenario(), options);
}

/// Evidence that answers to the scenario's own numbers at other strengths, and to one it does not have.
InspectionEvidence made_up_evidence(double noise) {
  InspectionEvidence evidence;
  double weight = 0.9;
  for (const NumberEffect& effect : uncalibrated().effects) {
    evidence.effects.push_back({effect.name, weight * effect.slope + 0.05, 0.0});
    weight -= 0.35;
  }
  evidence.effects.push_back({"rock slate: cerchar_abrasivity", 0.3, 0.0});
  evidence.noise = noise;
  return evidence;
}

/// What is left after one linear reading g^T x + noise of standard normal x, from the other side: the
/// information (inverse covariance) of independent numbers grows by g g^T / noise^2. Inverted as a matrix.
TEST(CalibratedForecast, TheBandIsThatOfTheInverseInformationMatrix) {
  for (const double noise : {0.05, 0.3, 2.0}) {
    const InspectionEvidence evidence = made_up_evidence(noise);
    const auto n = static_cast<Eigen::Index>(evidence.effects.size());
    Eigen::VectorXd g(n), s = Eigen::VectorXd::Zero(n);
    for (Eigen::Index k = 0; k < n; ++k) g(k) = evidence.effects[static_cast<std::size_t>(k)].slope;
    for (Eigen::Index k = 0; k + 1 < n; ++k) s(k) = uncalibrated().effects[static_cast<std::size_t>(k)].slope;
    const Eigen::MatrixXd covariance =
        (Eigen::MatrixXd::Identity(n, n) + g * g.transpose() / (noise * noise)).inverse();
    const Forecast result = with(evidence);
    const double half_band = std::sqrt(s.dot(covariance * s));
    EXPECT_NEAR(result.half_band, half_band, 1e-12);

    const Eigen::VectorXd steps = covariance * s / half_band;
    // What the reading does not tell of s.x is s.x - a (g.x + noise): independent parts, whose squares make
    // the very variance that the matrix gives. The last number is the inspected bit's alone.
    const double a = g.dot(s) / (g.squaredNorm() + noise * noise);
    const Eigen::VectorXd otherwise = s - a * g;
    const double inspection = a * a * noise * noise + otherwise(n - 1) * otherwise(n - 1);
    EXPECT_NEAR(result.inspection_share, inspection / (half_band * half_band), 1e-10);
    double sum = result.inspection_share;
    for (const NumberEffect& effect : result.effects) {
      Eigen::Index k = 0;
      while (evidence.effects[static_cast<std::size_t>(k)].name != effect.name) ++k;
      const scenario::Quantity q =
          between(quantity_of(uncertain_scenario(), effect.name, &scenario::Quantity::low),
                  quantity_of(uncertain_scenario(), effect.name, &scenario::Quantity::central),
                  quantity_of(uncertain_scenario(), effect.name, &scenario::Quantity::high));
      EXPECT_NEAR(quantity_of(result.severe_scenario, effect.name, &scenario::Quantity::central) /
                      number_at(q, steps(k)),
                  1.0, 1e-12)
          << effect.name;
      EXPECT_LE(std::abs(steps(k)), 1.0) << effect.name;
      sum += effect.share;
      EXPECT_NEAR(effect.share, otherwise(k) * otherwise(k) / (half_band * half_band), 1e-10) << effect.name;
    }
    EXPECT_NEAR(sum, 1.0, 1e-12);
  }
}

/// A reading of exactly this forecast's wear leaves h^2 n^2/(h^2 + n^2) of the variance h^2.
TEST(CalibratedForecast, TheSameFieldReadAgainLeavesItsNoise) {
  const double h = uncalibrated().half_band;
  for (const double noise : {0.0, 0.1, 1.0, 1e6}) {
    InspectionEvidence evidence;
    evidence.effects = uncalibrated().effects;
    evidence.noise = noise;
    const Forecast again = with(evidence);
    EXPECT_NEAR(again.half_band, h * noise / std::hypot(h, noise), 1e-7) << noise;
    // A sharp reading leaves itself as the cause, a blunt one the numbers: h^2/(h^2 + n^2) is the reading's.
    if (noise > 0.0) {
      EXPECT_NEAR(again.inspection_share, h * h / (h * h + noise * noise), 1e-9) << noise;
    }
  }
}

TEST(CalibratedForecast, OtherNumbersTeachNothing) {
  InspectionEvidence evidence;
  evidence.effects = {{"rock slate: cerchar_abrasivity", 0.7, 0.0}};
  evidence.noise = 0.1;
  EXPECT_NEAR(with(evidence).half_band, uncalibrated().half_band, 1e-15);
  EXPECT_EQ(with(evidence).inspection_share, 0.0);
}

TEST(CalibratedForecast, TheFactorMovesTheCoefficientAndItsSpread) {
  InspectionEvidence evidence;
  evidence.coefficient_factor = 2.5;
  evidence.noise = 0.2;
  const Forecast result = with(evidence);
  EXPECT_TRUE(result.calibrated);
  EXPECT_EQ(result.coefficient_factor, 2.5);
  const scenario::Quantity& moved = result.central_scenario.numbers.abrasion_coefficient;
  const scenario::Quantity given = uncertain_scenario().numbers.abrasion_coefficient;
  EXPECT_DOUBLE_EQ(moved.low, 2.5 * given.low);
  EXPECT_DOUBLE_EQ(moved.central, 2.5 * given.central);
  EXPECT_DOUBLE_EQ(moved.high, 2.5 * given.high);
  EXPECT_LT(life(result.central), 0.6 * life(uncalibrated().central));
  EXPECT_FALSE(result.cutting_wear_share.has_value());
  // A share of cutting that the inspection told takes the library's place, with its spread.
  evidence.cutting_wear_share = scenario::Quantity{1.5, 2.0, 2.5, "fit", ""};
  const Forecast told = with(evidence);
  EXPECT_EQ(told.cutting_wear_share, 2.0);
  EXPECT_EQ(told.central_scenario.numbers.cutting_wear_share.high, 2.5);
}

scenario::Scenario inspected_run(scenario::Scenario s) {
  s.repeat.holes = 6;
  s.repeat.stop_at = scenario::StopAt::last_hole;
  return s;
}

InspectionEvidence evidence_of(const scenario::Scenario& inspected, double factor) {
  scenario::Scenario truth = inspected;
  truth.numbers.abrasion_coefficient.central *= factor;
  scenario::Inspection inspection;
  inspection.worn_height = simulation::run(truth).end.worn_height;
  inspection.measurement_error = 1e-5;
  return learn_from_inspection(inspected, inspection, {});
}

/// The whole way: a bit that wears 2.5 times as fast, inspected after six holes, then its life forecast.
TEST(CalibratedForecast, ForecastsTheLifeOfTheBitThatWasInspected) {
  scenario::Scenario truth = uncertain_scenario();
  truth.numbers.abrasion_coefficient.central *= 2.5;
  const double lasted = life(simulation::run(truth));
  const Forecast result = with(evidence_of(inspected_run(uncertain_scenario()), 2.5));
  EXPECT_NEAR(life(result.central), lasted, 3e-3 * lasted);
  EXPECT_LT(life(result.severe), lasted);
  EXPECT_GT(life(result.mild), lasted);
  EXPECT_LT(result.half_band, 0.5 * uncalibrated().half_band);
  EXPECT_LT(std::log(life(result.mild) / life(result.severe)),
            0.6 * std::log(life(uncalibrated().mild) / life(uncalibrated().severe)));
  testing::expect_same_bits(simulation::run(result.severe_scenario), result.severe);
  testing::expect_same_bits(simulation::run(result.mild_scenario), result.mild);
}

TEST(CalibratedForecast, AFieldOfOtherRocksTeachesLess) {
  scenario::Scenario elsewhere = inspected_run(uncertain_scenario());
  for (scenario::Layer& layer : elsewhere.column.layers) layer.rock.name += " of the other field";
  const double same = with(evidence_of(inspected_run(uncertain_scenario()), 1.0)).half_band;
  const double other = with(evidence_of(elsewhere, 1.0)).half_band;
  EXPECT_LT(same, other);
  EXPECT_LT(other, 0.95 * uncalibrated().half_band);
}

TEST(CalibratedForecast, WithoutABandOnlyTheFactorIsSought) {
  ForecastOptions options;
  options.band = false;
  const scenario::Scenario inspected = inspected_run(uncertain_scenario());
  scenario::Inspection inspection;
  inspection.worn_height = simulation::run(inspected).end.worn_height;
  inspection.measurement_error = 1e-5;
  const InspectionEvidence evidence = learn_from_inspection(inspected, inspection, options);
  EXPECT_NEAR(evidence.coefficient_factor, 1.0, 1e-3);
  EXPECT_TRUE(evidence.effects.empty());
}

}  // namespace
}  // namespace dullcast::analysis
