// The thermal matrix under flats so hot that rock softens there.

#include <gtest/gtest.h>

#include <Eigen/Dense>
#include <cmath>

#include "engine/simulation/bench.hpp"
#include "engine/simulation/drilling_system.hpp"
#include "models/thermal/heat.hpp"
#include "support/short_scenario.hpp"

namespace dullcast::simulation {
namespace {

/// A as the matrix holds it: its solutions for unit vectors, inverted.
Eigen::MatrixXd softened_matrix(DrillingSystem& system, const State& x) {
  const Eigen::Index size = x.size();
  State slope(x);
  system(x, slope, 0.0);
  system.linearise();
  system.thermal_matrix().factorise(1.0);
  Eigen::MatrixXd solutions(size, size);
  for (Eigen::Index k = 0; k < size; ++k) {
    State unit = State::Unit(size, k);
    system.thermal_matrix().solve(unit);
    solutions.col(k) = unit;
  }
  return Eigen::MatrixXd::Identity(size, size) - solutions.inverse();
}

/// A column of A by central differences of the heat that flows in, over the capacity at x.
State rates_by(DrillingSystem& system, const State& x, Eigen::Index k) {
  constexpr double kelvins = 0.1;
  State low = x, high = x, down(x), up(x);
  low(k) -= kelvins;
  high(k) += kelvins;
  system(low, down, 0.0);
  system(high, up, 0.0);
  for (Eigen::Index i = 0; i < system.layout().cutters; ++i) {
    const double capacity = thermal::diamond_heat_capacity(x(i));
    down(i) *= thermal::diamond_heat_capacity(low(i)) / capacity;
    up(i) *= thermal::diamond_heat_capacity(high(i)) / capacity;
  }
  return (up - down) / (2.0 * kelvins);
}

// What friction makes falls as table and rock warm, and that is what damps the table by the contact most.
// Made heat is straight in temperatures; the film is not, so that differences are over a tenth of a kelvin.
TEST(SofteningSlopes, AreInTheThermalMatrix) {
  const RunModels models = assemble(testing::short_scenario());
  DrillingSystem system(models);
  system.enter(models.intervals[0]);
  const StateLayout& layout = system.layout();
  State x = testing::resting_state(layout, 320.0, 1.0);
  layout.worn(x) = 3e-4;  // within the diamond, where forces do not depend on temperature
  for (Eigen::Index i = 0; i < layout.cutters; ++i) x(i) = 1210.0 + 5.0 * static_cast<double>(i);
  const Eigen::MatrixXd A = softened_matrix(system, x);
  const Eigen::ArrayXd unmade = system.evaluation().heats.unmade;
  const Eigen::Index warm = layout.warm();
  const State by_warm = rates_by(system, x, warm);
  int softened = 0;
  for (Eigen::Index i = 0; i < layout.cutters; ++i) {
    if (!(unmade(i) > 0.0)) continue;
    ++softened;
    const State by_table = rates_by(system, x, i);
    EXPECT_NEAR(A(i, i) / by_table(i), 1.0, 1e-3) << i;
    EXPECT_NEAR(A(warm, i) / by_table(warm), 1.0, 1e-3) << i;
    EXPECT_NEAR(A(i, warm), by_warm(i), 1e-3 * std::abs(A(i, i))) << i;
  }
  EXPECT_GT(softened, 0);
}

}  // namespace
}  // namespace dullcast::simulation
