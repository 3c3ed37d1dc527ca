#pragma once

#include <cstdint>
#include <functional>
#include <queue>
#include <vector>

#include "engine/shop/work_calendar.hpp"

namespace dullcast::shop {

/// Things that happen in order of time, and of those at one time in the order in which they were put down: so
/// that a future is the same whenever it is run again. Our own, for there is no well-kept library of discrete
/// events to be had with the system, and forty lines are all that the shop needs of one.
class EventLoop {
 public:
  using Action = std::function<void()>;

  Instant now() const { return now_; }
  /// Puts down what is to happen at t. What lies in the past happens now; what lies at infinity, or at no
  /// time that is a number, never does.
  void at(Instant t, Action action);
  /// Lets everything up to `end` happen, that itself included, and whatever comes of it; then it is `end`.
  void run_until(Instant end);

 private:
  struct Entry {
    Instant t;
    std::uint64_t order;
    Action action;
    bool operator>(const Entry& other) const { return t > other.t || (t == other.t && order > other.order); }
  };
  std::priority_queue<Entry, std::vector<Entry>, std::greater<>> waiting_;
  std::uint64_t put_down_ = 0;
  Instant now_ = 0.0;
};

}  // namespace dullcast::shop
