#pragma once

/// Loops over plain arrays, each entry by itself, that the compiler turns into operations on several numbers
/// at once: as many as the machine holds, which is looked up as the program starts. Every number is what it
/// would be one by one, to the last bit, on every machine: nothing is contracted (-ffp-contract=off) and
/// nothing is summed in another order than the source says. Functions so marked take no part in the
/// sanitizers' builds, which look at memory before machines can be told apart.
#if defined(__x86_64__) && defined(__GNUC__) && !defined(__clang__) && !defined(__SANITIZE_ADDRESS__) && \
    !defined(__SANITIZE_THREAD__)
#define DULLCAST_WIDTH_FOUND_AT_START
#define DULLCAST_WIDE __attribute__((target_clones("avx2", "default")))
#else
#define DULLCAST_WIDE
#endif

/// Before a loop no turn of which writes what another reads or writes.
#if defined(__GNUC__) && !defined(__clang__)
#define DULLCAST_TURNS_APART _Pragma("GCC ivdep")
#else
#define DULLCAST_TURNS_APART
#endif

namespace dullcast {

/// So many numbers the loops so marked take at once on this machine: 4, 2 or 1. Results do not depend on it,
/// time does.
inline int wide_loops_take() {
#ifdef DULLCAST_WIDTH_FOUND_AT_START
  return __builtin_cpu_supports("avx2") != 0 ? 4 : 2;
#elif defined(__AVX2__)
  return 4;
#elif defined(__SSE2__) || defined(__aarch64__) || defined(__wasm_simd128__)
  return 2;
#else
  return 1;
#endif
}

/// Arrays that such loops run over are filled up to multiples of this many entries.
inline constexpr int wide_block = 8;

/// The least multiple of wide_block that holds so many.
constexpr int filled_up(int count) {
  return (count + wide_block - 1) / wide_block * wide_block;
}

/// Sum of the entries of a block, in an order that no machine changes.
inline double block_sum(const double* part) {
  return ((part[0] + part[1]) + (part[2] + part[3])) + ((part[4] + part[5]) + (part[6] + part[7]));
}

}  // namespace dullcast
