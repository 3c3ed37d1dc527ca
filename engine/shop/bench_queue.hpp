#pragma once

#include <functional>
#include <vector>

#include "engine/shop/event_loop.hpp"

namespace dullcast::shop {

/// One bit's way through a station. Instants; `begun` and `done` are infinite until they are.
struct BenchVisit {
  int who = 0;
  Instant arrived = 0.0, begun = 0.0, done = 0.0;
};

/// Benches of one kind of work and the bits that wait for them. Whoever waits is begun on a free bench while
/// the station is open; work that is not done when a shift ends goes on in the next one, on its bench.
class BenchQueue {
 public:
  /// Who of those that wait is taken next: the one of which this is least; of equals the one that came first.
  using Urgency = std::function<double(int who)>;

  /// Keeps `loop` and `open`, which must outlive it. Throws std::invalid_argument for less than one bench.
  BenchQueue(EventLoop& loop, int benches, const WorkCalendar& open, Urgency urgency = {});

  /// `who` comes with `work` s of work; `begun` is told when it gets a bench and `done` when it leaves it.
  void arrive(int who, double work, EventLoop::Action begun, EventLoop::Action done);

  /// All visits, in the order in which they came.
  const std::vector<BenchVisit>& visits() const { return visits_; }

 private:
  struct Waiting {
    std::size_t visit;
    double work;
    EventLoop::Action begun, done;
  };
  void take_next();

  EventLoop& loop_;
  int free_;
  const WorkCalendar& open_;
  Urgency urgency_;
  std::vector<Waiting> waiting_;
  std::vector<BenchVisit> visits_;
  Instant wakes_at_ = -1.0;  // the opening for which take_next has been put down
};

/// Mean number that wait between two instants, by the visits' own times; 0 where the first is not before the
/// second.
double mean_waiting(const std::vector<BenchVisit>& visits, Instant from, Instant to);

}  // namespace dullcast::shop
