#include "engine/sweep/streams.hpp"

#include <gtest/gtest.h>

#include <set>

namespace dullcast::sweep {
namespace {

TEST(Streams, NoTwoPurposesShareOne) {
  // Least and greatest members as sweeps have them: a draw of 10^12 with 2^16 kinds of lenses.
  std::set<std::uint64_t> met;
  std::size_t asked = 0;
  for (std::uint64_t purpose = 1; purpose <= 9; ++purpose) {
    for (const std::uint64_t member :
         {std::uint64_t{0}, std::uint64_t{1}, (std::uint64_t{1'000'000'000'000} << 16) | 0xFFFFu,
          (std::uint64_t{1} << 56) - 1}) {
      met.insert(stream_of(static_cast<Purpose>(purpose), member));
      ++asked;
    }
  }
  EXPECT_EQ(met.size(), asked);
}

TEST(Streams, PurposesKeepTheirNumbers) {
  // A seed means the same numbers in every version: results are replayed by them.
  EXPECT_EQ(static_cast<int>(Purpose::design_order), 1);
  EXPECT_EQ(static_cast<int>(Purpose::design_place), 2);
  EXPECT_EQ(static_cast<int>(Purpose::design_shift), 3);
  EXPECT_EQ(static_cast<int>(Purpose::values), 4);
  EXPECT_EQ(static_cast<int>(Purpose::layer_strength), 5);
  EXPECT_EQ(static_cast<int>(Purpose::layer_abrasivity), 6);
  EXPECT_EQ(static_cast<int>(Purpose::lens_tops), 7);
  EXPECT_EQ(static_cast<int>(Purpose::lens_thickness), 8);
  EXPECT_EQ(static_cast<int>(Purpose::run_seed), 9);
}

}  // namespace
}  // namespace dullcast::sweep
