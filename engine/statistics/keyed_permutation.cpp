#include "engine/statistics/keyed_permutation.hpp"

#include <numeric>
#include <stdexcept>
#include <utility>

#include "engine/statistics/counter_random.hpp"

namespace dullcast::statistics {
namespace {

// Four rounds are proved for few questions to a large domain. Here all of a domain is asked, down to 256
// places; eight rounds cost nothing beside a run.
constexpr std::uint32_t rounds = 8;

}  // namespace

KeyedPermutation::KeyedPermutation(std::uint64_t count, std::uint64_t seed, std::uint64_t stream)
    : count_(count), seed_(seed), stream_(stream) {
  if (count == 0) throw std::domain_error("an order of nothing");
  if (count <= few) {
    std::iota(shuffled_.begin(), shuffled_.end(), std::uint8_t{0});
    for (std::size_t left = static_cast<std::size_t>(count); left > 1; --left) {
      const double drawn = uniform_at(seed, stream, left);
      const auto chosen = static_cast<std::size_t>(drawn * static_cast<double>(left));
      std::swap(shuffled_[chosen], shuffled_[left - 1]);
    }
    return;
  }
  while (half_bits_ < 31 && (std::uint64_t{1} << (2 * half_bits_)) < count) ++half_bits_;
  if ((std::uint64_t{1} << (2 * half_bits_)) < count) throw std::domain_error("an order of too many");
}

std::uint64_t KeyedPermutation::once(std::uint64_t index) const {
  const std::uint64_t mask = (std::uint64_t{1} << half_bits_) - 1;
  std::uint64_t left = index >> half_bits_, right = index & mask;
  for (std::uint32_t round = 0; round < rounds; ++round) {
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

std::uint64_t KeyedPermutation::operator()(std::uint64_t index) const {
  if (index >= count_) throw std::domain_error("an index outside its order");
  if (count_ <= few) return shuffled_[static_cast<std::size_t>(index)];
  do {
    index = once(index);
  } while (index >= count_);
  return index;
}

}  // namespace dullcast::statistics
