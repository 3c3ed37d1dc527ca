#include "engine/shop/event_loop.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace dullcast::shop {

void EventLoop::at(Instant t, Action action) {
  if (std::isnan(t) || (std::isinf(t) && t > 0.0)) return;
  waiting_.push({std::max(t, now_), put_down_++, std::move(action)});
}

void EventLoop::run_until(Instant end) {
  while (!waiting_.empty() && waiting_.top().t <= end) {
    const Entry next = waiting_.top();
    waiting_.pop();
    now_ = next.t;
    next.action();
  }
  now_ = std::max(now_, end);
}

}  // namespace dullcast::shop
