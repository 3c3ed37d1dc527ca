#include "engine/run/thermal_matrix.hpp"

#include <gtest/gtest.h>

#include <Eigen/Dense>
#include <cmath>
#include <vector>

#include "engine/run/drilling_system.hpp"
#include "models/cooling.hpp"
#include "models/heat.hpp"
#include "random_states.hpp"
#include "support/short_scenario.hpp"

namespace dullcast {
namespace {

using testing::RandomStates;

/// Cutters worn less than this have their flats within the diamond: forces then do not depend on
/// temperature, and heat flows are exactly linear in the thermal entries.
constexpr double within_diamond = 3e-4;  // m; the carbide starts at 2 mm tan 15 deg = 0.54 mm

std::vector<Eigen::Index> thermal_entries(const StateLayout& layout) {
  std::vector<Eigen::Index> entries;
  State thermal = State::Zero(layout.size());
  layout.table(thermal) = 1.0;
  layout.carbide(thermal) = 1.0;
  layout.settled(thermal) = 1.0;
  thermal(layout.body()) = thermal(layout.fluid()) = 1.0;
  for (Eigen::Index k = 0; k < layout.size(); ++k)
    if (thermal(k) == 1.0) entries.push_back(k);
  return entries;
}

/// A by central differences of the right-hand side. Tables: of the heat that flows in, over the capacity at
/// x, since A holds capacities. Rows of worn heights and damage are zero: wear is slow and not part of A. So
/// are depth's and spent work's: forces do not depend on temperature here but for the balance's last bits.
Eigen::MatrixXd differences(DrillingSystem& system, const State& x, double kelvins) {
  const StateLayout& layout = system.layout();
  const Eigen::Index n = layout.cutters;
  Eigen::MatrixXd A = Eigen::MatrixXd::Zero(layout.size(), layout.size());
  State up(x), down(x);
  const auto heats = [&](const State& at, State& rate) {
    system(at, rate, 0.0);
    for (Eigen::Index i = 0; i < n; ++i)
      rate(i) *= diamond_heat_capacity(layout.table(at)(i)) / diamond_heat_capacity(layout.table(x)(i));
  };
  for (const Eigen::Index k : thermal_entries(layout)) {
    State low = x, high = x;
    low(k) -= kelvins;
    high(k) += kelvins;
    heats(low, down);
    heats(high, up);
    A.col(k) = (up - down) / (2.0 * kelvins);
  }
  State slow = State::Zero(layout.size());
  layout.worn(slow) = 1.0;
  layout.damage(slow) = 1.0;
  for (Eigen::Index k = 0; k < layout.size(); ++k)
    if (slow(k) == 1.0) A.row(k).setZero();
  A.row(layout.depth()).setZero();
  A.row(layout.spent()).setZero();
  return A;
}

void expect_same_solution(DrillingSystem& system, const State& x, const Eigen::MatrixXd& A,
                          RandomStates& random, double tolerance, const std::vector<Eigen::Index>& rows) {
  State slope(x);
  system(x, slope, 0.0);
  system.linearise();
  const Eigen::Index size = A.rows();
  for (const double shift : {1e-4, 1e-2, 1.0, 1e2, 1e4}) {
    const Eigen::PartialPivLU<Eigen::MatrixXd> dense(shift * Eigen::MatrixXd::Identity(size, size) - A);
    system.thermal_matrix().factorise(shift);
    for (int trial = 0; trial < 3; ++trial) {
      State b(size);
      for (Eigen::Index k = 0; k < size; ++k) b(k) = random.between(-1.0, 1.0);
      const State expected = dense.solve(b);
      State y = b;
      system.thermal_matrix().solve(y);
      for (const Eigen::Index k : rows) {
        EXPECT_NEAR(y(k), expected(k), tolerance * std::max(1.0 / shift, std::abs(expected(k))))
            << "entry " << k << ", shift " << shift;
      }
    }
  }
}

std::vector<Eigen::Index> all_entries(const StateLayout& layout) {
  std::vector<Eigen::Index> rows;
  for (Eigen::Index k = 0; k < layout.size(); ++k) rows.push_back(k);
  return rows;
}

// Heat flows are linear, so differences over 5 K are exact to rounding: 1e4 W over 5 K in 16 digits.
TEST(ThermalMatrix, SolvesLikeADenseSolveWithDifferencesOfTheHeatRates) {
  for (const Scenario& scenario : {testing::short_scenario(), testing::invented_scenario()}) {
    const RunModels models = assemble(scenario);
    DrillingSystem system(models);
    RandomStates random(system.layout(), 1.0, within_diamond);
    for (const std::size_t stretch : {std::size_t{0}, std::size_t{1}}) {
      system.enter(models.stretches[stretch]);
      const State x = random.draw();
      const Eigen::MatrixXd A = differences(system, x, 5.0);
      expect_same_solution(system, x, A, random, 1e-9, all_entries(system.layout()));
    }
  }
}

// In the band below saturation the fluid's rate curves: differences over 1 mK err by about 1e-7 of the curve.
// The energy carried off does not steer a step and its boil-off is left out of A.
TEST(ThermalMatrix, HoldsTheFluidsSlopeWhereItStartsToBoil) {
  Scenario scenario = testing::short_scenario();
  scenario.plan[0].flow = 1e-6;
  const RunModels models = assemble(scenario);
  DrillingSystem system(models);
  system.enter(models.stretches[0]);
  const StateLayout& layout = system.layout();
  RandomStates random(layout, 1.0, within_diamond);
  State x = random.draw(), slope(x);
  const double saturation = saturation_temperature(bottom_hole_pressure(999.0, 0.0, 1.0));
  for (const double below : {1.7, 1.0, 0.4}) {
    x(layout.fluid()) = saturation - below;
    system(x, slope, 0.0);
    ASSERT_GT(slope(layout.carried()), 0.0);
    std::vector<Eigen::Index> rows = all_entries(layout);
    rows.erase(rows.begin() + layout.carried());
    expect_same_solution(system, x, differences(system, x, 1e-3), random, 1e-5, rows);
  }
}

TEST(ThermalMatrix, LeavesEntriesWithoutStiffPartToTheShiftAlone) {
  const RunModels models = assemble(testing::short_scenario());
  DrillingSystem system(models);
  system.enter(models.stretches[0]);
  const StateLayout& layout = system.layout();
  RandomStates random(layout, 1.0, within_diamond);
  const State x = random.draw();
  State slope(x);
  system(x, slope, 0.0);
  system.linearise();
  system.thermal_matrix().factorise(4.0);
  State b = State::Constant(layout.size(), 1.0);
  system.thermal_matrix().solve(b);
  for (Eigen::Index i = 0; i < layout.cutters; ++i) {
    EXPECT_EQ(layout.worn(b)(i), 0.25);
    EXPECT_EQ(layout.damage(b)(i), 0.25);
  }
  EXPECT_EQ(b(layout.depth()), 0.25);
  EXPECT_EQ(b(layout.spent()), 0.25);
}

}  // namespace
}  // namespace dullcast
