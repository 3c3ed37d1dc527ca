#pragma once

#include <array>
#include <cstddef>
#include <cstdint>

namespace dullcast::statistics {

/// A pseudo-random order of 0..count-1 whose memory does not grow: the place of every index is computed by
/// itself. A balanced Feistel network of eight rounds with Philox as its round function (Luby & Rackoff, SIAM
/// J. Comput. 17, 1988 [pub]) permutes the least power of four not below count; indices that land outside are
/// sent through again until they land inside (cycle walking, Black & Rogaway, CT-RSA 2002 [pub]). Up to 64
/// indices are shuffled outright instead (Fisher & Yates 1938; Durstenfeld, Commun. ACM 7, 1964 [pub]), since
/// a network over so few favours some orders: all its permutations are even ones from 16 on. The same (seed,
/// stream, count) is the same order anywhere. Our own because shuffles of libraries keep the whole order and
/// draw it in sequence: here any place follows from its number alone, as a resumed or divided sweep needs.
class KeyedPermutation {
 public:
  /// count is at least 1. Throws std::domain_error otherwise.
  KeyedPermutation(std::uint64_t count, std::uint64_t seed, std::uint64_t stream);
  /// The place of `index`, a bijection of 0..count-1. Throws std::domain_error for an index outside.
  std::uint64_t operator()(std::uint64_t index) const;

 private:
  static constexpr std::size_t few = 64;
  std::uint64_t once(std::uint64_t index) const;
  std::uint64_t count_, seed_, stream_;
  unsigned half_bits_ = 1;
  std::array<std::uint8_t, few> shuffled_{};  // of up to `few` indices
};

}  // namespace dullcast::statistics
