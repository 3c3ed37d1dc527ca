#pragma once

#include <cstdint>
#include <string_view>

#include "engine/shop/shop_plan.hpp"

namespace dullcast::shop {

/// What chance holds for one future. Every draw is by counter from (seed, future, what it is for, which), so
/// that a change of the plan leaves all that it does not touch as it was: futures with and without it are
/// compared one by one.
class FutureLuck {
 public:
  FutureLuck(std::int64_t seed, int future) : seed_(seed), future_(future) {}

  /// s that the task, or one piece of it, takes at a station on a bit's visit to the shop (from 0).
  double task(const Duration& task, std::size_t station, std::size_t bit, int visit) const;
  double piece(const Duration& piece, std::size_t station, std::size_t bit, int visit) const;
  /// s until a delivery: order number `order` of a kind of cutter; the bit that takes a scrapped one's place.
  double cutters(const Duration& lead_time, std::size_t kind, int order) const;
  double new_bit(const Duration& lead_time, std::size_t bit, int generation) const;

  /// A library number's place in its spread, normal, its 90 % point at 1: the same in every hole of a future.
  double number(std::string_view name) const;
  /// The same of how one bit wears beside its like.
  double bit_to_bit(std::size_t bit, int generation) const;
  /// Seed of a bit's strengths and chips; another after each rework, which brazes it anew.
  std::int64_t bit_seed(std::size_t bit, int generation, int reworks) const;

 private:
  enum class Purpose : std::uint64_t { task = 1, piece, cutters, new_bit, number, bit_to_bit, bit_seed };
  std::uint64_t stream(Purpose purpose, std::uint64_t a) const;
  double normal(Purpose purpose, std::uint64_t a, std::uint64_t counter) const;
  double uniform(Purpose purpose, std::uint64_t a, std::uint64_t b, std::uint64_t c) const;
  double duration(const Duration& duration, Purpose purpose, std::uint64_t a, std::uint64_t b,
                  std::uint64_t c) const;

  std::int64_t seed_;
  int future_;
};

}  // namespace dullcast::shop
