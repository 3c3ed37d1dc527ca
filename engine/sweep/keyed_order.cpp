#include "engine/sweep/keyed_order.hpp"

#include <stdexcept>

#include "engine/run/chance.hpp"

namespace dullcast {

KeyedOrder::KeyedOrder(std::uint64_t count, std::uint64_t seed, std::uint64_t stream)
    : count_(count), seed_(seed), stream_(stream) {
  if (count == 0) throw std::domain_error("an order of nothing");
  while (half_bits_ < 31 && (std::uint64_t{1} << (2 * half_bits_)) < count) ++half_bits_;
  if ((std::uint64_t{1} << (2 * half_bits_)) < count) throw std::domain_error("an order of too many");
}

std::uint64_t KeyedOrder::once(std::uint64_t index) const {
  const std::uint64_t mask = (std::uint64_t{1} << half_bits_) - 1;
  std::uint64_t left = index >> half_bits_, right = index & mask;
  for (std::uint32_t round = 0; round < 4; ++round) {
    const auto words =
        philox4x32_10({static_cast<std::uint32_t>(right), round, static_cast<std::uint32_t>(stream_),
                       static_cast<std::uint32_t>(stream_ >> 32)},
                      {static_cast<std::uint32_t>(seed_), static_cast<std::uint32_t>(seed_ >> 32)});
    const std::uint64_t next = left ^ (words[0] & mask);
    left = right;
    right = next;
  }
  return (left << half_bits_) | right;
}

std::uint64_t KeyedOrder::operator()(std::uint64_t index) const {
  if (index >= count_) throw std::domain_error("an index outside its order");
  do {
    index = once(index);
  } while (index >= count_);
  return index;
}

}  // namespace dullcast
