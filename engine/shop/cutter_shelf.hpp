#pragma once

#include <functional>
#include <vector>

#include "engine/shop/event_loop.hpp"
#include "engine/shop/shop_plan.hpp"

namespace dullcast::shop {

/// One bit's wish for new cutters. `got` is infinite until it has them.
struct CutterTake {
  int who = 0;
  Instant asked = 0.0, got = 0.0;
  std::vector<int> cutters;  // of each kind of stock
};

/// The shelf of new cutters. A bit takes all that it needs at once. Whoever came first has the first claim to
/// a kind that is short; bits that need only other kinds pass.
class CutterShelf {
 public:
  /// s until order number `order` (from 0) of a kind comes.
  using LeadTime = std::function<double(std::size_t kind, int order)>;

  /// Keeps `loop` and `kinds`, which must outlive it.
  CutterShelf(EventLoop& loop, const std::vector<CutterStock>& kinds, LeadTime lead_time);

  /// Asks for cutters, one number a kind of stock; `got` is told when they are in the hand, which may be at
  /// once. Orders what comes down to its point of ordering, as often as it takes.
  void take(int who, std::vector<int> cutters, EventLoop::Action got);

  const std::vector<CutterTake>& takes() const { return takes_; }
  /// Fewest that were ever in the hand, one a kind.
  const std::vector<int>& least() const { return least_; }
  const std::vector<int>& on_hand() const { return on_hand_; }

 private:
  struct Waiting {
    std::size_t take;
    EventLoop::Action got;
  };
  void reorder();
  void serve();

  EventLoop& loop_;
  const std::vector<CutterStock>& kinds_;
  LeadTime lead_time_;
  std::vector<int> on_hand_, on_order_, wanted_, orders_, least_;
  std::vector<Waiting> waiting_;
  std::vector<CutterTake> takes_;
};

}  // namespace dullcast::shop
