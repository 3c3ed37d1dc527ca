// What holds cutters and blades: loads by hand, the weakest first, and strengths drawn from their law.

#include "engine/simulation/drawn_strengths.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <vector>

#include "engine/simulation/bench.hpp"
#include "models/common/constants.hpp"
#include "support/short_scenario.hpp"

namespace dullcast::simulation {
namespace {

using testing::Bench;
using Part = failure::WeakestLink::Part;

// One cutter's seat, bond and blade worked out from the forces on it: nominal stress over strength, [hb] as
// in models/failure/sudden_failure.hpp. The rough bottom's overload of 1.5 adds half of the cutting force
// once more.
TEST(CutterRetention, LoadsOfOneCutterByHand) {
  scenario::Scenario scenario = testing::short_scenario();
  Bench bench(scenario);
  const StateLayout& layout = bench.system.layout();
  const State x = testing::resting_state(layout, 350.0, 1.0);
  bench.evaluate(x);
  const Evaluation& now = bench.system.evaluation();
  failure::RetentionLoads loads;
  retention_loads(bench.system, x, loads);
  const Eigen::Index i = 4;
  const Eigen::ArrayXd cutting_forces = 80e6 / 0.9 * now.forces.loads.cut_strength * now.forces.loads.area;
  const double cutting = cutting_forces(i);
  const double along = cutting * 1.5 + 0.4 * now.forces.loads.contact_force(i);
  const double normal =
      bench.models.bit.mechanics.directions.zeta(i) * cutting * 1.5 + now.forces.loads.contact_force(i);
  // Side of the carbide below the exposed half, and its back when that sits in the pocket.
  const double a = 6.5e-3, side = two_pi * a * (8e-3 - 2e-3) * 0.5, back = pi * a * a;
  const double bonded = bench.models.bit.materials.front().back_in_pocket ? side + back : side;
  EXPECT_NEAR(bench.models.bit.retention.of(i).bonded_area, bonded, 1e-12);
  const double resultant = std::hypot(along, normal);
  EXPECT_NEAR(loads.pocket(i), resultant / (230e6 * bonded), 1e-9);
  const double theta = scenario.bit.layout.back_rake(i);
  const double shear = std::abs(normal * std::cos(theta) - along * std::sin(theta)) / back;
  const double mismatch = 0.3e6 * (350.0 - 293.15);
  EXPECT_NEAR(loads.bond(i), (shear + mismatch) / 400e6, 1e-9);
  double moment = 0.0;
  for (Eigen::Index k = 0; k < layout.cutters; ++k) {
    if (scenario.bit.layout.blade(k) != 0) continue;
    moment += (now.forces.tangential_force(k) + 0.5 * cutting_forces(k)) * 0.3 * 0.1;
  }
  const double b = 0.22 * 0.1, length = 0.06;  // the invented 200 mm bit's blade on a 120 mm bit
  EXPECT_NEAR(loads.blade(0), 6.0 * moment / (length * b * b) / 750e6, 1e-6);
}

TEST(CutterRetention, AnInclusionStrikesAndHeatAndErosionWeaken) {
  scenario::Scenario scenario = testing::short_scenario();
  // Blades that bear nothing: eroded ones would hand some of the weight to the cutters.
  scenario.numbers.blade_bearing_ratio = samples::exactly(1e-12);
  const auto pocket = [](const scenario::Scenario& s, double T, double eroded) {
    Bench bench(s);
    State x = testing::resting_state(bench.system.layout(), T, 1.0);
    x(bench.system.layout().eroded()) = eroded;
    bench.evaluate(x);
    failure::RetentionLoads loads;
    retention_loads(bench.system, x, loads);
    return loads.pocket(4);
  };
  const double plain = pocket(scenario, 300.0, 0.0);
  EXPECT_NEAR(pocket(scenario, 500.0, 0.0), plain, 1e-9 * plain) << "below softening at 250 C";
  EXPECT_GT(pocket(scenario, 700.0, 0.0), 1.3 * plain);
  EXPECT_NEAR(pocket(scenario, 1000.0, 0.0), plain / 0.05, 1e-6 * plain / 0.05) << "past the solidus";
  const double depth = Bench(scenario).models.bit.retention.pocket_depth;
  EXPECT_NEAR(pocket(scenario, 300.0, 0.5 * depth), 4.0 * plain, 1e-9 * plain) << "half a pocket: (1/2)^2";
  scenario.column.layers[0].rock.inclusion_share = samples::exactly(0.1);
  scenario.column.layers[0].rock.inclusion_size = samples::exactly(20e-3);
  scenario.column.layers[0].rock.inclusion_strength = samples::exactly(250e6);
  EXPECT_GT(pocket(scenario, 300.0, 0.0), 1.5 * plain);
}

TEST(CutterRetention, TheWeakestIsTheMostLoadedAgainstItsOwnStrength) {
  failure::RetentionLoads loads;
  loads.pocket = Eigen::Array3d(0.5, 0.6, 0.2);
  loads.bond = Eigen::Array3d(0.1, 0.3, 0.4);
  loads.blade = Eigen::Array2d(0.2, 0.55);
  failure::RetentionStrengths strengths{Eigen::Array3d::Ones(), Eigen::Array3d::Ones(),
                                        Eigen::Array2d::Ones()};
  Eigen::ArrayXi none = Eigen::ArrayXi::Zero(3), lost = none, gone = none;
  const auto weakest = [&] { return failure::weakest_link(loads, strengths, lost, gone); };
  EXPECT_EQ(weakest().part, Part::pocket);
  EXPECT_EQ(weakest().number, 1);
  EXPECT_EQ(weakest().used, 0.6);
  lost(1) = 1;  // gone with its bond: the blade is next
  EXPECT_EQ(weakest().part, Part::blade);
  EXPECT_EQ(weakest().number, 1);
  strengths.bond(2) = 0.5;
  EXPECT_EQ(weakest().part, Part::bond);
  EXPECT_EQ(weakest().number, 2);
  EXPECT_EQ(weakest().used, 0.8);
  gone(2) = 1;
  EXPECT_EQ(weakest().part, Part::blade);
  strengths.pocket(0) = 2.0;
  strengths.blade(1) = 2.0;
  EXPECT_EQ(weakest().part, Part::blade);
  EXPECT_EQ(weakest().used, 0.275);
  loads.pocket(2) = std::nan("");
  EXPECT_TRUE(std::isnan(weakest().used)) << "a load that is not a number is never passed over";
}

TEST(CutterRetention, CarriedAsProbabilityEveryStrengthIsTheMedian) {
  scenario::Scenario scenario = testing::short_scenario();
  const RunModels models = assemble(scenario);
  for (const long seed : {1L, 2L}) {
    scenario.random_events = {false, seed};
    const failure::RetentionStrengths strengths =
        retention_strengths(scenario.random_events, models.bit.retention);
    EXPECT_TRUE((strengths.pocket == 1.0).all() && (strengths.bond == 1.0).all());
    EXPECT_TRUE((strengths.blade == 1.0).all());
    EXPECT_EQ(strengths.pocket.size(), 7);
    EXPECT_EQ(strengths.blade.size(), 3);
  }
}

// Lognormal law [hb]: ln(strength) is normal with mean 0 and the lot's spread. Over n draws the mean errs by
// spread/sqrt(n) and the standard deviation by spread/sqrt(2 n); four of those.
TEST(CutterRetention, DrawnStrengthsAreLognormalAboutTheMedian) {
  scenario::Scenario scenario = testing::short_scenario();
  scenario.bit.lot.strength_spread = samples::exactly(0.35);
  scenario.bit.body.strength_spread = samples::exactly(0.1);
  const RunModels models = assemble(scenario);
  struct Sums {
    double n = 0.0, sum = 0.0, squares = 0.0;
    void add(const Eigen::ArrayXd& strength) {
      n += static_cast<double>(strength.size());
      sum += strength.log().sum();
      squares += strength.log().square().sum();
    }
    double mean() const { return sum / n; }
    double deviation() const { return std::sqrt(squares / n); }
  } pockets, bonds, blades;
  double together = 0.0;
  for (long seed = 1; seed <= 2000; ++seed) {
    scenario.random_events = {true, seed};
    const failure::RetentionStrengths strengths =
        retention_strengths(scenario.random_events, models.bit.retention);
    pockets.add(strengths.pocket);
    bonds.add(strengths.bond);
    blades.add(strengths.blade);
    together += (strengths.pocket.log() * strengths.bond.log()).sum();
  }
  const auto check = [](const Sums& sums, double spread) {
    EXPECT_NEAR(sums.mean(), 0.0, 4.0 * spread / std::sqrt(sums.n));
    EXPECT_NEAR(sums.deviation(), spread, 4.0 * spread / std::sqrt(2.0 * sums.n));
  };
  check(pockets, 0.35);
  check(bonds, 0.35);
  check(blades, 0.1);
  EXPECT_NEAR(together / pockets.n, 0.0, 4.0 * 0.35 * 0.35 / std::sqrt(pockets.n)) << "drawn apart";
}

TEST(CutterRetention, ABitsStrengthsDependOnItsSeedAlone) {
  scenario::Scenario scenario = testing::short_scenario();
  scenario.random_events = {true, 11};
  const failure::RetentionStrengths one =
      retention_strengths(scenario.random_events, assemble(scenario).bit.retention);
  scenario.plan[0].weight_on_bit = 5e3;
  scenario.column.layers.pop_back();
  const failure::RetentionStrengths elsewhere =
      retention_strengths(scenario.random_events, assemble(scenario).bit.retention);
  EXPECT_TRUE((one.pocket == elsewhere.pocket).all());
  scenario.random_events.seed = 12;
  const failure::RetentionStrengths other =
      retention_strengths(scenario.random_events, assemble(scenario).bit.retention);
  EXPECT_FALSE((one.pocket == other.pocket).any());
}

}  // namespace
}  // namespace dullcast::simulation
