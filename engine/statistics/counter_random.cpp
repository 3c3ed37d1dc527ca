#include "engine/statistics/counter_random.hpp"

#include <boost/math/distributions/normal.hpp>
#include <cmath>

namespace dullcast::statistics {
namespace {

// Multipliers and key increments of Philox 4x32 (Salmon et al. 2011, table 2 [pub], from memory; the known
// answers in the test hold only with these).
constexpr std::uint64_t first_multiplier = 0xD2511F53u, second_multiplier = 0xCD9E8D57u;
constexpr std::uint32_t first_increment = 0x9E3779B9u, second_increment = 0xBB67AE85u;

std::uint32_t low(std::uint64_t x) {
  return static_cast<std::uint32_t>(x & 0xFFFFFFFFu);
}

std::uint32_t high(std::uint64_t x) {
  return static_cast<std::uint32_t>(x >> 32);
}

}  // namespace

std::array<std::uint32_t, 4> philox4x32_10(std::array<std::uint32_t, 4> counter,
                                           std::array<std::uint32_t, 2> key) {
  for (int round = 0; round < 10; ++round) {
    const std::uint64_t first = first_multiplier * counter[0], second = second_multiplier * counter[2];
    counter = {high(second) ^ counter[1] ^ key[0], low(second), high(first) ^ counter[3] ^ key[1],
               low(first)};
    key[0] += first_increment;
    key[1] += second_increment;
  }
  return counter;
}

double uniform_at(std::uint64_t seed, std::uint64_t stream, std::uint64_t counter) {
  const auto words =
      philox4x32_10({low(counter), high(counter), low(stream), high(stream)}, {low(seed), high(seed)});
  const std::uint64_t bits = ((static_cast<std::uint64_t>(words[1]) << 32) | words[0]) >> 11;
  return static_cast<double>(bits == 0 ? 1 : bits) * 0x1p-53;
}

double unit_exponential_at(std::uint64_t seed, std::uint64_t stream, std::uint64_t counter) {
  return -std::log(uniform_at(seed, stream, counter));
}

double standard_normal_at(std::uint64_t seed, std::uint64_t stream, std::uint64_t counter) {
  return boost::math::quantile(boost::math::normal(), uniform_at(seed, stream, counter));
}

}  // namespace dullcast::statistics
