#include "engine/simulation/drilling_system.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <limits>
#include <stdexcept>
#include <vector>

#include "engine/simulation/allocation_count.hpp"
#include "engine/simulation/bench.hpp"
#include "engine/simulation/linearly_implicit_stepper.hpp"
#include "engine/simulation/random_states.hpp"
#include "models/common/constants.hpp"
#include "models/hydraulics/hydrostatics.hpp"
#include "models/materials/saturated_water.hpp"
#include "models/thermal/heat.hpp"
#include "support/short_scenario.hpp"

namespace dullcast::simulation {
namespace {

using testing::Bench;
using testing::RandomStates;
using testing::resting_state;
using testing::storing;

// First law: work in = heat carried off + left in the rock + stored. Forty flows are summed, each known to
// 1e-16 of itself.
TEST(DrillingSystem, WorkAtTheBitGoesWhereTheLedgerSays) {
  for (const scenario::Scenario& scenario : {testing::short_scenario(), samples::invented_scenario()}) {
    for (const std::size_t interval : {std::size_t{0}, std::size_t{1}}) {
      Bench bench(scenario, interval);
      RandomStates random = bench.random();
      for (int trial = 0; trial < 20; ++trial) {
        const State x = random.draw();
        const State rate = bench.evaluate(x);
        const StateLayout& layout = bench.system.layout();
        double flows = rate(layout.spent());
        const double stored = storing(bench, x, rate, flows);
        EXPECT_GT(rate(layout.spent()), 0.0);
        EXPECT_NEAR(rate(layout.spent()), rate(layout.carried()) + rate(layout.left_in_rock()) + stored,
                    1e-13 * flows);
      }
    }
  }
}

TEST(DrillingSystem, LedgerClosesWhileTheFluidBoils) {
  scenario::Scenario scenario = testing::short_scenario();
  scenario.plan[0].flow = 0.0;
  Bench bench(scenario);
  RandomStates random = bench.random();
  const StateLayout& layout = bench.system.layout();
  const double saturation =
      materials::saturation_temperature(hydraulics::bottom_hole_pressure(999.0, 0.0, 1.0));
  for (const double below : {1.5, 0.5, 0.0, -1.0}) {
    State x = random.draw();
    x(layout.fluid()) = saturation - below;
    const State rate = bench.evaluate(x);
    double flows = rate(layout.spent());
    const double stored = storing(bench, x, rate, flows);
    EXPECT_NEAR(rate(layout.spent()), rate(layout.carried()) + rate(layout.left_in_rock()) + stored,
                1e-13 * flows);
  }
}

TEST(DrillingSystem, PowerIsWeightTimesSpeedPlusTorqueTimesTurning) {
  Bench bench(testing::short_scenario());
  RandomStates random = bench.random();
  for (int trial = 0; trial < 10; ++trial) {
    bench.evaluate(random.draw());
    const Evaluation& now = bench.system.evaluation();
    const double turning = two_pi * 85.0 / 60.0;
    const double rop = now.forces.balance.depth_of_cut * 85.0 / 60.0;
    EXPECT_NEAR(now.power, now.forces.balance.weight * rop + now.torque * turning, 1e-12 * now.power);
    EXPECT_NEAR(now.forces.balance.weight, 20e3, 1e-6);
    // The contacts share out exactly the heat that they make and what they draw from crushed rock, which is
    // less than cutting left in it; friction makes less than all the work.
    const thermal::CutterHeats& heats = now.heats;
    const Eigen::ArrayXd made = now.friction.flat + now.friction.face + heats.from_crushed;
    const Eigen::ArrayXd shared_out =
        heats.flat_into_table + heats.flat_into_rock + heats.face_into_table + heats.face_into_chip;
    const double largest = heats.flat_into_table.abs().maxCoeff() + heats.face_into_table.abs().maxCoeff();
    EXPECT_LT((shared_out - made).abs().maxCoeff(), 1e-12 * largest);
    EXPECT_GT(heats.from_crushed.minCoeff(), 0.0);
    EXPECT_TRUE((heats.from_crushed < now.friction.crushed).all());
    EXPECT_LT(now.friction.crushed.sum(), now.power);
    EXPECT_GT(now.friction.flat.minCoeff(), 0.0);
    EXPECT_LT(now.friction.flat.sum() + now.friction.face.sum(), now.power);
  }
}

TEST(DrillingSystem, StoredHeatChangesAtTheRateItIsStored) {
  Bench bench(testing::short_scenario());
  RandomStates random = bench.random();
  const State x = random.draw();
  const State rate = bench.evaluate(x);
  double flows = 0.0;
  const double expected = storing(bench, x, rate, flows);
  const double h = 1e-4;  // s; central difference, the diamond's capacity is a table with kinks every 2 K
  const double change =
      (bench.system.stored_heat(x + h * rate, 288.15) - bench.system.stored_heat(x - h * rate, 288.15)) /
      (2.0 * h);
  EXPECT_NEAR(change, expected, 1e-4 * flows);
  EXPECT_EQ(bench.system.stored_heat(resting_state(bench.system.layout(), 300.0, 1.0), 300.0), 0.0);
}

// Wear moves the cells of the profile about, so many states are tried, fresh and worn, in both rocks.
TEST(DrillingSystem, RightHandSideAllocatesNothing) {
  for (const scenario::Scenario& scenario : {testing::short_scenario(), samples::invented_scenario()}) {
    Bench bench(scenario);
    RandomStates random = bench.random();
    std::vector<State> states;
    for (int trial = 0; trial < 100; ++trial) states.push_back(random.draw());
    bench.evaluate(resting_state(bench.system.layout(), 288.15, 1.0));
    bench.system.linearise();
    const long before = testing::allocations();
    for (const State& x : states) {
      bench.system(x, bench.slope, 0.0);
      bench.system.linearise();
      bench.system.thermal_matrix().factorise(10.0);
      bench.system.thermal_matrix().solve(bench.slope);
    }
    bench.system.enter(bench.models.intervals[1]);
    for (const State& x : states) bench.system(x, bench.slope, 0.0);
    EXPECT_EQ(testing::allocations() - before, 0);
  }
}

TEST(DrillingSystem, AStepAllocatesNothing) {
  Bench bench(testing::short_scenario());
  State x = resting_state(bench.system.layout(), 288.15, 0.0);
  LinearlyImplicitStepper stepper(x.size(), 1e-3);
  double t = 0.0, dt = 0.05;
  const auto step = [&] {
    dt = std::min(dt, 1.0);  // stay in the hole
    stepper.try_step(std::ref(bench.system), x, t, dt);
  };
  step();
  const long before = testing::allocations();
  for (int k = 0; k < 50; ++k) step();
  EXPECT_EQ(testing::allocations() - before, 0);
  EXPECT_GT(stepper.steps(), 20);
}

TEST(AllocationCount, HearsOperatorNewAndEigen) {
  const long before = testing::allocations();
  const std::vector<double> list(100, 1.0);
  EXPECT_EQ(testing::allocations() - before, 1);
  const Eigen::ArrayXd array = Eigen::ArrayXd::Constant(100, list[3]);
  EXPECT_EQ(testing::allocations() - before, 2);
  EXPECT_EQ(array(99), 1.0);
}

TEST(DrillingSystem, OffBottomNothingIsCutAndTheBitCools) {
  scenario::Scenario scenario = testing::short_scenario();
  scenario.plan[0].weight_on_bit = 0.0;
  Bench bench(scenario);
  const StateLayout& layout = bench.system.layout();
  State x = resting_state(layout, 400.0, 1.0);
  x(layout.fluid()) = 288.15;
  const State rate = bench.evaluate(x);
  EXPECT_EQ(bench.system.evaluation().forces.balance.depth_of_cut, 0.0);
  EXPECT_EQ(bench.system.evaluation().torque, 0.0);
  EXPECT_EQ(rate(layout.depth()), 0.0);
  EXPECT_EQ(rate(layout.spent()), 0.0);
  EXPECT_EQ(layout.worn(rate).maxCoeff(), 0.0);
  EXPECT_LT(layout.table(rate).maxCoeff(), 0.0);
  EXPECT_LT(rate(layout.body()), 0.0);
  EXPECT_TRUE((bench.system.evaluation().heats.flat_temperature == 400.0).all());
  double flows = 0.0;
  const double stored = storing(bench, x, rate, flows);
  EXPECT_NEAR(0.0, rate(layout.carried()) + rate(layout.left_in_rock()) + stored, 1e-13 * flows);
}

TEST(DrillingSystem, WeightFromPartsGrowsWithDepthAndHoldbackTakesItOffBottom) {
  scenario::Scenario scenario = testing::short_scenario();
  scenario.plan[0].weight_on_bit.reset();
  scenario.plan[0].pull_down = 5e3;
  scenario.plan[0].holdback = 1e3;
  scenario.string.pipe_weight = 200.0;
  scenario.string.collar_weight = 900.0;
  scenario.string.collar_length = 2.0;
  const Bench bench(scenario);
  const double buoyancy = 1.0 - 999.0 / 7850.0;  // [hb] 1 - rho_f/rho_s
  EXPECT_NEAR(bench.system.weight_at(0.0), 4e3, 1e-9);
  EXPECT_NEAR(bench.system.weight_at(1.0), 4e3 + buoyancy * 900.0, 1e-9);
  EXPECT_NEAR(bench.system.weight_at(3.0), 4e3 + buoyancy * (1800.0 + 200.0), 1e-9);
  scenario.plan[0].holdback = 1e5;
  const Bench held(scenario);
  EXPECT_EQ(held.system.weight_at(3.0), 0.0);
}

// Body and rock hotter than any water: there is a surplus of heat to boil with.
State hot_around(const StateLayout& layout, double T_fluid, double depth) {
  State x = resting_state(layout, 450.0, depth);
  x(layout.fluid()) = T_fluid;
  return x;
}

TEST(DrillingSystem, FluidDoesNotWarmPastSaturationAtTheHoleBottom) {
  scenario::Scenario scenario = testing::short_scenario();
  scenario.plan[0].flow = 0.0;
  scenario.column.water_level = 0.0;
  Bench bench(scenario);
  const StateLayout& layout = bench.system.layout();
  const double pressure = standard_atmosphere + 999.0 * standard_gravity * 1.0;
  const double saturation = materials::saturation_temperature(pressure);
  EXPECT_NEAR(saturation, 375.8, 0.2);  // steam tables: 111 kPa, 102.6 C [hb, from memory]
  const auto warming = [&](Bench& in, double T, double depth) {
    return in.evaluate(hot_around(layout, T, depth))(layout.fluid());
  };
  const double below = warming(bench, saturation - 2.5, 1.0);
  EXPECT_GT(below, 0.0) << "below the band the fluid warms";
  EXPECT_EQ(bench.system.evaluation().water.steam, 0.0);
  EXPECT_GT(warming(bench, saturation - 1.0, 1.0), 0.0);
  EXPECT_LT(warming(bench, saturation - 1.0, 1.0), 0.6 * below);
  // Of a full bottom's surplus the model leaves one part in 101 to warming, so that the last water goes
  // smoothly; the rest boils liquid away.
  const double at = warming(bench, saturation, 1.0);
  EXPECT_GT(at, 0.0);
  EXPECT_LT(at, below / 100.0);
  EXPECT_GT(bench.system.evaluation().water.steam, 0.0);
  EXPECT_LT(bench.slope(layout.water()), 0.0);
  // Past saturation it boils itself cool: 3 K in about a second, over the 5 % of heat that is no water's.
  const double past = warming(bench, saturation + 3.0, 1.0);
  EXPECT_NEAR(past, -3.0 / 1.05, below / 100.0);
  // A deeper, fuller hole boils later; one standing dry at this depth boils at 100 C.
  EXPECT_GT(warming(bench, saturation, 4.0), 0.9 * below);
  scenario.column.water_level = 50.0;
  Bench dry(scenario);
  EXPECT_LT(warming(dry, 373.2, 4.0), below / 50.0);  // 100 C within the formulation's 0.03 K
  EXPECT_GT(warming(dry, 373.2 - 2.5, 4.0), 0.9 * below);
}

TEST(DrillingSystem, NothingBoilsAboveTheCriticalPressure) {
  scenario::Scenario scenario = testing::short_scenario();
  scenario.plan[0].flow = 0.0;
  Bench bench(scenario);
  const StateLayout& layout = bench.system.layout();
  State x = resting_state(layout, 320.0, 2300.0);  // 22.6 MPa: a trial step may look that far ahead
  EXPECT_GT(bench.evaluate(x)(layout.fluid()), 0.0);
}

TEST(DrillingSystem, FluidAboveSaturationCoolsWhenItLosesMoreThanItGets) {
  scenario::Scenario scenario = testing::short_scenario();
  Bench bench(scenario);  // pump on: 250 W/K a litre a minute carry off far more than the bit makes
  const StateLayout& layout = bench.system.layout();
  State x = resting_state(layout, 320.0, 1.0);
  x(layout.fluid()) = 376.0;
  EXPECT_LT(bench.evaluate(x)(layout.fluid()), 0.0);
}

// The balance's guess and what else is remembered may move the last digits (its bracket is 1e-11 of the depth
// of cut), nothing more: fresh or used, from hard rock or soft, the same state has the same slope.
TEST(DrillingSystem, SlopeDependsOnTheStateAlone) {
  scenario::Scenario scenario = testing::short_scenario();
  scenario.column.layers[1].rock = samples::invented_rock("clay", 8e6, 0.5);  // blades rub
  Bench used(scenario);
  RandomStates random = used.random(3e-3);
  for (int trial = 0; trial < 30; ++trial) {
    const State before = random.draw();
    State x = before;
    for (Eigen::Index i = 0; i < used.system.layout().cutters; ++i)
      used.system.layout().worn(x)(i) += random.between(0.0, 9e-6);
    const std::size_t from = trial % 2 ? 1 : 0, to = 1 - from;
    used.system.enter(used.models.intervals[from]);
    used.evaluate(before);
    used.system.enter(used.models.intervals[to]);
    const State rate = used.evaluate(x);
    Bench fresh(scenario, to);
    const State expected = fresh.evaluate(x);
    for (Eigen::Index k = 0; k < x.size(); ++k)
      EXPECT_NEAR(rate(k), expected(k), 1e-8 * std::max(std::abs(expected(k)), 1e-12)) << k << " to " << to;
  }
}

TEST(DrillingSystem, RuinedTableWearsLikeCarbide) {
  Bench bench(testing::short_scenario());
  const StateLayout& layout = bench.system.layout();
  State x = resting_state(layout, 300.0, 1.0);
  layout.worn(x).setConstant(1e-4);
  const double whole = layout.worn(bench.evaluate(x))(3);
  bench.system.set_ruined(3);
  EXPECT_TRUE(bench.system.ruined(3));
  const State rate = bench.evaluate(x);
  EXPECT_GT(whole, 0.0);
  EXPECT_NEAR(layout.worn(rate)(3) / whole, 150.0, 1e-9);  // the scenario's carbide wear ratio, cold
  EXPECT_EQ(layout.damage(rate)(3), 0.0);
}

TEST(DrillingSystem, WearsFasterWhereTheGroundIsMoreAbrasive) {
  scenario::Scenario s = testing::short_scenario();
  s.numbers.cutting_wear_share = samples::exactly(0.0);
  Bench soft(s, 0), abrasive(s, 1);
  const StateLayout& layout = soft.system.layout();
  State x = resting_state(layout, 300.0, 1.0);
  layout.worn(x).setConstant(1e-4);
  // du/dt goes as CAI^1.5 sigma_c m; mobilisation m is 1 here: 2.5^1.5 at 50/80 of the strength.
  const double ratio = layout.worn(abrasive.evaluate(x))(6) / layout.worn(soft.evaluate(x))(6);
  EXPECT_NEAR(ratio, std::pow(2.5, 1.5) * 50.0 / 80.0, 1e-6);
}

// Cutting wears by the rock that each edge cuts: what a cutter loses to it over what it loses to rubbing is
// kappa eps A/(sigma_c m A_d).
TEST(DrillingSystem, CuttingWearsBesideRubbingByTheRockThatAnEdgeCuts) {
  scenario::Scenario s = testing::short_scenario();
  const auto rates = [&](double share) {
    s.numbers.cutting_wear_share = samples::exactly(share);
    Bench bench(s);
    const StateLayout& layout = bench.system.layout();
    State x = resting_state(layout, 300.0, 1.0);
    layout.worn(x).setConstant(0.3e-3);
    const State rate = bench.evaluate(x);
    return std::pair<Eigen::ArrayXd, Evaluation>(layout.worn(rate), bench.system.evaluation());
  };
  const auto [rubbing, now] = rates(0.0);
  const auto [both, same] = rates(2.0);
  const cutting::CutterLoads& loads = now.forces.loads;
  for (Eigen::Index i = 0; i < rubbing.size(); ++i) {
    const double mobilised = loads.flat_mobilised(i) / now.forces.whole_flat(i);
    const double recedes = std::max(now.forces.whole_flat(i), loads.diamond_area(i));
    const double expected = 2.0 * 80e6 * loads.cut_strength(i) * loads.area(i) /
                            (1.5 * 80e6 * loads.speed_strength(i) * mobilised * recedes);
    if (now.forces.side_force(i) > 0.0) continue;  // the wall rubs as well
    EXPECT_NEAR(both(i) / rubbing(i) - 1.0, expected, 1e-9) << i;
    EXPECT_GT(expected, 0.05) << i;
  }
}

// Rock that was crushed meets face and flat warm. It warms the flat by the rock's share of the contact, and
// gives no more than it brings: both contacts draw rise Q link/(Q + link rise).
TEST(DrillingSystem, CrushedRockWarmsTheFlat) {
  scenario::Scenario s = testing::short_scenario();
  const auto flat = [&](double share, double weight) {
    s.numbers.crushed_heat_share = samples::exactly(share);
    s.plan[0].weight_on_bit = weight;
    Bench bench(s);
    State x = resting_state(bench.system.layout(), 300.0, 1.0);
    bench.system.layout().worn(x).setConstant(weight < 5e3 ? 1e-3 : 0.0);
    bench.evaluate(x);
    return bench.system.evaluation();
  };
  for (const double weight : {20e3, 2e3}) {  // a bit that drills, a dull one that skids
    const Evaluation cold = flat(0.0, weight), warm = flat(0.6, weight);
    const materials::Rock rock = rock_of(s.column.layers[0].rock);
    for (Eigen::Index i = 0; i < cold.sliding_speed.size(); ++i) {
      const cutting::CutterLoads& loads = cold.forces.loads;
      const double rise = 0.6 * 80e6 * loads.cut_strength(i) / (rock.density * rock.heat_capacity);
      EXPECT_NEAR(warm.friction.rock_rise(i), rise, 1e-9);
      const double brings = 0.6 * 80e6 * loads.cut_strength(i) * loads.area_moment(i) * two_pi * 85.0 / 60.0;
      EXPECT_NEAR(warm.friction.crushed(i), brings, 1e-9 * brings);
      const double warmer = warm.heats.flat_temperature(i) - cold.heats.flat_temperature(i);
      const double at_contact = warmer / (1.0 - cold.heats.flat_follows(i));
      EXPECT_GT(at_contact, 0.0);
      EXPECT_LT(at_contact, rise);
      EXPECT_GT(warm.heats.from_crushed(i), 0.0);
      EXPECT_LT(warm.heats.from_crushed(i), brings * (1.0 - at_contact / rise));
      if (weight > 5e3) {
        EXPECT_GT(at_contact, 0.3 * rise);
      }
    }
    EXPECT_EQ(warm.power, cold.power);
  }
}

// Whatever entry is not a number, the evaluation throws or its slope is not finite, which no step accepts.
TEST(DrillingSystem, ANumberThatIsNotOneFailsLoudly) {
  Bench bench(testing::short_scenario());
  const StateLayout& layout = bench.system.layout();
  RandomStates random = bench.random();
  const State x = random.draw();
  // Nothing reads the sums, and damage acts through an event alone.
  State unread = State::Zero(layout.size());
  layout.damage(unread) = 1.0;
  unread(layout.spent()) = unread(layout.carried()) = unread(layout.left_in_rock()) = 1.0;
  for (Eigen::Index k = 0; k < layout.size(); ++k) {
    if (unread(k) == 1.0) continue;
    State broken = x;
    broken(k) = std::numeric_limits<double>::quiet_NaN();
    LinearlyImplicitStepper stepper(x.size(), 1e-3);
    Bench fresh(testing::short_scenario());
    double t = 0.0, dt = 0.05;
    bool refused = false;
    try {
      refused = stepper.try_step(std::ref(fresh.system), broken, t, dt) ==
                boost::numeric::odeint::controlled_step_result::fail;
    } catch (const std::exception&) {
      refused = true;
    }
    EXPECT_TRUE(refused) << "entry " << k;
  }
}

// Heat is fast and wear is slow: on one layer the step grows to many times what the tables' heat allows an
// explicit method, and the long step is refused when the rock changes under it.
TEST(DrillingSystem, StepGrowsToTheWearScaleAndShrinksWhenTheRockChanges) {
  scenario::Scenario scenario = testing::short_scenario();
  Bench bench(scenario);
  const StateLayout& layout = bench.system.layout();
  State x = resting_state(layout, 288.15, 0.0);
  LinearlyImplicitStepper stepper(x.size(), 1e-4);
  double t = 0.0, dt = 0.05;
  while (x(layout.depth()) < 2.5) stepper.try_step(std::ref(bench.system), x, t, dt);

  // The fastest rate of heat: a table's own loss per kelvin.
  State warmer = x;
  warmer(0) += 1.0;
  const double base = bench.evaluate(x)(0);
  const double fastest = base - bench.evaluate(warmer)(0);
  EXPECT_GT(fastest, 1.0);
  EXPECT_GT(dt * fastest, 100.0) << "an explicit method stops near 2.5";

  const double before = dt, start = t;
  bench.system.enter(bench.models.intervals[1]);
  stepper.restart();
  const long refused = stepper.refused();
  while (stepper.try_step(std::ref(bench.system), x, t, dt) ==
         boost::numeric::odeint::controlled_step_result::fail) {
  }
  EXPECT_GT(stepper.refused(), refused);
  EXPECT_LT(t - start, before / 20.0);
  while (t < start + 4000.0) stepper.try_step(std::ref(bench.system), x, t, dt);
  EXPECT_GT(dt, 0.25 * before) << "this rock wears the bit several times as fast";
}

// Where a step is allowed errors of 1e-2 (10 um of wear, 1 K) forces stand while wear moves by less than a
// tenth of a micrometre; beyond it, and after forgetting, they are those of an evaluation that starts from
// nothing.
// A surface on the falling part of its boiling curve leaves it within milliseconds, and a step that goes over
// that may come back to where it began: steps there are no longer than what moves it by some kelvins.
TEST(DrillingSystem, StepsAreShortWhereABoilingSurfaceRunsAway) {
  const RunModels models = assemble(testing::short_scenario());
  DrillingSystem system(models);
  system.enter(models.intervals[0]);
  testing::RandomStates random(system.layout(), 1.0, 2e-3);
  int falling = 0;
  for (int k = 0; k < 20; ++k) {
    State x = random.draw(), slope(x);
    LinearlyImplicitStepper stepper(x.size(), 1e-2);
    double t = 0.0, dt = 0.1;
    for (int steps = 0; steps < 10; ++steps) {
      if (stepper.try_step(std::ref(system), x, t, dt) != boost::numeric::odeint::success) continue;
      system(x, slope, 0.0);
      const double longest = system.longest_step(slope);
      EXPECT_EQ(std::isfinite(longest), system.falls());
      EXPECT_LE(dt, std::max(longest * (1.0 + 1e-6), 2e-9));  // forces anew differ in last digits
      if (!system.falls()) continue;
      ++falling;
      // One that cools towards its peak is followed to there, though by half a kelvin at least.
      const auto rates = system.layout().parts(slope);
      EXPECT_GE(longest * rates.abs().maxCoeff(), (rates.minCoeff() < 0.0 ? 0.5 : 5.0) - 1e-9);
    }
  }
  EXPECT_GT(falling, 0);
}

// Cooling, it runs towards the steep branch on the other side of the peak, onto which a step must not go in
// one stride, however little it moves the surface: steps there threw one to and fro by 0.2 K for ever.
TEST(DrillingSystem, StepsTowardsThePeakOfABoilingCurveEndAtIt) {
  const RunModels models = assemble(testing::short_scenario());
  DrillingSystem system(models);
  system.enter(models.intervals[0]);
  const StateLayout& layout = system.layout();
  State x = testing::resting_state(layout, 300.0, 1.0), slope(x);
  const auto flux_at = [&](double T) {
    return thermal::surface_heat(models.bit.cooling, system.evaluation().cooling, 0, T, 300.0);
  };
  system(x, slope, 0.0);
  double T = 380.0;
  while (!(flux_at(T).past_peak > 2.0)) T += 0.01;
  const double past = flux_at(T).past_peak;
  x(0) = T;
  for (const double rate : {-100.0, 100.0}) {
    system(x, slope, 0.0);
    slope.setZero();
    slope(0) = rate;
    EXPECT_NEAR(system.longest_step(slope), (rate < 0.0 ? past : 5.0) / 100.0, 1e-6) << rate;
  }
}

TEST(DrillingSystem, LetsForcesStandWhileLittleOfWhatDecidesThemChanges) {
  const RunModels models = assemble(testing::short_scenario());
  DrillingSystem standing(models), exact(models);
  standing.let_forces_stand(1e-2);
  for (DrillingSystem* system : {&standing, &exact}) system->enter(models.intervals[0]);
  testing::RandomStates random(exact.layout(), 1.0, 2e-3);
  State x = random.draw(), rate(x), exact_rate(x);
  const auto evaluate = [&](const State& at) {
    standing(at, rate, 0.0);
    exact(at, exact_rate, 0.0);
  };
  // Forces that may stand are found to ten times the share by which what they hang on may differ.
  const auto the_same = [&] { return (rate - exact_rate).norm() <= 1e-4 * exact_rate.norm(); };
  evaluate(x);
  EXPECT_TRUE(the_same());
  const double found = standing.evaluation().forces.balance.depth_of_cut;
  State near = x;
  exact.layout().worn(near) += 0.9e-7;
  near(exact.layout().fluid()) += 5.0;
  evaluate(near);
  EXPECT_EQ(standing.evaluation().forces.balance.depth_of_cut, found);
  EXPECT_NE(exact.evaluation().forces.balance.depth_of_cut, found);
  EXPECT_NEAR(exact.evaluation().forces.balance.depth_of_cut / found, 1.0, 1e-3);
  EXPECT_NEAR(rate(exact.layout().fluid()), exact_rate(exact.layout().fluid()),
              1e-3 * std::abs(exact_rate(exact.layout().fluid())))
      << "heat is of the state itself";
  State far = x;
  exact.layout().worn(far)(2) += 1.1e-7;
  evaluate(far);
  EXPECT_TRUE(the_same());
  EXPECT_NE(standing.evaluation().forces.balance.depth_of_cut, found);
  EXPECT_NEAR(
      standing.evaluation().forces.balance.depth_of_cut / exact.evaluation().forces.balance.depth_of_cut, 1.0,
      1e-7)
      << "what is left of the depth of cut is of the square";
  evaluate(x);
  standing.enter(models.intervals[0]);
  exact.layout().worn(x) += 0.9e-7;
  evaluate(x);
  EXPECT_TRUE(the_same()) << "entering an interval forgets";
}

}  // namespace
}  // namespace dullcast::simulation
