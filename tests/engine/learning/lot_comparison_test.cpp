#include "engine/learning/lot_comparison.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "engine/learning/planted_shelf.hpp"

namespace dullcast::learning {
namespace {

scenario::ShelvedBit bit_of(const std::string& lot) {
  scenario::ShelvedBit bit;
  bit.run = testing::fleet_run(1);
  bit.found.lot = lot;
  return bit;
}

double chips_expected(const PredictedBit& bit, Eigen::Index cutters) {
  return (1.0 - (-bit.logs.col(chip_hazard).exp()).exp()).head(cutters).sum();
}

TEST(LotComparison, CountsWhatEachRecordTells) {
  const PredictedBit predicted = predict(testing::fleet_run(1));
  const double all = chips_expected(predicted, 7);
  std::vector<scenario::ShelvedBit> shelf{bit_of("spring"), bit_of("autumn"), bit_of("spring"), bit_of("")};
  shelf[0].found.chipped = 3;
  shelf[1].found.cutters.resize(7);
  shelf[1].found.cutters[0].chipped = true;
  shelf[1].found.cutters[1].lost = true;
  shelf[2].found.cutters.resize(7);  // nobody looked for breakage
  shelf[2].found.breakage_noted = false;
  shelf[3].found.lost = 0;
  const std::vector<LotRecordSeen> lots = lots_of(shelf, 2);
  ASSERT_EQ(lots.size(), 3U);
  EXPECT_EQ(lots[0].lot, "spring");
  EXPECT_EQ(lots[0].bits, 1);
  EXPECT_EQ(lots[0].chips.seen, 3);
  EXPECT_NEAR(lots[0].chips.expected, all, 1e-12);
  EXPECT_EQ(lots[0].lost.expected, 0.0);
  EXPECT_EQ(lots[1].chips.seen, 1);
  EXPECT_EQ(lots[1].lost.seen, 1);
  // A cutter that is gone tells nothing of its edge.
  const double of_gone = chips_expected(predicted, 2) - chips_expected(predicted, 1);
  EXPECT_NEAR(lots[1].chips.expected, all - of_gone, 1e-12);
  EXPECT_EQ(lots[2].lot, "sound");
  EXPECT_EQ(lots[2].chips.expected, 0.0);
  EXPECT_GT(lots[2].lost.expected, 0.0);
}

/// One measure for all: a record whose scenario says the lot is poor is not thereby expected to chip more.
TEST(LotComparison, EveryLotIsHeldAgainstASoundOne) {
  std::vector<scenario::ShelvedBit> shelf{bit_of("a"), bit_of("b")};
  for (scenario::ShelvedBit& bit : shelf) bit.found.chipped = 1;
  shelf[1].run.bit.lot.edge_share = samples::exactly(0.7);
  shelf[1].run.bit.lot.strength_spread = samples::exactly(0.6);
  for (scenario::ShelvedBit& bit : shelf) bit.found.lost = 0;
  const std::vector<LotRecordSeen> lots = lots_of(shelf, 1);
  EXPECT_GT(predict(shelf[1].run).logs.col(chip_hazard).sum(),
            predict(shelf[0].run).logs.col(chip_hazard).sum());
  EXPECT_EQ(lots[0].chips.expected, lots[1].chips.expected);
  EXPECT_EQ(lots[0].lost.expected, lots[1].lost.expected);
}

}  // namespace
}  // namespace dullcast::learning
