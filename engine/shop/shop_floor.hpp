#pragma once

#include <functional>
#include <memory>
#include <vector>

#include "engine/shop/bit_life.hpp"
#include "engine/shop/future_log.hpp"

namespace dullcast::shop {

/// What the parts of one future share.
struct FutureState {
  const ShopPlan& plan;
  const Trial& trial;
  const FutureLuck& luck;
  EventLoop loop;
  std::vector<BitLife> lives;                  // the plan's bits, then the added one
  std::vector<bool> blade_sheared;             // of each
  std::vector<bool> due;                       // to be reworked when it comes in
  std::vector<condition::RepairPlan> repairs;  // what is done on it where it is in the shop
  FutureLog log;

  void place(std::size_t bit, storage::BitPlace place) { log.places[bit].push_back({loop.now(), place}); }
  /// Rules, exposures and prices by which a design's bits are looked at on the bench: those of the first hole
  /// that is booked for it; null where none is.
  const scenario::Scenario* bench_rules(std::size_t design) const;
  /// What the shop does on a bit as it is: nothing where it is not due.
  condition::RepairPlan repair_of(std::size_t bit) const;
};

/// The benches, the shelf of cutters, and bits on their way through them.
class ShopFloor {
 public:
  /// Keeps `future`, which must outlive it. `ready` is told of each bit that may go out again; `urgency` is
  /// asked where the plan takes first what is needed first.
  ShopFloor(FutureState& future, std::function<void(std::size_t bit)> ready,
            const BenchQueue::Urgency& urgency);

  /// A bit comes in. One that is due gets what the bench finds it needs, or a new bit in its place; one that
  /// is not is only looked at.
  void receive(std::size_t bit);

  /// Writes visits and cutters into the future's log.
  void close();

 private:
  void go_on(std::size_t stay, std::size_t station);
  void to_bench(std::size_t stay, std::size_t station, double work);
  void leave(std::size_t stay);
  double work_of(std::size_t stay, std::size_t station) const;
  std::vector<int> cutters_of(std::size_t bit) const;

  FutureState& future_;
  std::function<void(std::size_t)> ready_;
  std::vector<std::unique_ptr<BenchQueue>> benches_;
  CutterShelf shelf_;
  std::vector<int> visits_;  // to the shop, of each bit
};

}  // namespace dullcast::shop
