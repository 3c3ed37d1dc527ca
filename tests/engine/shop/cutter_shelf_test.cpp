#include "engine/shop/cutter_shelf.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace dullcast::shop {
namespace {

CutterStock stock(int on_hand, int reorder_at, int order) {
  CutterStock kind;
  kind.on_hand = on_hand;
  kind.reorder_at = reorder_at;
  kind.order = order;
  return kind;
}

double ten_days(std::size_t, int) {
  return 10.0;
}

TEST(CutterShelf, WhoComesWhenThereIsEnoughHasThemAtOnce) {
  EventLoop loop;
  const std::vector<CutterStock> kinds{stock(10, -100, 5)};
  CutterShelf shelf(loop, kinds, ten_days);
  bool got = false;
  shelf.take(0, {4}, [&] { got = true; });
  EXPECT_TRUE(got);
  EXPECT_EQ(shelf.on_hand()[0], 6);
}

TEST(CutterShelf, OrdersAtItsPointAndServesWhoWaitsInTurn) {
  EventLoop loop;
  const std::vector<CutterStock> kinds{stock(10, 4, 8)};
  CutterShelf shelf(loop, kinds, ten_days);
  loop.at(0.0, [&] { shelf.take(0, {7}, [] {}); });  // 3 left, at or below 4: 8 are ordered
  loop.at(1.0, [&] { shelf.take(1, {9}, [] {}); });  // waits; 3 + 8 - 9 = 2: 8 more are ordered
  loop.at(2.0, [&] { shelf.take(2, {1}, [] {}); });  // would find one, but who came first has the claim
  loop.run_until(100.0);
  EXPECT_EQ(shelf.takes()[0].got, 0.0);
  EXPECT_EQ(shelf.takes()[1].got, 10.0);
  EXPECT_EQ(shelf.takes()[2].got, 10.0);
  // 10 + 8 + 8 - 17, and what the third ordering brought: after it 9 lie there, above the point.
  EXPECT_EQ(shelf.on_hand()[0], 9);
  EXPECT_EQ(shelf.least()[0], 1);
}

TEST(CutterShelf, WhoNeedsAnotherKindPasses) {
  EventLoop loop;
  const std::vector<CutterStock> kinds{stock(0, -100, 0), stock(5, -100, 0)};
  CutterShelf shelf(loop, kinds, ten_days);
  int got = 0;
  shelf.take(0, {2, 1}, [&] { got += 1; });
  shelf.take(1, {0, 1}, [&] { got += 10; });  // that kind is claimed by who came first
  shelf.take(2, {0, 0}, [&] { got += 100; });
  loop.run_until(100.0);
  EXPECT_EQ(got, 100);
  EXPECT_TRUE(std::isinf(shelf.takes()[0].got));
}

TEST(CutterShelf, AnOrderIsRepeatedUntilItCoversWhatIsWanted) {
  EventLoop loop;
  const std::vector<CutterStock> kinds{stock(2, 3, 5)};
  CutterShelf shelf(loop, kinds, [](std::size_t, int order) { return 10.0 + order; });
  loop.at(0.0, [&] { shelf.take(0, {14}, [] {}); });  // 2 - 14 = -12: four times 5 bring it to 8
  loop.run_until(12.5);
  EXPECT_EQ(shelf.takes()[0].got, 12.0);  // with the third: 17
  EXPECT_EQ(shelf.on_hand()[0], 3);
  loop.run_until(20.0);
  EXPECT_EQ(shelf.on_hand()[0], 8);
}

}  // namespace
}  // namespace dullcast::shop
