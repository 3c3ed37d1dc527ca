// The matrix for a step without end: it tells balances that hold from those that do not.

#include <gtest/gtest.h>

#include <vector>

#include "engine/simulation/thermal_matrix.hpp"

namespace dullcast::simulation {
namespace {

/// One cutter whose table by the contact is conducted to the fluid by so many W/K, and answers to its own
/// temperature on top of that by a slope (W/K) that falls where it is below 0.
struct Leaning {
  explicit Leaning(double conducts, double leans) : layout(1), balance(1), matrix(layout) {
    const auto part = [](Eigen::Index k) { return thermal::HeatBalance::part(0, k); };
    const auto fluid = thermal::HeatBalance::shared(thermal::fluid_store);
    balance.conduct(part(0), part(1), 3.0, 400.0, 350.0);
    balance.conduct(part(0), part(2), 2.0, 400.0, 350.0);
    balance.conduct(part(1), part(3), 2.0, 350.0, 320.0);
    balance.conduct(part(2), part(3), 2.0, 350.0, 320.0);
    balance.conduct(part(0), fluid, conducts, 400.0, 300.0);
    balance.conduct(part(3), thermal::HeatBalance::shared(thermal::body_store), 1.0, 320.0, 300.0);
    balance.move(part(0), fluid, 10.0, {{part(0), leans}});
    if (leans < 0.0) balance.falls(0, 0, -leans);
    for (const auto store : {thermal::body_store, thermal::fluid_store, thermal::warm_rock_store})
      balance.leave(store, thermal::Sink::carried_off, 1.0, {{thermal::HeatBalance::shared(store), 5.0}});
    water.per_heat = 1.0 / 4e3;
    matrix.linearise(balance, {capacity, follows, 0.05, 1.0 / 3e3, 1.0 / 2e3, water, decay});
  }
  StateLayout layout;
  thermal::HeatBalance balance;
  std::vector<thermal::PartArray> capacity{thermal::PartArray(1.0, 2.0, 3.0, 6.0)};
  Eigen::ArrayXd follows = Eigen::ArrayXd::Constant(1, 0.8);
  thermal::BottomWaterRates water;
  hydraulics::Solids decay{1.0, 1.0};
  ThermalMatrix matrix;
};

// 4 W/K to the fluid and, through links of 3 and 2, 2 and 2 W/K side by side and 1 W/K behind them, 0.69 W/K
// to the body hold a slope that falls by less than their sum, and not one that falls by more.
TEST(ThermalMatrix, HoldsABalanceOnlyWhereNoStoreRunsAway) {
  EXPECT_TRUE(Leaning(4.0, 0.0).matrix.factorise_at_rest());
  EXPECT_TRUE(Leaning(4.0, -4.2).matrix.factorise_at_rest());
  EXPECT_FALSE(Leaning(4.0, -9.5).matrix.factorise_at_rest());
  // Nothing is left out at rest, as a step would: the fall shows in the answer.
  Leaning falling(4.0, -2.0), gentler(2.0, 0.0);
  State with = State::Unit(falling.layout.size(), 0), as = with;
  ASSERT_TRUE(falling.matrix.factorise_at_rest());
  ASSERT_TRUE(gentler.matrix.factorise_at_rest());
  falling.matrix.solve(with);
  gentler.matrix.solve(as);
  EXPECT_GT(with(0), as(0)) << "a gentler conduction also gets less from the fluid";
  EXPECT_NEAR(with(0), as(0), 0.2 * as(0));
}

}  // namespace
}  // namespace dullcast::simulation
