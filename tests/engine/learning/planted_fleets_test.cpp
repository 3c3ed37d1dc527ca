#include <gtest/gtest.h>

#include <Eigen/LU>
#include <cmath>
#include <cstdio>
#include <cstdlib>

#include "engine/learning/learned_numbers.hpp"
#include "engine/learning/planted_shelf.hpp"
#include "engine/learning/posterior_sampler.hpp"

/// Whole fleets of synthetic bits with planted truths, drawn by the prior's own law, so that 90 % intervals
/// ought to hold the truth nine times in ten. DULLCAST_PLANTED_FLEETS says how many; the long tier takes 200.
namespace dullcast::learning {
namespace {

int asked(const char* name, int usual) {
  const char* text = std::getenv(name);
  return text != nullptr ? std::atoi(text) : usual;
}

struct Seen {
  int intervals = 0, held = 0;
  double squares = 0.0;  // of (fitted - truth), in deviations before
  double error() const { return std::sqrt(squares / intervals); }
};

Seen fleets_of(int bits, int fleets) {
  Seen seen;
  for (int fleet = 0; fleet < fleets; ++fleet) {
    const testing::PlantedShelf shelf =
        testing::planted_shelf(bits, 1000 + static_cast<std::uint64_t>(fleet));
    FitOptions options;
    options.threads = 2;
    const ShelfFit fit = fit_shelf(shelf.bits, options);
    for (Eigen::Index k = 0; k < fit.numbers.count(); ++k) {
      const double miss = fit.learnt.mode(k) - shelf.truth(k);
      ++seen.intervals;
      seen.held += std::abs(miss) <= 1.6449 * std::sqrt(fit.learnt.covariance(k, k));
      seen.squares += miss * miss;
    }
  }
  return seen;
}

TEST(PlantedFleets, IntervalsHoldTheTruthAndErrorFallsAsRecordsGrow) {
  const int fleets = asked("DULLCAST_PLANTED_FLEETS", 4);
  const Seen few = fleets_of(3, fleets), many = fleets_of(12, fleets);
  for (const Seen* seen : {&few, &many})
    std::printf(
        "%d fleets of %d bits: %d of %d 90 %% intervals hold the truth (%.1f %%), error %.3f of the spread "
        "before\n",
        fleets, seen == &few ? 3 : 12, seen->held, seen->intervals, 100.0 * seen->held / seen->intervals,
        seen->error());
  EXPECT_LT(many.error(), few.error());
  // With many fleets 85 to 95 %; with few the binomial law of the intervals (5 a fleet, taken as independent)
  // at three deviations.
  const double margin = std::max(0.05, 3.0 * std::sqrt(0.09 / many.intervals));
  EXPECT_NEAR(static_cast<double>(many.held) / many.intervals, 0.9, margin);
}

/// The normal law that the fit ends with, against draws of the posterior itself: with predictions straight in
/// the numbers, and (DULLCAST_SAMPLED_FLEETS) with the engine drilling every bit anew at every draw.
TEST(PlantedFleets, TheSamplerAgreesWithTheNormalLaw) {
  const int with_engine = asked("DULLCAST_SAMPLED_FLEETS", 0);
  const int fleets = std::max(1, with_engine);
  for (int fleet = 0; fleet < fleets; ++fleet) {
    const testing::PlantedShelf shelf = testing::planted_shelf(6, 2000 + static_cast<std::uint64_t>(fleet));
    const ShelfFit fit = fit_shelf(shelf.bits, {});
    const ShelfPosterior posterior(shelf.bits, fit.responses, fit.numbers, fit.law);
    const auto straight = [&](const Eigen::VectorXd& parameters) {
      Eigen::VectorXd gradient;
      return posterior.log_density(parameters, gradient);
    };
    const auto drilled = [&](const Eigen::VectorXd& parameters) {
      double density = -0.5 * parameters.squaredNorm();
      const ReadingLaw law = posterior.law_at(parameters);
      for (const scenario::ShelvedBit& bit : shelf.bits)
        density +=
            read_against(
                bit.found,
                predict(with_coordinates(bit.run, fit.numbers, parameters.head(fit.numbers.count()))), law)
                .log_likelihood;
      return density;
    };
    SamplerOptions options;
    options.threads = 2;
    options.steps = with_engine > 0 ? 3000 : 1500;
    const Sampled drawn = with_engine > 0 ? sample(drilled, fit.learnt.mode, fit.learnt.covariance, options)
                                          : sample(straight, fit.learnt.mode, fit.learnt.covariance, options);
    const Eigen::VectorXd mean = drawn.mean(), deviation = drawn.deviation();
    for (Eigen::Index k = 0; k < mean.size(); ++k) {
      const double normal = std::sqrt(fit.learnt.covariance(k, k));
      if (with_engine > 0)
        std::printf("fleet %d, parameter %d: mean %.3f (mode %.3f), deviation %.3f (%.3f), R-hat %.3f\n",
                    fleet + 1, static_cast<int>(k) + 1, mean(k), fit.learnt.mode(k), deviation(k), normal,
                    drawn.worst_mixing);
      // Six bits hardly tell the spread from bit to bit, whose density is askew by more than half a
      // deviation.
      if (k == fit.numbers.count()) continue;
      // Some hundred independent draws' worth: a tenth of a deviation; the density is a little askew.
      EXPECT_NEAR(mean(k), fit.learnt.mode(k), 0.5 * normal) << k;
      EXPECT_NEAR(deviation(k) / normal, 1.0, 0.3) << k;
    }
  }
}

/// Heights read without misreading of bits whose wear is a product of powers: after a logarithm a linear
/// reading of normal variables, of which mean and covariance have a closed form [hb]: C = (1 + G^T W G)^-1.
TEST(PlantedFleets, ALinearNormalShelfHasItsClosedForm) {
  ShelfNumbers numbers;
  numbers.names = {"a", "b"};
  numbers.before.resize(2);
  numbers.bit_spread = 0.02;
  const Eigen::MatrixXd slopes = (Eigen::MatrixXd(3, 2) << 0.02, 0.01, 0.015, -0.02, 0.03, 0.0).finished();
  const Eigen::Vector3d misses(0.015, -0.02, 0.03);
  std::vector<scenario::ShelvedBit> shelf(3);
  std::vector<BitResponse> responses(3);
  ReadingLaw law;
  law.misread = law.cutter_scatter = 0.0;
  law.bit_spread = 0.02;
  constexpr double height = 1e-3, error = 0.01;
  for (std::size_t r = 0; r < 3; ++r) {
    const auto row = static_cast<Eigen::Index>(r);
    shelf[r].found.cutters.resize(1);
    shelf[r].found.breakage_noted = false;
    shelf[r].found.cutters[0].worn_height = height * (1.0 + misses(row));
    shelf[r].found.measurement_error = error * height;
    PredictedBit& at = responses[r].at;
    at.logs = Eigen::ArrayXXd::Constant(1, trace_count, log_of_nothing);
    at.logs(0, wear_gain) = std::log(height);
    at.starting_wear = Eigen::ArrayXd::Zero(1);
    at.usable_height = Eigen::ArrayXd::Constant(1, 4e-3);
    at.radius = Eigen::ArrayXd::Constant(1, 0.05);
    at.bit_radius = 0.06;
    at.strength_spread = 0.1;
    responses[r].y = Eigen::Vector2d::Zero();
    for (Eigen::Index k = 0; k < 2; ++k) {
      Eigen::ArrayXXd slope = Eigen::ArrayXXd::Zero(1, trace_count);
      slope(0, wear_gain) = slopes(row, k);
      responses[r].slopes.push_back(slope);
    }
  }
  const ShelfPosterior posterior(shelf, responses, numbers, law);
  const Laplace found = laplace(posterior, Eigen::Vector3d::Zero(), 1);
  // The closed form at the spread that was learnt with them.
  const double spread = posterior.law_at(found.mode).bit_spread, variance = spread * spread + error * error;
  const Eigen::MatrixXd covariance =
      (Eigen::Matrix2d::Identity() + slopes.transpose() * slopes / variance).inverse();
  const Eigen::VectorXd mean = covariance * slopes.transpose() * misses / variance;
  const Eigen::MatrixXd at_that_spread = curvature_of(posterior, found.mode, 1).topLeftCorner(2, 2).inverse();
  for (Eigen::Index i = 0; i < 2; ++i) {
    // e^x is 1 + x here to (0.03)^2/2 of 0.02: a fortieth of a deviation.
    EXPECT_NEAR(found.mode(i), mean(i), 0.03) << i;
    for (Eigen::Index j = 0; j < 2; ++j) EXPECT_NEAR(at_that_spread(i, j), covariance(i, j), 0.03) << i << j;
  }
  EXPECT_GT(std::abs(mean(0)), 0.3) << "or the prior alone would pass";
}

}  // namespace
}  // namespace dullcast::learning
