#pragma once

#include <array>
#include <cstdint>

namespace dullcast::statistics {

// Random numbers by counter: the same (seed, stream, counter) gives the same number in any order, on any
// thread and after any resume; there is no state. Safe to call from several threads. Our own because the
// engines of the standard library and of Boost are a state that goes on from draw to draw: a number would
// depend on what was drawn before it.

/// Philox 4x32 with ten rounds: a bijection of the counter's 128 bits under a key of 64 bits. Salmon, Moraes,
/// Dror & Shaw, "Parallel random numbers: as easy as 1, 2, 3", SC 2011 [pub].
std::array<std::uint32_t, 4> philox4x32_10(std::array<std::uint32_t, 4> counter,
                                           std::array<std::uint32_t, 2> key);

/// Uniform in the open interval (0, 1), 53 bits: k 2^-53 with k in 1..2^53 - 1 (a drawn 0 counts as 1). Key:
/// the seed; counter: `counter` in its low half, `stream` in its high half. Low words first.
double uniform_at(std::uint64_t seed, std::uint64_t stream, std::uint64_t counter);

/// Exponential with mean 1: -ln(uniform), between 1e-16 and 36.8: the hazard at which the next event falls.
double unit_exponential_at(std::uint64_t seed, std::uint64_t stream, std::uint64_t counter);

/// Normal with mean 0 and standard deviation 1: inverse of the distribution at the uniform, within +-8.3.
double standard_normal_at(std::uint64_t seed, std::uint64_t stream, std::uint64_t counter);

}  // namespace dullcast::statistics
