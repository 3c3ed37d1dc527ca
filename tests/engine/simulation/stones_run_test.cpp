// Stones in the ground: what half of hard stones does to progress, heat, wear and edges.

#include <gtest/gtest.h>

#include <cmath>

#include "engine/simulation/outcome_views.hpp"
#include "engine/simulation/run.hpp"
#include "support/short_scenario.hpp"

namespace dullcast::simulation {
namespace {

using samples::exactly;

scenario::RockRecord gravel(double share = 0.5) {
  scenario::RockRecord rock = samples::invented_rock("gravel", 10e6, 3.0);
  rock.inclusion_share = exactly(share);
  rock.inclusion_size = exactly(25e-3);
  rock.inclusion_strength = exactly(165e6);
  rock.inclusion_abrasivity = exactly(3.5);
  return rock;
}

RunOutcome drilled(const scenario::RockRecord& rock, double bottom = 2.0) {
  scenario::Scenario s = testing::short_scenario();
  testing::give_one_layer(s, bottom, rock);
  s.repeat.connection_time = 0.0;
  return run(s);
}

double chips(const RunOutcome& outcome) {
  return outcome.end.chip_hazard.sum();
}

// The gravel was drilled four times as fast as sandstone, cool and without wear, when its stones only
// chipped.
TEST(Stones, GravelDrillsSlowerWearsFasterRunsHotterAndChipsMoreThanTheSandstoneBesideIt) {
  const RunOutcome stony = drilled(gravel());
  const RunOutcome sandstone = drilled(samples::invented_rock("sandstone", 50e6, 2.5));
  EXPECT_LT(stony.passages[0].mean_rate_of_penetration,
            0.85 * sandstone.passages[0].mean_rate_of_penetration);
  EXPECT_GT(stony.passages[0].greatest_wear_gain, 1.5 * sandstone.passages[0].greatest_wear_gain);
  EXPECT_GT(stony.hottest.temperature, sandstone.hottest.temperature);
  EXPECT_GT(chips(stony), 100.0 * chips(sandstone));
}

// At one depth of cut the means by share are those of even rock: 0.5 x 10 + 0.5 x 165 = 87.5 MPa, and by the
// load that each carries the wear of one Cerchar index; the modulus gives the same mobilisation.
TEST(Stones, ActOnForceHeatAndWearLikeEvenRockOfTheirMeans) {
  const double mean = 87.5e6, on_stones = 0.5 * 165e6 / mean;
  const double scratches = (1.0 - on_stones) * std::pow(3.0, 1.5) + on_stones * std::pow(3.5, 1.5);
  const RunOutcome stony = drilled(gravel());
  const RunOutcome even = drilled(samples::invented_rock("even", mean, std::pow(scratches, 1.0 / 1.5)));
  EXPECT_NEAR(stony.rotating_time / even.rotating_time, 1.0, 1e-9);
  EXPECT_NEAR(stony.energy / even.energy, 1.0, 1e-9);
  EXPECT_NEAR(stony.hottest.temperature, even.hottest.temperature, 1e-5);
  for (Eigen::Index i = 0; i < stony.end.worn_height.size(); ++i)
    EXPECT_NEAR(stony.end.worn_height(i) / even.end.worn_height(i), 1.0, 1e-8) << i;
}

TEST(Stones, MoreOfThemSlowTheBitAndWearItMore) {
  double last_rate = 1e300, last_wear = 0.0;
  for (const double share : {0.25, 0.4, 0.6, 0.8}) {
    const RunOutcome outcome = drilled(gravel(share), 1.0);
    EXPECT_LT(outcome.passages[0].mean_rate_of_penetration, last_rate) << share;
    EXPECT_GT(outcome.passages[0].greatest_wear_gain, last_wear) << share;
    last_rate = outcome.passages[0].mean_rate_of_penetration;
    last_wear = outcome.passages[0].greatest_wear_gain;
  }
}

TEST(Stones, LeaveTheLedgerOfEnergyClosed) {
  const RunOutcome stony = drilled(gravel());
  EXPECT_LT(std::abs(stony.energy_residual), 1e-6 * stony.energy);
}

/// The invented 200 mm bit with edges as the library's standard grade has them, two
/// metres in one rock under its ordinary weight.
RunOutcome in_its_rock(const scenario::RockRecord& rock, double weight, double rpm) {
  scenario::Scenario s = samples::invented_scenario();
  testing::give_one_layer(s, 2.0, rock);
  s.bit.kinds.front().grade.edge_strength = exactly(3.2e9);
  s.numbers.drilling_efficiency = exactly(0.7);
  s.plan[0].weight_on_bit = weight;
  s.plan[0].rotary_speed = rpm / 60.0;
  s.plan[0].flow *= 100.0 / 60.0;
  s.weight_limit = 1e6;
  s.repeat.connection_every = 50.0;
  return run(s);
}

// Common practice: hard and broken rock chips cutters, about as often as it wears them; soft rock does
// neither. At the weights that each asks for.
TEST(Chips, ComeOftenerTheHarderTheRockAtItsOrdinaryWeight) {
  struct Case {
    const char* name;
    double strength, abrasivity, weight, rpm;
  };
  double last = std::numeric_limits<double>::infinity();
  for (const Case& c : {Case{"granite", 180e6, 4.3, 53e3, 85}, Case{"hard sandstone", 135e6, 3.5, 43e3, 110},
                        Case{"limestone", 80e6, 1.0, 31e3, 110}, Case{"sandstone", 50e6, 2.5, 24e3, 110},
                        Case{"shale", 30e6, 0.5, 20e3, 120}}) {
    const double found =
        chips(in_its_rock(samples::invented_rock(c.name, c.strength, c.abrasivity), c.weight, c.rpm));
    EXPECT_GT(found, 0.0);
    EXPECT_LT(3.0 * found, last) << c.name;
    last = found;
  }
  const double granite = chips(in_its_rock(samples::invented_rock("granite", 180e6, 4.3), 53e3, 85));
  EXPECT_GT(chips(in_its_rock(gravel(), 24e3, 85)), granite);
}

// One weight for all, too light for granite: it skims there, and still chips oftener than soft rock.
TEST(Chips, ComeOftenerInHarderRockUnderOneLightWeightToo) {
  const auto at = [](double strength) {
    return chips(in_its_rock(samples::invented_rock("rock", strength, 2.0), 31e3, 90));
  };
  const double granite = at(180e6), sandstone = at(50e6), shale = at(30e6);
  EXPECT_GT(granite, sandstone);
  EXPECT_GT(sandstone, shale);
}

TEST(Chips, ComeSeldomerTheSteeperTheBevel) {
  for (const bool stony : {true, false}) {
    double last = std::numeric_limits<double>::infinity();
    for (const double bevel : {0.0, 12.0, 16.0, 20.0}) {
      scenario::Scenario s = testing::short_scenario();
      testing::give_one_layer(s, 1.0, stony ? gravel() : samples::invented_rock("granite", 180e6, 4.3));
      s.plan[0].weight_on_bit = 35e3;
      geometry::CutterShape& shape = s.bit.layout.shapes.front();
      shape.bevel_angle = bevel * samples::degree;
      // New edges: without a bevel they hone a flat of their own within a metre.
      s.numbers.abrasion_coefficient = exactly(1e-22);
      s.repeat.connection_time = 0.0;
      const double found = chips(run(s));
      EXPECT_LT(found, last) << bevel;
      last = found;
    }
  }
}

TEST(Chips, ComeOftenerWhereTheBitIsDroppedOnBottom) {
  const auto dropped = [](double overload, double connection_time) {
    scenario::Scenario s = testing::short_scenario();  // two stops for rods
    s.numbers.touch_down_overload = exactly(overload);
    s.repeat.connection_time = connection_time;
    return chips(run(s));
  };
  const double set_down = dropped(1.5, 120.0), never_lifted = dropped(1.5, 0.0);
  EXPECT_GT(set_down, never_lifted);
  EXPECT_GT(dropped(6.0, 120.0), 1.5 * set_down);
}

}  // namespace
}  // namespace dullcast::simulation
