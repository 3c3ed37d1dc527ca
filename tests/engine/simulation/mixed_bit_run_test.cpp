// Bits with several kinds of cutter and with side rake: each cutter runs by its own kind, and nothing else
// changes.

#include <gtest/gtest.h>

#include <cmath>

#include "engine/simulation/bench.hpp"
#include "engine/simulation/drawn_strengths.hpp"
#include "engine/simulation/random_states.hpp"
#include "engine/simulation/run.hpp"
#include "support/numbers.hpp"
#include "support/short_scenario.hpp"

namespace dullcast::simulation {
namespace {

using testing::degree;

/// The short scenario's bit with a second kind of cutter at the given places, the same as the first.
scenario::Scenario with_second_kind(std::initializer_list<int> cutters) {
  scenario::Scenario s = testing::short_scenario();
  s.bit.layout.shapes.push_back(s.bit.layout.shapes.front());
  s.bit.kinds.push_back({"second", s.bit.kinds.front().grade});
  s.bit.kinds.back().grade.name = "second grade";
  for (const int i : cutters) s.bit.layout.kind(i) = 1;
  return s;
}

/// Positive looks outward. With its nose near the axis the bit is mostly shoulder, with it near gauge mostly
/// cone.
scenario::Scenario with_side_rake(double side_rake, double nose_share = 0.2) {
  scenario::Scenario s = testing::short_scenario();
  geometry::BladePlan plan = samples::invented_blade_plan();
  plan.bit_diameter = 0.12;
  plan.cutters_per_blade.resize(3);
  plan.cutters_per_blade << 3, 2, 2;
  plan.nose_share = nose_share;
  plan.side_rake = side_rake;
  testing::give_layout(s, plan, s.bit.layout.shapes.front());
  s.plan[0].weight_on_bit = 10e3;
  return s;
}

TEST(MixedBit, TwoKindsThatAreTheSameDrillAsOneToTheLastBit) {
  const RunOutcome one = run(testing::short_scenario()), two = run(with_second_kind({1, 4, 6}));
  EXPECT_EQ(one.steps, two.steps);
  EXPECT_EQ(one.rotating_time, two.rotating_time);
  EXPECT_TRUE((one.end.worn_height == two.end.worn_height).all());
  EXPECT_TRUE((one.end.heat_damage == two.end.heat_damage).all());
  EXPECT_TRUE((one.end.chip_hazard == two.end.chip_hazard).all());
  EXPECT_TRUE((one.end.bond_load == two.end.bond_load).all());
}

// Each number of the second kind's shape and grade moves its own cutter: what it moves is told beside it.
TEST(MixedBit, EachCutterRunsByItsOwnKind) {
  constexpr int own = 4;
  const RunOutcome even = run(with_second_kind({own}));
  const auto changed =
      [&](const std::function<void(geometry::CutterShape&, scenario::GradeRecord&)>& change) {
        scenario::Scenario s = with_second_kind({own});
        change(s.bit.layout.shapes[1], s.bit.kinds[1].grade);
        return run(s);
      };
  // Ratio of one cutter's number to what it was before.
  const auto ratio = [&](const RunOutcome& now, Eigen::ArrayXd BitCondition::*of, int cutter) {
    return (now.end.*of)(cutter) / (even.end.*of)(cutter);
  };
  const auto tough = changed([](auto&, auto& grade) { grade.wear_resistance = samples::exactly(2.0); });
  EXPECT_NEAR(ratio(tough, &BitCondition::worn_height, own), 0.5, 0.01);
  EXPECT_NEAR(ratio(tough, &BitCondition::worn_height, own - 1), 1.0, 0.02)
      << "it stands out a little further";
  const auto keen = changed([](auto&, auto& grade) { grade.edge_strength = samples::exactly(9e9); });
  EXPECT_NEAR(ratio(keen, &BitCondition::chip_hazard, own), std::pow(0.5, 10), 1e-6);
  EXPECT_EQ(ratio(keen, &BitCondition::chip_hazard, own - 1), 1.0);
  const auto bonded = changed([](auto&, auto& grade) { grade.bond_strength = samples::exactly(800e6); });
  EXPECT_NEAR(ratio(bonded, &BitCondition::bond_load, own), 0.5, 1e-12);
  EXPECT_EQ(ratio(bonded, &BitCondition::bond_load, own - 1), 1.0);
  const auto poor = changed([](auto&, auto& grade) { grade.table_conductivity = samples::exactly(100.0); });
  EXPECT_GT(poor.history.rows.back().flat_temperature(own),
            even.history.rows.back().flat_temperature(own) + 1.0);
  EXPECT_NEAR(poor.history.rows.back().flat_temperature(own - 1),
              even.history.rows.back().flat_temperature(own - 1), 0.1);
  const auto thick = changed([](auto& shape, auto&) { shape.length = 13e-3; });
  EXPECT_LT(ratio(thick, &BitCondition::pocket_load, own), 0.9) << "more of it is brazed in";
  EXPECT_NEAR(ratio(thick, &BitCondition::pocket_load, own - 1), 1.0, 0.02);
  const auto blunt = changed([](auto& shape, auto&) { shape.bevel_width = 0.8e-3; });
  const HistoryRow &a = blunt.history.rows.front(), &b = even.history.rows.front();
  EXPECT_GT(a.contact_force(own), 1.2 * b.contact_force(own)) << "its land is wider";
  EXPECT_LT(a.depth_of_cut, b.depth_of_cut);
}

/// The scenario's bit with every cutter worn by half a millimetre.
scenario::Scenario worn(scenario::Scenario s) {
  const Eigen::Index n = s.bit.layout.count();
  s.bit.starting_wear.setConstant(0.5e-3);
  s.bit.starting_chip_hazard = Eigen::ArrayXd::Constant(n, 0.1);
  s.bit.starting_lost = s.bit.starting_table_gone = s.bit.starting_chipped = Eigen::ArrayXi::Zero(n);
  return s;
}

// On a bit whose cutters overlap, at one depth of cut.
TEST(MixedBit, ANewCutterAmongWornOnesStandsOutAndCutsAndWearsMore) {
  constexpr int own = 8;
  scenario::Scenario s = worn(samples::invented_scenario());
  testing::give_one_layer(s, 1.5, samples::invented_rock("limestone", 80e6, 1.0));
  s.repeat.connection_time = 0.0;
  s.plan[0].feed_limit = 10.0 / 3600.0;
  scenario::Scenario mixed = s;
  mixed.bit.starting_wear(own) = mixed.bit.starting_chip_hazard(own) = 0.0;
  const RunOutcome even = run(s), rebuilt = run(mixed);
  const HistoryRow &a = even.history.rows.front(), &b = rebuilt.history.rows.front();
  EXPECT_EQ(b.worn_height(own), 0.0);
  EXPECT_NEAR(b.depth_of_cut, a.depth_of_cut, 1e-9);
  EXPECT_GT(b.area_of_cut(own), 1.1 * a.area_of_cut(own)) << "it takes what its neighbours leave";
  for (const int beside : {own - 1, own + 1})
    EXPECT_LT(b.area_of_cut(beside), a.area_of_cut(beside)) << beside;
  EXPECT_GT(rebuilt.end.worn_height(own), even.end.worn_height(own) - 0.5e-3);
}

TEST(MixedBit, AnEdgeThatStartsChippedIsCountedAndChipsNextByItsNextAllowance) {
  constexpr int own = 3;
  const scenario::Scenario sound = worn(testing::short_scenario());
  scenario::Scenario chipped = sound;
  chipped.bit.starting_chipped(own) = 1;
  const RunOutcome one = run(sound), other = run(chipped);
  EXPECT_EQ(one.end.chips.sum(), 0);
  EXPECT_EQ(other.end.chips.sum(), 1);
  EXPECT_EQ(other.end.chips(own), 1);
  EXPECT_TRUE((one.end.worn_height == other.end.worn_height).all()) << "the flat is what the scenario states";
  chipped.random_events = {true, 5};
  chipped.bit.kinds.front().grade.edge_strength = samples::exactly(1.2e9);
  const RunOutcome drawn = run(chipped);
  ASSERT_GT(drawn.end.chips(own), 1);
  double allowed = 0.1;
  for (int k = 1; k < drawn.end.chips(own); ++k) allowed += chip_allowance(chipped.random_events, own, k);
  EXPECT_GE(drawn.end.chip_hazard(own), allowed - 1e-8);
  EXPECT_LE(drawn.end.chip_hazard(own),
            allowed + chip_allowance(chipped.random_events, own, drawn.end.chips(own)) + 1e-8);
}

TEST(MixedBit, TheLedgerClosesWithTwoSizesAndSideRake) {
  scenario::Scenario s = with_side_rake(12.0 * degree);
  s.bit.layout.shapes.push_back({8e-3, 13e-3, 2.5e-3, 0.2e-3, 0.5e-3, 30.0 * degree, 30e-6});
  s.bit.kinds.push_back({"large", s.bit.kinds.front().grade});
  s.bit.layout.kind << 1, 1, 0, 1, 0, 0, 0;
  s.bit.starting_wear << 1e-3, 0.2e-3, 1.5e-3, 0.0, 1e-3, 2e-3, 1e-3;
  testing::Bench bench(s);
  testing::RandomStates random(bench.system.layout(), 1.0, 2e-3);
  for (int k = 0; k < 20; ++k) EXPECT_NEAR(testing::ledger_gap(bench, random.draw()), 0.0, 1e-13) << k;
  const RunOutcome outcome = run(s);
  EXPECT_LT(std::abs(outcome.energy_residual), 1e-4 * outcome.energy);
}

// A face that looks outward sends its cuttings outward, and is pushed inward along the profile: on the
// shoulder that draws the bit down, in the cone up. Energy a volume of rock hardly changes (Coudyzer &
// Richard 2005: side rake acts barely on the forces along the travel).
TEST(SideRake, OutwardDrawsAShoulderDownAndAConeUpAndClearsTheSlots) {
  const auto first_row = [](double side_rake, double nose_share = 0.2) {
    return run(with_side_rake(side_rake, nose_share)).history.rows.front();
  };
  const auto left_of_what_is_cut = [](double side_rake) {
    const LayerPassage passage = run(with_side_rake(side_rake)).passages.front();
    return passage.mean_solids_fraction / passage.mean_rate_of_penetration;
  };
  const HistoryRow none = first_row(0.0), outward = first_row(10.0 * degree),
                   inward = first_row(-10.0 * degree);
  EXPECT_GT(outward.depth_of_cut, 1.01 * none.depth_of_cut);
  EXPECT_LT(inward.depth_of_cut, 0.99 * none.depth_of_cut);
  EXPECT_LT(first_row(10.0 * degree, 0.8).depth_of_cut, 0.99 * first_row(0.0, 0.8).depth_of_cut);
  for (const HistoryRow* row : {&outward, &inward})
    EXPECT_NEAR(row->torque / row->depth_of_cut / (none.torque / none.depth_of_cut), 1.0, 0.05);
  EXPECT_LT(left_of_what_is_cut(10.0 * degree), 0.99 * left_of_what_is_cut(0.0));
  EXPECT_GT(left_of_what_is_cut(-10.0 * degree), 1.01 * left_of_what_is_cut(0.0));
}

}  // namespace
}  // namespace dullcast::simulation
