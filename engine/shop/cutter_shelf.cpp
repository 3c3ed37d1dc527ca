#include "engine/shop/cutter_shelf.hpp"

#include <algorithm>
#include <limits>
#include <stdexcept>
#include <utility>

namespace dullcast::shop {

CutterShelf::CutterShelf(EventLoop& loop, const std::vector<CutterStock>& kinds, LeadTime lead_time)
    : loop_(loop), kinds_(kinds), lead_time_(std::move(lead_time)) {
  for (const CutterStock& kind : kinds) on_hand_.push_back(kind.on_hand);
  least_ = on_hand_;
  on_order_.assign(kinds.size(), 0);
  wanted_ = orders_ = on_order_;
}

void CutterShelf::take(int who, std::vector<int> cutters, EventLoop::Action got) {
  if (cutters.size() != kinds_.size()) throw std::invalid_argument("cutters are asked for kind by kind");
  for (std::size_t k = 0; k < cutters.size(); ++k) wanted_[k] += cutters[k];
  takes_.push_back({who, loop_.now(), std::numeric_limits<double>::infinity(), std::move(cutters)});
  waiting_.push_back({takes_.size() - 1, std::move(got)});
  serve();
  reorder();
}

void CutterShelf::reorder() {
  for (std::size_t k = 0; k < kinds_.size(); ++k) {
    const CutterStock& kind = kinds_[k];
    while (kind.order > 0 && on_hand_[k] + on_order_[k] - wanted_[k] <= kind.reorder_at) {
      on_order_[k] += kind.order;
      loop_.at(loop_.now() + lead_time_(k, orders_[k]++), [this, k] {
        on_order_[k] -= kinds_[k].order;
        on_hand_[k] += kinds_[k].order;
        serve();
      });
    }
  }
}

void CutterShelf::serve() {
  std::vector<bool> claimed(kinds_.size(), false);
  std::vector<Waiting> served;
  for (auto next = waiting_.begin(); next != waiting_.end();) {
    CutterTake& take = takes_[next->take];
    bool enough = true;
    for (std::size_t k = 0; k < kinds_.size(); ++k)
      enough = enough && (take.cutters[k] == 0 || (!claimed[k] && take.cutters[k] <= on_hand_[k]));
    if (!enough) {
      for (std::size_t k = 0; k < kinds_.size(); ++k) claimed[k] = claimed[k] || take.cutters[k] > 0;
      ++next;
      continue;
    }
    for (std::size_t k = 0; k < kinds_.size(); ++k) {
      on_hand_[k] -= take.cutters[k];
      wanted_[k] -= take.cutters[k];
      least_[k] = std::min(least_[k], on_hand_[k]);
    }
    take.got = loop_.now();
    served.push_back(std::move(*next));
    next = waiting_.erase(next);
  }
  // Told once the shelf is in order: whoever is told may ask again.
  for (const Waiting& one : served) one.got();
}

}  // namespace dullcast::shop
