#include "engine/shop/bench_queue.hpp"

#include <algorithm>
#include <limits>
#include <stdexcept>
#include <utility>

namespace dullcast::shop {
namespace {

constexpr Instant not_yet = std::numeric_limits<double>::infinity();

}  // namespace

BenchQueue::BenchQueue(EventLoop& loop, int benches, const WorkCalendar& open, Urgency urgency)
    : loop_(loop), free_(benches), open_(open), urgency_(std::move(urgency)) {
  if (benches < 1) throw std::invalid_argument("a station has one bench at least");
}

void BenchQueue::arrive(int who, double work, EventLoop::Action begun, EventLoop::Action done) {
  visits_.push_back({who, loop_.now(), not_yet, not_yet});
  waiting_.push_back({visits_.size() - 1, work, std::move(begun), std::move(done)});
  take_next();
}

void BenchQueue::take_next() {
  const Instant now = loop_.now();
  if (waiting_.empty() || free_ == 0) return;
  if (!open_.open_at(now)) {
    const Instant opens = open_.next_open(now);
    if (opens == wakes_at_) return;
    wakes_at_ = opens;
    loop_.at(opens, [this] { take_next(); });
    return;
  }
  while (free_ > 0 && !waiting_.empty()) {
    auto next = waiting_.begin();
    if (urgency_) {
      double least = urgency_(visits_[next->visit].who);
      for (auto other = std::next(next); other != waiting_.end(); ++other) {
        const double urgency = urgency_(visits_[other->visit].who);
        if (urgency < least) {
          least = urgency;
          next = other;
        }
      }
    }
    Waiting taken = std::move(*next);
    waiting_.erase(next);
    --free_;
    const Instant ends = open_.done(now, taken.work);
    visits_[taken.visit].begun = now;
    if (taken.begun) taken.begun();
    loop_.at(ends, [this, visit = taken.visit, ended = std::move(taken.done)] {
      visits_[visit].done = loop_.now();
      ++free_;
      if (ended) ended();
      take_next();
    });
  }
}

double mean_waiting(const std::vector<BenchVisit>& visits, Instant from, Instant to) {
  if (!(to > from)) return 0.0;
  double waited = 0.0;
  for (const BenchVisit& visit : visits)
    waited += std::max(0.0, std::min(visit.begun, to) - std::max(visit.arrived, from));
  return waited / (to - from);
}

}  // namespace dullcast::shop
