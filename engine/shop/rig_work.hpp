#pragma once

#include <functional>
#include <limits>
#include <optional>
#include <vector>

#include "engine/shop/bit_rack.hpp"
#include "engine/shop/shop_floor.hpp"

namespace dullcast::shop {

/// One rig's holes, one after the other in the order in which they are booked, and the bits on its site.
class RigWork {
 public:
  /// Told of a bit that arrives in the shop.
  using SentBack = std::function<void(std::size_t bit)>;

  /// Keeps all of them.
  RigWork(FutureState& future, FutureDrill& drill, BitRack& rack, std::size_t rig, SentBack sent_back);

  /// A bit that is on site without having been asked for.
  void has(std::size_t bit);
  /// Goes on with the next hole as far as can be.
  void go_on();
  /// At the plan's end: what a rig stands for want of a bit then counts up to there.
  void close();

 private:
  struct Hole {
    std::size_t number;  // in the plan
    bool asked = false;
    std::optional<std::size_t> bit;
  };
  bool done() const { return next_ == holes_.size(); }
  bool worth_keeping_for(std::size_t hole) const;
  bool take_on_site(std::size_t k);
  void secure(std::size_t k);
  void arrives(std::size_t bit);
  void count_standing();
  void try_begin();
  void drill(std::size_t bit, double from);
  void falls_due(std::size_t bit);
  void comes_out(std::size_t bit, std::size_t hole, const HoleDrilled& drilled);
  void send_back(std::size_t bit);
  void send_back_what_is_not_wanted();

  FutureState& future_;
  FutureDrill& drill_;
  BitRack& rack_;
  const Rig& rig_;
  std::size_t number_;
  SentBack sent_back_;
  std::vector<Hole> holes_;
  std::size_t next_ = 0;              // hole that is being drilled or comes next
  std::vector<std::size_t> on_site_;  // bits fit for work
  std::optional<std::size_t> in_hole_;
  Instant free_ = 0.0;                                      // since when the rig has nothing to do
  double from_ = std::numeric_limits<double>::quiet_NaN();  // m, of a hole begun by a bit that failed
  bool waits_to_begin_ = false;                             // a begin has been put down
};

}  // namespace dullcast::shop
