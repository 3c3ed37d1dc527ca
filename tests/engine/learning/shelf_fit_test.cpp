#include "engine/learning/shelf_fit.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "engine/learning/planted_shelf.hpp"

namespace dullcast::learning {
namespace {

using testing::planted_shelf;
using testing::PlantedShelf;

TEST(ShelfFit, FindsWhatWasPlantedAndNarrowsIt) {
  const PlantedShelf shelf = planted_shelf(12, 3);
  const ShelfFit fit = fit_shelf(shelf.bits, {});
  EXPECT_LT(fit.last_gain, 0.05);
  const Eigen::VectorXd y = fit.y();
  for (Eigen::Index k = 0; k < y.size(); ++k) {
    const double deviation = std::sqrt(fit.learnt.covariance(k, k));
    EXPECT_LT(deviation, 1.0) << fit.numbers.names[static_cast<std::size_t>(k)];
    // Three of its own deviations: one in 400 would be out by chance.
    EXPECT_LT(std::abs(y(k) - shelf.truth(k)), 3.0 * deviation)
        << fit.numbers.names[static_cast<std::size_t>(k)] << " " << y(k) << " " << shelf.truth(k);
  }
  // What decides how fast a bit wears in these rocks is their product, which is told best.
  Eigen::VectorXd all_wear = Eigen::VectorXd::Zero(y.size());
  for (Eigen::Index k = 0; k < y.size(); ++k)
    all_wear(k) = fit.responses[0].slopes[static_cast<std::size_t>(k)](0, wear_gain);
  const double left =
      std::sqrt(all_wear.dot(fit.learnt.covariance.topLeftCorner(y.size(), y.size()) * all_wear));
  EXPECT_LT(left, 0.25 * all_wear.norm());
}

TEST(ShelfFit, IsTheSameOnTwoThreads) {
  const PlantedShelf shelf = planted_shelf(3, 5);
  FitOptions two;
  two.threads = 2;
  const ShelfFit a = fit_shelf(shelf.bits, {}), b = fit_shelf(shelf.bits, two);
  EXPECT_EQ(a.learnt.mode, b.learnt.mode);
  EXPECT_EQ(a.learnt.covariance, b.learnt.covariance);
}

TEST(ShelfFit, RefusesAShelfThatSaysNothing) {
  PlantedShelf shelf = planted_shelf(1, 5);
  const std::string name = "B1";
  shelf.bits[0].found = {};
  EXPECT_THROW(fit_shelf(shelf.bits, {}), std::invalid_argument);
  EXPECT_THROW(fit_shelf({}, {}), std::invalid_argument);
}

TEST(ShelfFit, RefusesRunsOfTwoLibraries) {
  PlantedShelf shelf = planted_shelf(2, 5);
  shelf.bits[1].run.numbers.abrasion_coefficient.high *= 1.5;
  try {
    fit_shelf(shelf.bits, {});
    FAIL();
  } catch (const std::invalid_argument& error) {
    EXPECT_NE(std::string(error.what())
                  .find("bits B1 and B2 do not agree on what is known of abrasion_coefficient"),
              std::string::npos);
  }
}

}  // namespace
}  // namespace dullcast::learning
