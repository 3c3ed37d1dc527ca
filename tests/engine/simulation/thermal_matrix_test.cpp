#include "engine/simulation/thermal_matrix.hpp"

#include <gtest/gtest.h>

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>
#include <vector>

#include "engine/simulation/drilling_system.hpp"
#include "engine/simulation/random_states.hpp"
#include "models/hydraulics/hydrostatics.hpp"
#include "models/materials/saturated_water.hpp"
#include "models/thermal/heat.hpp"
#include "support/short_scenario.hpp"

namespace dullcast::simulation {
namespace {

using testing::RandomStates;

/// Cutters worn less than this have their flats within the diamond: forces then do not depend on
/// temperature, and heat flows are exactly linear in the thermal entries.
constexpr double within_diamond = 3e-4;  // m; the carbide starts at 2 mm tan 15 deg = 0.54 mm

/// Entries that A links to others or to themselves.
std::vector<Eigen::Index> stiff_entries(const StateLayout& layout) {
  std::vector<Eigen::Index> entries;
  for (Eigen::Index k = 0; k < layout.slow_from(); ++k) entries.push_back(k);
  return entries;
}

/// A by central differences of the right-hand side. Tables: of the heat that flows in, over the capacity at
/// x, since A holds capacities. Rows of wear, hazards, depth and spent work are zero: they are slow and not
/// part of A. Neither is what water and solids do to heat: of their columns A holds the diagonal.
Eigen::MatrixXd differences(DrillingSystem& system, const State& x, double kelvins) {
  const StateLayout& layout = system.layout();
  const Eigen::Index n = layout.cutters;
  Eigen::MatrixXd A = Eigen::MatrixXd::Zero(layout.size(), layout.size());
  State up(x), down(x);
  const auto heats = [&](const State& at, State& rate) {
    system(at, rate, 0.0);
    // Both parts of the tables are the first entries.
    for (Eigen::Index i = 0; i < 2 * n; ++i)
      rate(i) *= thermal::diamond_heat_capacity(at(i)) / thermal::diamond_heat_capacity(x(i));
  };
  for (const Eigen::Index k : stiff_entries(layout)) {
    const bool share = k == layout.water() || k == layout.solids() || k == layout.plug();
    const double change = share ? 1e-4 : kelvins;
    State low = x, high = x;
    low(k) -= change;
    high(k) += change;
    heats(low, down);
    heats(high, up);
    A.col(k) = (up - down) / (2.0 * change);
    if (share) A.col(k) = A(k, k) * Eigen::VectorXd::Unit(layout.size(), k);
  }
  for (Eigen::Index k = layout.slow_from(); k < layout.size(); ++k)
    if (k != layout.carried() && k != layout.left_in_rock()) A.row(k).setZero();
  return A;
}

/// A as the matrix holds it: its solutions for unit vectors, inverted.
Eigen::MatrixXd held(DrillingSystem& system, const State& x, double shift) {
  const Eigen::Index size = x.size();
  State slope(x);
  system(x, slope, 0.0);
  system.linearise();
  system.thermal_matrix().factorise(shift);
  Eigen::MatrixXd solutions(size, size);
  for (Eigen::Index k = 0; k < size; ++k) {
    State unit = State::Unit(size, k);
    system.thermal_matrix().solve(unit);
    solutions.col(k) = unit;
  }
  return shift * Eigen::MatrixXd::Identity(size, size) - solutions.inverse();
}

/// A random state in which nothing boils, slots are clear and the bottom is full: heat flows are linear
/// there.
State calm(RandomStates& random, const StateLayout& layout) {
  State x = random.draw();
  for (Eigen::Index i = 0; i < layout.cutters; ++i) {
    for (const thermal::CutterPart part :
         {thermal::table_near, thermal::table_rest, thermal::carbide_near, thermal::carbide_rest})
      layout.parts(x)(i, part) = random.between(290.0, 365.0);
  }
  x(layout.water()) = 0.9;  // still over the cutters; at 1 the falling back of water has its corner
  x(layout.plug()) = random.between(0.1, 0.4);
  x(layout.solids()) = random.between(0.0, 0.2);  // slots start to pack at 0.4 x 0.58
  return x;
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

// Heat flows are linear, so differences over 5 K are exact to rounding: 1e4 W over 5 K in 16 digits. The
// water's and the solids' diagonals are differences over 1e-4, which err by 1e-7 of them.
TEST(ThermalMatrix, SolvesLikeADenseSolveWithDifferencesOfTheHeatRates) {
  for (const scenario::Scenario& scenario : {testing::short_scenario(), samples::invented_scenario()}) {
    const RunModels models = assemble(scenario);
    DrillingSystem system(models);
    const StateLayout& layout = system.layout();
    RandomStates random(layout, 1.0, within_diamond);
    for (const std::size_t interval : {std::size_t{0}, std::size_t{1}}) {
      system.enter(models.intervals[interval]);
      const State x = calm(random, layout);
      Eigen::MatrixXd A = differences(system, x, 5.0);
      ASSERT_LT(A(layout.water(), layout.water()), -0.1);
      ASSERT_LT(A(layout.solids(), layout.solids()), 0.0);
      std::vector<Eigen::Index> rows = all_entries(layout);
      rows.erase(rows.begin() + layout.water(), rows.begin() + layout.plug() + 1);
      expect_same_solution(system, x, A, random, 1e-9, rows);
      // A plug slows the bit, and so acts on what is lifted: A leaves that out, 2e-4 of its rate here.
      expect_same_solution(system, x, A, random, 1e-3, {layout.plug()});
      expect_same_solution(system, x, A, random, 1e-6, {layout.water(), layout.solids()});
      ASSERT_LT(A(layout.plug(), layout.plug()), 0.0);
    }
  }
}

// A half-filled bottom of an air-filled hole: no water falls back, and the less there is, the faster it
// warms.
TEST(ThermalMatrix, HoldsTheCapacityOfTheWaterThatIsThere) {
  scenario::Scenario scenario = testing::short_scenario();
  scenario.plan[0].flow = 0.0;
  scenario.column.water_level = 50.0;
  const RunModels models = assemble(scenario);
  DrillingSystem system(models);
  const StateLayout& layout = system.layout();
  system.enter(models.intervals[0]);
  RandomStates random(layout, 1.0, within_diamond);
  for (const double water : {0.01, 0.1, 0.7}) {
    State x = calm(random, layout);
    x(layout.water()) = water;
    std::vector<Eigen::Index> rows = all_entries(layout);
    rows.erase(rows.begin() + layout.water(), rows.begin() + layout.plug() + 1);
    expect_same_solution(system, x, differences(system, x, 5.0), random, 1e-8, rows);
  }
}

// In the band below saturation the fluid's rate curves: differences over 1 mK err by about 1e-7 of the curve.
// Solids and plug pull nothing. The energy carried off does not steer a step and its boil-off is left out of
// A, as is the water that boils away.
TEST(ThermalMatrix, HoldsTheFluidsSlopeWhereItStartsToBoil) {
  scenario::Scenario scenario = testing::short_scenario();
  scenario.plan[0].flow = 1e-6;
  const RunModels models = assemble(scenario);
  DrillingSystem system(models);
  system.enter(models.intervals[0]);
  const StateLayout& layout = system.layout();
  RandomStates random(layout, 1.0, within_diamond);
  State x = calm(random, layout), slope(x);
  x(layout.body()) = 450.0;
  const double saturation =
      materials::saturation_temperature(hydraulics::bottom_hole_pressure(999.0, 0.0, 1.0));
  for (const double below : {1.7, 1.0, 0.4}) {
    x(layout.fluid()) = saturation - below;
    system(x, slope, 0.0);
    ASSERT_GT(system.evaluation().water.steam, 0.0);
    std::vector<Eigen::Index> rows = all_entries(layout);
    rows.erase(rows.begin() + layout.carried());
    rows.erase(rows.begin() + layout.water(), rows.begin() + layout.plug() + 1);
    expect_same_solution(system, x, differences(system, x, 1e-3), random, 1e-5, rows);
  }
}

// The less water is left, the faster the same heat boils it off: A's own rate of the water, by differences
// over 1e-4 of it, which the curve of the last hundredth bends by 1e-4 at most here.
TEST(ThermalMatrix, HoldsHowFastTheLastWaterBoilsOff) {
  scenario::Scenario scenario = testing::short_scenario();
  scenario.plan[0].flow = 0.0;
  scenario.column.water_level = 50.0;
  const RunModels models = assemble(scenario);
  DrillingSystem system(models);
  system.enter(models.intervals[0]);
  const StateLayout& layout = system.layout();
  RandomStates random(layout, 1.0, within_diamond);
  for (const double water : {0.02, 0.1, 0.6}) {
    for (const double fluid : {372.5, 380.0}) {
      State x = calm(random, layout);
      x(layout.water()) = water;
      // All as hot as the water, which the bit's power boils: what part of surfaces it wets is no part of A.
      x(layout.body()) = x(layout.warm()) = x(layout.fluid()) = fluid;
      layout.parts(x) = fluid;
      const double expected = differences(system, x, 1e-3)(layout.water(), layout.water());
      const double A = held(system, x, 10.0)(layout.water(), layout.water());
      EXPECT_LT(expected, 0.0);
      EXPECT_NEAR(A, expected, 1e-3 * std::abs(expected)) << water << ", " << fluid << " K";
    }
  }
}

// Boiling is steep and, from the critical flux to the film, falls as the surface gets hotter. A holds those
// slopes by the surface's own temperature in every regime (differences over 1 mK err by about 1e-6 of them);
// by the fluid's where the surface is wet. Through a film the fluid's temperature acts on the critical flux
// and the film's thickness, which A leaves out.
TEST(ThermalMatrix, HoldsTheSlopesOfBoilingSurfaces) {
  const RunModels models = assemble(testing::short_scenario());
  DrillingSystem system(models);
  system.enter(models.intervals[0]);
  const StateLayout& layout = system.layout();
  RandomStates random(layout, 1.0, within_diamond);
  double steepest = 0.0, falling = 0.0;
  for (const double hottest : {392.0, 430.0, 520.0, 900.0}) {
    State x = calm(random, layout);
    for (Eigen::Index i = 0; i < layout.cutters; ++i) {
      for (const thermal::CutterPart part :
           {thermal::table_near, thermal::table_rest, thermal::carbide_near, thermal::carbide_rest})
        layout.parts(x)(i, part) = hottest - random.between(0.0, 10.0);
    }
    // A shift so large that every slope is resolved: what is left out at a smaller one is held below.
    const Eigen::MatrixXd expected = differences(system, x, 1e-3), A = held(system, x, 1e4);
    const bool wet = hottest < 395.0;
    for (Eigen::Index column = 0; column < layout.water(); ++column) {
      if (column == layout.fluid() && !wet) continue;
      for (Eigen::Index row = 0; row < layout.water(); ++row) {
        EXPECT_NEAR(A(row, column), expected(row, column), 2e-5 * (1.0 + std::abs(expected(row, column))))
            << "row " << row << ", column " << column << ", " << hottest << " K";
      }
    }
    for (Eigen::Index i = 0; i < layout.cutters; ++i) {
      const double to_fluid = A(layout.fluid(), i);
      steepest = std::max(steepest, to_fluid);
      falling = std::min(falling, to_fluid);
    }
  }
  EXPECT_GT(steepest, 0.0);
  EXPECT_LT(falling, 0.0) << "transition boiling was among them";
}

// A step too long for the falling part of a boiling curve leaves it out, at the part and at the fluid alike,
// so that heat is still moved and not made.
TEST(ThermalMatrix, LeavesOutWhatFallsFasterThanAStepResolves) {
  const RunModels models = assemble(testing::short_scenario());
  DrillingSystem system(models);
  system.enter(models.intervals[0]);
  const StateLayout& layout = system.layout();
  RandomStates random(layout, 1.0, within_diamond);
  State x = calm(random, layout);
  layout.parts(x) = 440.0;
  const Eigen::MatrixXd whole = held(system, x, 1e4), without = held(system, x, 1.0);
  const Eigen::Index fluid = layout.fluid();
  int left_out = 0;
  for (Eigen::Index i = 0; i < layout.cutters; ++i) {
    const double T_fluid = x(fluid);
    const thermal::Cooling& cooling = system.evaluation().cooling;
    const double slope = thermal::surface_heat(models.bit.cooling, cooling, i, 440.0, T_fluid).surface_slope;
    const double less = whole(i, i) - without(i, i);
    if (!(slope < 0.0)) {
      EXPECT_NEAR(less, 0.0, 1e-8) << i;
      continue;
    }
    ++left_out;
    EXPECT_GT(less, 0.2) << i;
    // What the part no longer keeps, the fluid gets: by their capacities (J/K), which the rest of the row
    // shows.
    const double capacity =
        system.evaluation().heats.capacity[static_cast<std::size_t>(i)](thermal::table_near);
    const double per_heat = system.evaluation().water.per_heat;
    EXPECT_NEAR((without(fluid, i) - whole(fluid, i)) / (less * capacity * per_heat), 1.0, 1e-6) << i;
  }
  EXPECT_GT(left_out, 0);
}

TEST(ThermalMatrix, LeavesEntriesWithoutStiffPartToTheShiftAlone) {
  const RunModels models = assemble(testing::short_scenario());
  DrillingSystem system(models);
  system.enter(models.intervals[0]);
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
}  // namespace dullcast::simulation
