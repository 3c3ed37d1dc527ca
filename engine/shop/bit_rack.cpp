#include "engine/shop/bit_rack.hpp"

#include <algorithm>
#include <utility>

namespace dullcast::shop {

BitRack::BitRack(const ShopPlan& plan, const std::vector<std::size_t>& design_of)
    : plan_(plan), design_of_(design_of), served_(plan.holes.size(), false), last_rig_(design_of.size()) {}

bool BitRack::named_later(std::size_t bit, std::size_t hole) const {
  for (std::size_t h = 0; h < plan_.holes.size(); ++h) {
    if (h != hole && !served_[h] && plan_.holes[h].bit == bit) return true;
  }
  return false;
}

bool BitRack::suits(std::size_t bit, std::size_t hole) const {
  const BookedHole& asked = plan_.holes[hole];
  if (asked.bit) return *asked.bit == bit;
  return asked.design == design_of_[bit] && !named_later(bit, hole);
}

void BitRack::ask(std::size_t hole, Got got) {
  const auto later = [this](std::size_t one, const Request& other) { return one < other.hole; };
  // Holes stand in the plan by booked start.
  requests_.insert(std::upper_bound(requests_.begin(), requests_.end(), hole, later), {hole, std::move(got)});
  match();
}

void BitRack::ready(std::size_t bit) {
  ready_.push_back(bit);
  match();
}

void BitRack::match() {
  for (std::size_t r = 0; r < requests_.size();) {
    const std::size_t hole = requests_[r].hole;
    auto best = ready_.end();
    for (auto bit = ready_.begin(); bit != ready_.end(); ++bit) {
      if (!suits(*bit, hole)) continue;
      if (best == ready_.end()) best = bit;
      if (last_rig_[*bit] == plan_.holes[hole].rig) {
        best = bit;
        break;
      }
    }
    if (best == ready_.end()) {
      ++r;
      continue;
    }
    const std::size_t bit = *best;
    const Got got = std::move(requests_[r].got);
    ready_.erase(best);
    requests_.erase(requests_.begin() + static_cast<std::ptrdiff_t>(r));
    served_[hole] = true;
    got(bit);
    r = 0;  // whoever got one may have asked for another
  }
}

Instant BitRack::needed(std::size_t bit) const {
  for (std::size_t h = 0; h < plan_.holes.size(); ++h) {
    if (!served_[h] && suits(bit, h)) return plan_.holes[h].booked;
  }
  return never;
}

}  // namespace dullcast::shop
