#include "engine/statistics/counter_random.hpp"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <set>

// Draws are fixed by their counters, so these tests cannot flicker: four standard errors is a wide gate that
// a wrong distribution does not pass.
namespace dullcast::statistics {
namespace {

constexpr int draws = 100000;
const double root_draws = std::sqrt(static_cast<double>(draws));

TEST(Philox, GivesTheKnownAnswers) {
  // The three ten-round vectors published with Salmon et al., SC 2011: zeros, ones, digits of pi [pub;
  // checked against several public copies of the set].
  using Words = std::array<std::uint32_t, 4>;
  EXPECT_EQ(philox4x32_10({0, 0, 0, 0}, {0, 0}), (Words{0x6627e8d5, 0xe169c58d, 0xbc57ac4c, 0x9b00dbd8}));
  EXPECT_EQ(philox4x32_10({0xffffffff, 0xffffffff, 0xffffffff, 0xffffffff}, {0xffffffff, 0xffffffff}),
            (Words{0x408f276d, 0x41c83b0e, 0xa20bc7c6, 0x6d5451fd}));
  EXPECT_EQ(philox4x32_10({0x243f6a88, 0x85a308d3, 0x13198a2e, 0x03707344}, {0xa4093822, 0x299f31d0}),
            (Words{0xd16cfe09, 0x94fdcceb, 0x5001e420, 0x24126ea1}));
}

TEST(Uniform, IsTheTopOfTheFirstTwoWords) {
  // From the zero vector: 0xe169c58d6627e8d5 without its low eleven bits, over 2^64.
  EXPECT_EQ(uniform_at(0, 0, 0), static_cast<double>(0xe169c58d6627e8d5ull >> 11) / 9007199254740992.0);
  // Both halves of seed, stream and counter count.
  const std::uint64_t high = 1ull << 40;
  const std::set<double> all{uniform_at(0, 0, 0),   uniform_at(1, 0, 0),    uniform_at(0, 1, 0),
                             uniform_at(0, 0, 1),   uniform_at(high, 0, 0), uniform_at(0, high, 0),
                             uniform_at(0, 0, high)};
  EXPECT_EQ(all.size(), 7u);
}

TEST(Uniform, HasItsMomentsAndFillsItsBinsEvenly) {
  double sum = 0.0, squares = 0.0;
  std::array<int, 100> bins{};
  for (int i = 0; i < draws; ++i) {
    const double u = uniform_at(7, 3, static_cast<std::uint64_t>(i));
    ASSERT_GT(u, 0.0);
    ASSERT_LT(u, 1.0);
    sum += u;
    squares += (u - 0.5) * (u - 0.5);
    ++bins[static_cast<std::size_t>(100.0 * u)];
  }
  EXPECT_NEAR(sum / draws, 0.5, 4.0 * std::sqrt(1.0 / 12.0) / root_draws);
  EXPECT_NEAR(squares / draws, 1.0 / 12.0, 4.0 * std::sqrt(1.0 / 180.0) / root_draws);
  double chi_square = 0.0;
  for (const int count : bins) chi_square += std::pow(count - draws / 100.0, 2) / (draws / 100.0);
  // 99 degrees of freedom: mean 99, standard deviation sqrt(198) = 14.1; three of them each way.
  EXPECT_GT(chi_square, 57.0);
  EXPECT_LT(chi_square, 141.0);
}

TEST(Exponential, HasMeanOneAndNoMemory) {
  double sum = 0.0, squares = 0.0;
  int past_one = 0, past_two = 0;
  for (int i = 0; i < draws; ++i) {
    const double x = unit_exponential_at(7, 4, static_cast<std::uint64_t>(i));
    ASSERT_GT(x, 0.0);
    sum += x;
    squares += x * x;
    past_one += x > 1.0;
    past_two += x > 2.0;
  }
  EXPECT_NEAR(sum / draws, 1.0, 4.0 / root_draws);
  EXPECT_NEAR(squares / draws, 2.0, 4.0 * std::sqrt(20.0) / root_draws);  // variance of x^2: 24 - 4
  const double e = std::exp(-1.0);
  EXPECT_NEAR(past_one / static_cast<double>(draws), e, 4.0 * std::sqrt(e * (1.0 - e)) / root_draws);
  EXPECT_NEAR(past_two / static_cast<double>(past_one), e, 4.0 * std::sqrt(e * (1.0 - e) / past_one));
}

TEST(Normal, HasItsFourMomentsAndTails) {
  double first = 0.0, second = 0.0, third = 0.0, fourth = 0.0;
  int tail = 0;
  for (int i = 0; i < draws; ++i) {
    const double x = standard_normal_at(7, 5, static_cast<std::uint64_t>(i));
    first += x;
    second += x * x;
    third += x * x * x;
    fourth += x * x * x * x;
    tail += x > 1.959964;
  }
  // Standard deviations of x, x^2, x^3, x^4: 1, sqrt(2), sqrt(15), sqrt(105 - 9).
  EXPECT_NEAR(first / draws, 0.0, 4.0 / root_draws);
  EXPECT_NEAR(second / draws, 1.0, 4.0 * std::sqrt(2.0) / root_draws);
  EXPECT_NEAR(third / draws, 0.0, 4.0 * std::sqrt(15.0) / root_draws);
  EXPECT_NEAR(fourth / draws, 3.0, 4.0 * std::sqrt(96.0) / root_draws);
  EXPECT_NEAR(tail / static_cast<double>(draws), 0.025, 4.0 * std::sqrt(0.025 * 0.975) / root_draws);
}

TEST(Streams, AndNeighbouringSeedsAndCountersAreUncorrelated) {
  double streams = 0.0, seeds = 0.0, counters = 0.0;
  for (int i = 0; i < draws; ++i) {
    const auto n = static_cast<std::uint64_t>(i);
    const double x = standard_normal_at(7, 6, n);
    streams += x * standard_normal_at(7, 7, n);
    seeds += x * standard_normal_at(8, 6, n);
    counters += x * standard_normal_at(7, 6, n + 1);
  }
  // The mean of a product of independent standard normals has standard error 1/sqrt(n).
  EXPECT_NEAR(streams / draws, 0.0, 4.0 / root_draws);
  EXPECT_NEAR(seeds / draws, 0.0, 4.0 / root_draws);
  EXPECT_NEAR(counters / draws, 0.0, 4.0 / root_draws);
}

}  // namespace
}  // namespace dullcast::statistics
