#pragma once

#include <cstdint>

/// Exponentials, logarithms and powers for loops that take several numbers at once (wide.hpp): plain
/// arithmetic without branches, so that they give the same bits everywhere. Within 2 units in the last place
/// of exp and log; a power is wrong by its exponent's times its logarithm's last places.
namespace dullcast {

/// std::bit_cast, which the library of the pages' compiler does not have yet; compilers do.
template <class To, class From>
[[gnu::always_inline]] inline constexpr To same_bits(const From& from) {
  return __builtin_bit_cast(To, from);
}

/// e^x, for x within -708 to 709; held at these ends, a NaN goes through.
[[gnu::always_inline]] inline double wide_exp(double x) {
  constexpr double per_ln2 = 1.4426950408889634074, ln2_high = 6.93147180369123816490e-01,
                   ln2_low = 1.90821492927058770002e-10;
  constexpr double shifter =
      6755399441055744.0;  // 1.5 * 2^52: what is added to it is rounded to a whole number
  const double below = x > 709.0 ? 709.0 : x, held = below < -708.0 ? -708.0 : below;
  const double shifted = held * per_ln2 + shifter, whole = shifted - shifter;
  const double r = (held - whole * ln2_high) - whole * ln2_low;
  // Taylor's series to the thirteenth power: |r| is under 0.347, where it leaves 4e-18. By Estrin's scheme,
  // whose terms do not wait for each other.
  const double r2 = r * r, r4 = r2 * r2, r8 = r4 * r4;
  const double low = (0.5 + 1.0 / 6.0 * r) + (1.0 / 24.0 + 1.0 / 120.0 * r) * r2,
               middle = (1.0 / 720.0 + 1.0 / 5040.0 * r) + (1.0 / 40320.0 + 1.0 / 362880.0 * r) * r2,
               high = (1.0 / 3628800.0 + 1.0 / 39916800.0 * r) +
                      (1.0 / 479001600.0 + 1.0 / 6227020800.0 * r) * r2;
  const double p = (low + middle * r4) + high * r8;
  const double small = r + r2 * p;
  // The whole number stands in the shifted one's last bits: into the exponent's place with it.
  const auto power = (same_bits<std::uint64_t>(shifted) + 1023) << 52;
  const double two_to = same_bits<double>(power);
  return two_to + two_to * small;
}

/// ln x, for normal x > 0; a NaN goes through.
[[gnu::always_inline]] inline double wide_log(double x) {
  constexpr double ln2_high = 6.93147180369123816490e-01, ln2_low = 1.90821492927058770002e-10;
  constexpr std::uint64_t root_half = 0x3fe6a09e667f3bcd;  // of sqrt(1/2): mantissas from there to twice it
  const auto bits = same_bits<std::uint64_t>(x);
  const std::uint64_t above = bits - root_half;
  const std::uint64_t exponent_bits = above & 0xfff0000000000000;
  const double m = same_bits<double>(bits - exponent_bits);
  // The exponent as a number: its bits, biased to be positive, under the mantissa of 2^52.
  const auto biased = (exponent_bits >> 52) ^ 0x800;  // +2048 mod 4096
  const double e = same_bits<double>(biased | 0x4330000000000000) - (4503599627370496.0 + 2048.0);
  // ln m = 2 artanh s, s = (m - 1)/(m + 1), |s| under 0.1716.
  const double f = m - 1.0, s = f / (2.0 + f), z = s * s;
  const double z2 = z * z, z4 = z2 * z2, z8 = z4 * z4;
  const double low = (2.0 / 3.0 + 2.0 / 5.0 * z) + (2.0 / 7.0 + 2.0 / 9.0 * z) * z2,
               middle = (2.0 / 11.0 + 2.0 / 13.0 * z) + (2.0 / 15.0 + 2.0 / 17.0 * z) * z2,
               high = (2.0 / 19.0 + 2.0 / 21.0 * z) + 2.0 / 23.0 * z2;
  const double p = (low + middle * z4) + high * z8;
  const double tail = z * p, half_square = 0.5 * f * f;
  // 2 s = f - s f and so on, so that the large part is exact.
  return e * ln2_high - ((half_square - (s * (half_square + tail) + e * ln2_low)) - f) + (x - x);
}

/// x^y of normal x > 0; e^-708 and e^709 stand for what is past them. A NaN goes through.
[[gnu::always_inline]] inline double wide_pow(double x, double y) {
  return wide_exp(y * wide_log(x));
}

}  // namespace dullcast
