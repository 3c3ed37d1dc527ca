#include "engine/analysis/suitability.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "engine/simulation/run.hpp"
#include "models/common/constants.hpp"
#include "support/short_scenario.hpp"

namespace dullcast::analysis {
namespace {

constexpr double celsius = celsius_zero;

/// A pass of a layer that gives nobody a headache: 10 m/h, 120 C, 1 um of wear a metre.
simulation::LayerPassage easy_pass(int hole, int layer, double top, double bottom) {
  simulation::LayerPassage pass;
  pass.hole = hole;
  pass.layer = layer;
  pass.top = top;
  pass.bottom = bottom;
  pass.rotating_time = (bottom - top) * 360.0;
  pass.mean_rate_of_penetration = 1.0 / 360.0;
  pass.hottest_flat = 120.0 + celsius;
  pass.greatest_wear_gain = 1e-6 * (bottom - top);
  pass.greatest_load_share = 0.3;
  pass.mean_solids_fraction = 0.05;
  return pass;
}

/// The short scenario's two layers, 0 to 3 m and 3 to 5 m.
simulation::RunOutcome easy_run() {
  simulation::RunOutcome outcome;
  outcome.holes_finished = 1;
  outcome.passages = {easy_pass(0, 0, 0.0, 3.0), easy_pass(0, 1, 3.0, 5.0)};
  return outcome;
}

scenario::Scenario two_layers() {
  scenario::Scenario s = testing::short_scenario();
  s.rules.worn_height = 2e-3;
  return s;
}

Verdict verdict_with(void (*spoil)(simulation::LayerPassage&)) {
  simulation::RunOutcome outcome = easy_run();
  spoil(outcome.passages[1]);
  const auto layers = suitability(two_layers(), outcome);
  EXPECT_EQ(layers.at(0).verdict, Verdict::go);
  return layers.at(1).verdict;
}

TEST(Suitability, EasyGroundIsGo) {
  for (const LayerSuitability& layer : suitability(two_layers(), easy_run())) {
    EXPECT_EQ(layer.verdict, Verdict::go);
    EXPECT_TRUE(layer.findings.empty());
    // 2 mm at 1 um a metre.
    EXPECT_NEAR(layer.metres_to_allowance, 2000.0, 1e-9);
    EXPECT_EQ(reasons(layer, base::ShownUnits::si).size(), 2U);
  }
}

/// 350 C and 700 C: Glowka & Stone, SPE J. 25(2), 1985.
TEST(Suitability, HeatAsksForCareAt350AndForbidsAt700) {
  EXPECT_EQ(verdict_with([](simulation::LayerPassage& p) { p.hottest_flat = 349.9 + celsius; }), Verdict::go);
  EXPECT_EQ(verdict_with([](simulation::LayerPassage& p) { p.hottest_flat = 350.1 + celsius; }),
            Verdict::with_care);
  EXPECT_EQ(verdict_with([](simulation::LayerPassage& p) { p.hottest_flat = 699.9 + celsius; }),
            Verdict::with_care);
  EXPECT_EQ(verdict_with([](simulation::LayerPassage& p) { p.hottest_flat = 700.1 + celsius; }),
            Verdict::wrong_bit);
}

TEST(Suitability, WearIsHeldAgainstMetresToTheAllowance) {
  // Over 2 m: the allowance of 2 mm in 510, 490, 110 and 90 m.
  EXPECT_EQ(verdict_with([](simulation::LayerPassage& p) { p.greatest_wear_gain = 4e-3 / 510.0; }),
            Verdict::go);
  EXPECT_EQ(verdict_with([](simulation::LayerPassage& p) { p.greatest_wear_gain = 4e-3 / 490.0; }),
            Verdict::with_care);
  EXPECT_EQ(verdict_with([](simulation::LayerPassage& p) { p.greatest_wear_gain = 4e-3 / 110.0; }),
            Verdict::with_care);
  EXPECT_EQ(verdict_with([](simulation::LayerPassage& p) { p.greatest_wear_gain = 4e-3 / 90.0; }),
            Verdict::wrong_bit);
}

TEST(Suitability, WithoutARuleWearIsHeldAgainstTheExposure) {
  scenario::Scenario s = two_layers();
  s.rules.worn_height.reset();
  s.rules.beyond_repair_share = 0.5;
  s.bit.layout.exposure.setConstant(6e-3);
  EXPECT_NEAR(suitability(s, easy_run())[0].metres_to_allowance, 3000.0, 1e-9);
}

TEST(Suitability, ChipsSeatsAndProgress) {
  EXPECT_EQ(verdict_with([](simulation::LayerPassage& p) { p.chip_hazard = 0.049; }), Verdict::go);
  EXPECT_EQ(verdict_with([](simulation::LayerPassage& p) { p.chip_hazard = 0.051; }), Verdict::with_care);
  EXPECT_EQ(verdict_with([](simulation::LayerPassage& p) { p.chip_hazard = 1.01; }), Verdict::wrong_bit);
  // A spread of 0.15 puts one pocket in a hundred at exp(-2.326 x 0.15) = 0.705 of the median (Phi(-2.326) =
  // 0.01, normal tables).
  EXPECT_EQ(verdict_with([](simulation::LayerPassage& p) { p.greatest_load_share = 0.70; }), Verdict::go);
  EXPECT_EQ(verdict_with([](simulation::LayerPassage& p) { p.greatest_load_share = 0.71; }),
            Verdict::with_care);
  EXPECT_EQ(verdict_with([](simulation::LayerPassage& p) { p.greatest_load_share = 1.0; }),
            Verdict::wrong_bit);
  // 2 m in 0.6 h is 3.3 m/h, in 0.7 h 2.9 m/h; in 4 h 0.5 m/h.
  EXPECT_EQ(verdict_with([](simulation::LayerPassage& p) { p.rotating_time = 0.6 * 3600.0; }), Verdict::go);
  EXPECT_EQ(verdict_with([](simulation::LayerPassage& p) { p.rotating_time = 0.7 * 3600.0; }),
            Verdict::with_care);
  EXPECT_EQ(verdict_with([](simulation::LayerPassage& p) { p.rotating_time = 4.0 * 3600.0; }),
            Verdict::wrong_bit);
}

TEST(Suitability, DirtAndSteamAskForCareButDoNotForbid) {
  for (const auto spoil : {+[](simulation::LayerPassage& p) { p.lifted_share = 0.0; },
                           +[](simulation::LayerPassage& p) { p.balling_risk = 1.0; },
                           +[](simulation::LayerPassage& p) { p.mean_solids_fraction = 0.58; },
                           +[](simulation::LayerPassage& p) { p.time_in_film = 1e4; }}) {
    EXPECT_EQ(verdict_with(spoil), Verdict::with_care);
  }
}

// The rule by which cooling asks for a flow: nine tenths lifted, and no more than 5 % of the stream.
TEST(Suitability, AFlowThatDoesNotCleanTheHoleAsksForCare) {
  EXPECT_EQ(verdict_with([](simulation::LayerPassage& p) { p.lifted_share = 0.91; }), Verdict::go);
  EXPECT_EQ(verdict_with([](simulation::LayerPassage& p) { p.lifted_share = 0.89; }), Verdict::with_care);
  scenario::Scenario s = two_layers();
  simulation::RunOutcome outcome = easy_run();
  const double hole = pi * s.bit.layout.bit_radius * s.bit.layout.bit_radius;
  s.plan[0].flow = 0.9 * 0.95 / 0.05 * hole / 360.0;  // 10 m/h in a stream of 5.5 %
  EXPECT_EQ(suitability(s, outcome)[0].verdict, Verdict::with_care);
  EXPECT_NE(
      reasons(suitability(s, outcome)[0], base::ShownUnits::field)[0].find("ft/min carries them too thick"),
      std::string::npos);
  s.plan[0].flow = 1.1 * 0.95 / 0.05 * hole / 360.0;
  EXPECT_EQ(suitability(s, outcome)[0].verdict, Verdict::go);
}

TEST(Suitability, TheWorstFindingDecidesAndIsToldFirst) {
  simulation::RunOutcome outcome = easy_run();
  outcome.passages[0].hottest_flat = 400.0 + celsius;
  outcome.passages[0].chip_hazard = 3.0;
  outcome.passages[0].greatest_chip_probability = 0.4;
  const LayerSuitability layer = suitability(two_layers(), outcome)[0];
  EXPECT_EQ(layer.verdict, Verdict::wrong_bit);
  ASSERT_EQ(layer.findings.size(), 2U);
  EXPECT_EQ(layer.findings[0].concern, Concern::chips);
  EXPECT_EQ(reasons(layer, base::ShownUnits::si)[0], "about 3 edges chip a pass (one cutter up to 40 %)");
  EXPECT_EQ(reasons(layer, base::ShownUnits::si)[1],
            "a flat reaches 400 degC, past the 350 degC from which diamond wears fast");
  EXPECT_EQ(reasons(layer, base::ShownUnits::field)[1],
            "a flat reaches 752 degF, past the 662 degF from which diamond wears fast");
}

TEST(Suitability, WhereTheBitStopsItIsTheWrongBit) {
  simulation::RunOutcome outcome = easy_run();
  outcome.holes_finished = 0;
  outcome.ended_by = simulation::EndedBy::stopped_drilling;
  const auto layers = suitability(two_layers(), outcome);
  EXPECT_EQ(layers[0].verdict, Verdict::go);
  EXPECT_EQ(layers[1].verdict, Verdict::wrong_bit);
  EXPECT_EQ(layers[1].findings[0].concern, Concern::standstill);
}

TEST(Suitability, ALayerThatWasNotReachedHasNoVerdict) {
  simulation::RunOutcome outcome = easy_run();
  outcome.passages.pop_back();
  EXPECT_EQ(suitability(two_layers(), outcome)[1].verdict, Verdict::not_reached);
}

TEST(LayerGround, PassagesOfOneLayerArePutTogether) {
  simulation::RunOutcome outcome;
  outcome.holes_finished = 2;
  for (int hole = 0; hole < 2; ++hole) {
    outcome.passages.push_back(easy_pass(hole, 0, 0.0, 1.0));
    outcome.passages.push_back(easy_pass(hole, 0, 1.0, 3.0));
    outcome.passages.push_back(easy_pass(hole, 1, 3.0, 5.0));
  }
  outcome.passages[0].chip_hazard = 0.1;
  outcome.passages[0].greatest_chip_probability = 0.1;
  outcome.passages[1].chip_hazard = 0.3;
  outcome.passages[1].greatest_chip_probability = 0.2;
  outcome.passages[1].time_in_film = 4.0;
  outcome.passages[0].time_in_film = 3.0;
  outcome.passages[1].mean_solids_fraction = 0.2;
  outcome.passages[4].lifted_share = 0.95;
  const LayerGround ground = ground_of(two_layers(), outcome)[0];
  EXPECT_EQ(ground.passes, 2);
  EXPECT_NEAR(ground.drilled, 6.0, 1e-12);
  EXPECT_NEAR(ground.chips_per_pass, 0.2, 1e-12);
  EXPECT_NEAR(ground.chip_probability, 1.0 - 0.9 * 0.8, 1e-12);
  EXPECT_NEAR(ground.time_in_film, 7.0, 1e-12);
  EXPECT_NEAR(ground.wear_per_metre, 1e-6, 1e-18);
  // 2 of 6 equally slow metres at 0.2, the rest at 0.05.
  EXPECT_NEAR(ground.solids_fraction, 0.1, 1e-12);
  EXPECT_EQ(ground.lifted_share, 0.95);
  EXPECT_NEAR(ground.mean_rate_of_penetration, 1.0 / 360.0, 1e-15);
}

TEST(LayerGround, OneChippedPassIsNotTakenForAbrasion) {
  simulation::RunOutcome outcome;
  outcome.holes_finished = 3;
  for (int hole = 0; hole < 3; ++hole) outcome.passages.push_back(easy_pass(hole, 0, 0.0, 3.0));
  outcome.passages[1].greatest_wear_gain = 0.5e-3;
  EXPECT_NEAR(ground_of(two_layers(), outcome)[0].wear_per_metre, 1e-6, 1e-18);
  outcome.passages[2].greatest_wear_gain = 0.6e-3;
  EXPECT_NEAR(ground_of(two_layers(), outcome)[0].wear_per_metre, 0.5e-3 / 3.0, 1e-15);
}

TEST(LayerGround, HolesPastReworkDoNotSpeakForTheGround) {
  simulation::RunOutcome outcome = easy_run();
  outcome.passages.push_back(easy_pass(1, 0, 0.0, 3.0));
  outcome.passages.back().hottest_flat = 900.0 + celsius;
  outcome.holes_finished = 2;
  EXPECT_NEAR(ground_of(two_layers(), outcome)[0].hottest_flat, 900.0 + celsius, 1e-9);
  outcome.rework_due = simulation::Milestone{};
  EXPECT_NEAR(ground_of(two_layers(), outcome)[0].hottest_flat, 120.0 + celsius, 1e-9);
}

TEST(Suitability, TheSameOutcomeGivesTheSameVerdicts) {
  const auto one = suitability(two_layers(), easy_run()), other = suitability(two_layers(), easy_run());
  for (std::size_t k = 0; k < one.size(); ++k) EXPECT_EQ(reasons(one[k], {}), reasons(other[k], {}));
}

/// A finding about the ground itself, not about how it was flushed.
bool about_ground(const Finding& finding) {
  return finding.concern == Concern::heat || finding.concern == Concern::wear ||
         finding.concern == Concern::chips || finding.concern == Concern::progress ||
         finding.concern == Concern::standstill || finding.concern == Concern::retention;
}

/// Rule of thumb of the trade (common practice): granite chips and burns cutters, shale is a drag bit's
/// ground. Names are swapped so that no name can decide. Granite of 180 MPa and CAI 4.5, shale of 30 MPa and
/// CAI 0.5: middles of handbook ranges (Hoek, Practical Rock Engineering; Alber et al., Rock Mech. Rock Eng.
/// 47, 2014).
TEST(Suitability, GraniteByAnyNameNeedsCareAndShaleDoesNot) {
  const auto drilled = [](const scenario::RockRecord& rock) {
    scenario::Scenario s = two_layers();
    testing::give_one_layer(s, 1.0, rock);
    s.numbers.abrasion_coefficient = samples::exactly(1e-17);
    return suitability(s, simulation::run(s))[0];
  };
  const LayerSuitability hard = drilled(samples::invented_rock("shale", 180e6, 4.5));
  const LayerSuitability soft = drilled(samples::invented_rock("granite", 30e6, 0.5));
  EXPECT_GE(hard.verdict, Verdict::with_care);
  EXPECT_TRUE(std::any_of(hard.findings.begin(), hard.findings.end(), about_ground));
  EXPECT_TRUE(std::none_of(soft.findings.begin(), soft.findings.end(), about_ground))
      << reasons(soft, base::ShownUnits::si).front();
}

/// The same rule for gravel: half its volume stones of 60 mm and 200 MPa in loose ground, drilled as the
/// loose ground alone would be.
TEST(Suitability, GravelIsWorseThanTheGroundItLiesIn) {
  const auto drilled = [](double share) {
    scenario::Scenario s = two_layers();
    scenario::RockRecord loose = samples::invented_rock("loose ground", 5e6, 1.0);
    loose.inclusion_share = samples::exactly(share);
    loose.inclusion_size = samples::exactly(0.06);
    loose.inclusion_strength = samples::exactly(200e6);
    testing::give_one_layer(s, 2.0, loose);
    s.plan[0].weight_on_bit = 5e3;
    return suitability(s, simulation::run(s))[0];
  };
  const LayerSuitability plain = drilled(0.0), stony = drilled(0.5);
  EXPECT_TRUE(std::none_of(plain.findings.begin(), plain.findings.end(), about_ground));
  EXPECT_GE(stony.verdict, Verdict::with_care);
  EXPECT_TRUE(std::any_of(stony.findings.begin(), stony.findings.end(), about_ground));
}

}  // namespace
}  // namespace dullcast::analysis
