#pragma once

#include <functional>
#include <optional>
#include <vector>

#include "engine/shop/future_log.hpp"
#include "engine/shop/shop_plan.hpp"

namespace dullcast::shop {

/// Bits that are ready in the shop, and the holes that have asked for one. The hole booked first is served
/// first; it gets the bit that its rig had last, or the one that has been ready for longest. A bit that a
/// hole names goes to no other hole while that one is still to come.
class BitRack {
 public:
  /// Told of the bit that a hole gets.
  using Got = std::function<void(std::size_t bit)>;

  /// `design_of` each bit, the added ones too. Keeps both.
  BitRack(const ShopPlan& plan, const std::vector<std::size_t>& design_of);

  /// Whether the hole may be drilled with that bit.
  bool suits(std::size_t bit, std::size_t hole) const;
  void ask(std::size_t hole, Got got);
  void ready(std::size_t bit);
  /// A hole has its bit, from the rack or elsewhere, or lost it again.
  void served(std::size_t hole, bool yes) { served_[hole] = yes; }
  /// Which rig a bit went to last.
  void went_to(std::size_t bit, std::size_t rig) { last_rig_[bit] = rig; }
  /// When a bit is needed: the booked start of the first hole that it suits and that has no bit; infinity
  /// where there is none.
  Instant needed(std::size_t bit) const;

 private:
  struct Request {
    std::size_t hole;
    Got got;
  };
  void match();
  bool named_later(std::size_t bit, std::size_t hole) const;

  const ShopPlan& plan_;
  const std::vector<std::size_t>& design_of_;
  std::vector<bool> served_;                          // holes
  std::vector<std::optional<std::size_t>> last_rig_;  // of bits
  std::vector<std::size_t> ready_;                    // in the order in which they became so
  std::vector<Request> requests_;                     // by booked start
};

}  // namespace dullcast::shop
