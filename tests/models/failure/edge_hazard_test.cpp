#include "models/failure/edge_hazard.hpp"

#include <gtest/gtest.h>

#include "models/failure/sample_edge.hpp"

namespace dullcast::failure {
namespace {

/// Three cutters of two kinds that cut rock a fifth stronger than it rests; the last is lost.
struct ThreeEdges {
  EdgeHazardLaw law;
  Eigen::ArrayXd width = Eigen::Array3d(6e-3, 8e-3, 7e-3), area = Eigen::Array3d(9e-6, 8e-6, 7e-6),
                 speed = Eigen::Array3d(0.4, 0.8, 0.9), strength = Eigen::Array3d::Constant(1.2),
                 worn = Eigen::Array3d(0.0, 0.5e-3, 0.0), T = Eigen::Array3d::Constant(400.0),
                 damage = Eigen::Array3d(0.0, 0.2, 0.0);
  Eigen::Array<bool, Eigen::Dynamic, 1> lost = Eigen::Array<bool, 3, 1>(false, false, true);
  EdgeGround ground;

  ThreeEdges() {
    law.kinds = {{testing::chip_law, testing::cutter(), 500.0},
                 {testing::chip_law, testing::cutter(20.0), 400.0}};
    law.kinds[1].chips.edge_strength = 2.5e9;
    law.kind = Eigen::Array3i(0, 1, 1);
    law.back_rake = Eigen::Array3d(0.26, 0.3, 0.3);
    law.boundary_undulation = 0.02;
    ground.strength = 60e6;
    ground.impedance = 1e7;
    ground.inclusions = testing::gravel;
    ground.factors = {2.0, 3.0};
  }
  EdgeCuts cuts() const { return {width, area, speed, strength}; }
  EdgeStates states() const { return {worn, T, damage, lost}; }
  EdgeImpacts impacts(Eigen::Index i) const {
    EdgeImpacts one{width(i), area(i) / width(i), speed(i), 1.2 * 60e6, testing::gravel, 1e7};
    one.inclusions.strength *= 1.2;
    return one;
  }
};

TEST(EdgeHazard, WedgesLookedAtBeforeChangeNoRate) {
  ThreeEdges edges;
  Eigen::ArrayXd anew = Eigen::ArrayXd::Zero(3), before = anew;
  edge_hazard_rates(edges.law, edges.states(), edges.cuts(), edges.ground, anew);
  edges.law.look_at_wedges();
  ASSERT_EQ(edges.law.wedges.size(), 3u);
  ASSERT_NE(edges.states().edge(edges.law, 1).wedge, edges.states().edge(edges.law, 0).wedge);
  edge_hazard_rates(edges.law, edges.states(), edges.cuts(), edges.ground, before);
  EXPECT_TRUE((before == anew).all());
}

// Each edge by its own kind, in ground and stones as strong as they are at that speed; a lost one chips no
// more.
TEST(EdgeHazard, EachEdgeChipsByItsOwnKindInRockAsItIsCut) {
  const ThreeEdges edges;
  Eigen::ArrayXd rates = Eigen::ArrayXd::Zero(3), touch = rates;
  edge_hazard_rates(edges.law, edges.states(), edges.cuts(), edges.ground, rates);
  add_touch_down_hazards(edges.law, edges.states(), edges.cuts(), edges.ground, touch);
  for (Eigen::Index i = 0; i < 2; ++i) {
    const CuttingEdge edge{edges.law.back_rake(i), edges.worn(i), 400.0, edges.damage(i)};
    const EdgeKind& kind = edges.law.kinds[static_cast<std::size_t>(i)];
    EXPECT_EQ(rates(i),
              chip_hazard_rate(kind.chips, kind.shape, edge, edges.impacts(i), edges.ground.factors));
    EXPECT_EQ(touch(i),
              touch_down_hazard(kind.chips, kind.shape, edge, edges.impacts(i), edges.ground.factors));
    EXPECT_GT(rates(i), 0.0);
  }
  EXPECT_EQ(rates(2), 0.0);
  EXPECT_EQ(touch(2), 0.0);
}

// By hand: a bed that comes and goes over 20 mm is met in ten turns at 2 mm a turn.
TEST(EdgeHazard, AHarderBedStrikesForAsManyTurnsAsItsTopIsUneven) {
  const ThreeEdges edges;
  Eigen::ArrayXd hazards = Eigen::Array3d(0.1, 0.2, 0.3);
  add_boundary_hazards(edges.law, edges.states(), edges.cuts(), 150e6, 2e-3, hazards);
  for (Eigen::Index i = 0; i < 2; ++i) {
    const CuttingEdge edge{edges.law.back_rake(i), edges.worn(i), 400.0, edges.damage(i)};
    const EdgeKind& kind = edges.law.kinds[static_cast<std::size_t>(i)];
    const double blows = boundary_hazard(kind.chips, kind.shape, edge, edges.area(i) / edges.width(i),
                                         1.2 * 150e6, edges.speed(i), 10.0);
    EXPECT_NEAR(hazards(i), (i == 0 ? 0.1 : 0.2) + blows, 1e-15);
    EXPECT_GT(blows, 0.0);
  }
  EXPECT_EQ(hazards(2), 0.3);
  add_boundary_hazards(edges.law, edges.states(), edges.cuts(), 150e6, 0.0, hazards);
  EXPECT_EQ(hazards(2), 0.3) << "off bottom nothing is met";
}

}  // namespace
}  // namespace dullcast::failure
