#include "engine/statistics/keyed_permutation.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <boost/math/special_functions/gamma.hpp>
#include <cmath>
#include <map>
#include <set>

#include "support/refusal.hpp"

namespace dullcast::statistics {
namespace {

std::vector<std::uint64_t> whole(std::uint64_t count, std::uint64_t seed, std::uint64_t stream) {
  const KeyedPermutation order(count, seed, stream);
  std::vector<std::uint64_t> places;
  for (std::uint64_t k = 0; k < count; ++k) places.push_back(order(k));
  return places;
}

/// Chance that counts as uneven as these, or more so, come of equal chances: upper tail of chi-square.
double chance_of(const std::vector<double>& counts) {
  double expected = 0.0, chi_square = 0.0;
  for (const double count : counts) expected += count / static_cast<double>(counts.size());
  for (const double count : counts) chi_square += (count - expected) * (count - expected) / expected;
  return boost::math::gamma_q(0.5 * (static_cast<double>(counts.size()) - 1.0), 0.5 * chi_square);
}

void expect_bijection(std::uint64_t count) {
  std::vector<std::uint64_t> places = whole(count, 17, count);
  std::sort(places.begin(), places.end());
  for (std::uint64_t k = 0; k < count; ++k) ASSERT_EQ(places[k], k) << "of " << count;
}

TEST(KeyedOrder, ABijectionForEveryCount) {
  for (std::uint64_t count = 1; count <= 300; ++count) expect_bijection(count);
  for (const std::uint64_t count : {509u, 521u, 997u, 4093u, 4099u, 10007u}) expect_bijection(count);
  for (const std::uint64_t count : {512u, 1023u, 1024u, 1025u, 2048u, 4096u, 16384u, 16385u}) {
    expect_bijection(count);
  }
}

TEST(KeyedOrder, ATrillionWithoutRepeatsAndEverywhereAlike) {
  // 10^12 indices stand for the greatest sweep. 10,000 consecutive ones and 10,000 strewn ones: no two land
  // on one place. The consecutive ones fill a hundred equal bins as chance would: chi-square within its
  // middle 99.8 %, so neither clustered nor ruled.
  const std::uint64_t count = 1'000'000'000'000;
  const KeyedPermutation order(count, 3, 4);
  std::set<std::uint64_t> met, asked;
  std::vector<double> bins(100), last_digits(100);
  for (std::uint64_t k = 0; k < 10000; ++k) {
    const std::uint64_t place = order(k);
    ASSERT_LT(place, count);
    met.insert(place);
    asked.insert(k);
    bins[place / (count / 100)] += 1.0;
    last_digits[place % 100] += 1.0;
  }
  EXPECT_EQ(met.size(), 10000u);
  for (std::uint64_t k = 1; k <= 10000; ++k) {
    const std::uint64_t index = k * 99'999'989;
    if (!asked.insert(index).second) continue;
    ASSERT_TRUE(met.insert(order(index)).second) << index;
  }
  for (const auto& counts : {bins, last_digits}) {
    EXPECT_GT(chance_of(counts), 0.001);
    EXPECT_LT(chance_of(counts), 0.999);
  }
  EXPECT_LT(order(count - 1), count);
}

TEST(KeyedOrder, NearTheGreatestCount) {
  const std::uint64_t most = std::uint64_t{1} << 62;
  const KeyedPermutation order(most, 5, 6);
  std::set<std::uint64_t> met;
  for (std::uint64_t k = 0; k < 1000; ++k) met.insert(order(most - 1 - k));
  EXPECT_EQ(met.size(), 1000u);
  EXPECT_LT(*met.rbegin(), most);
}

TEST(KeyedOrder, SmallCountsHaveEveryOrderEquallyOften) {
  // All n! orders over 20,000 streams; a chance of 1e-4 for each of the four.
  for (const std::uint64_t count : {2u, 3u, 4u, 5u}) {
    std::map<std::vector<std::uint64_t>, double> seen;
    for (std::uint64_t stream = 0; stream < 20000; ++stream) seen[whole(count, 1, stream)] += 1.0;
    std::size_t orders = 1;
    for (std::uint64_t k = 2; k <= count; ++k) orders *= k;
    std::vector<double> counts;
    for (const auto& [order, times] : seen) counts.push_back(times);
    counts.resize(orders, 0.0);
    EXPECT_GT(chance_of(counts), 1e-4) << count;
  }
}

TEST(KeyedOrder, EveryIndexGoesEverywhereEquallyOften) {
  // Each of the count^2 pairs (index, place) over many streams; on both sides of where shuffling ends. As
  // each row and each column is full, chi-square (1 - 1/count) of them is spread with (count - 1)^2 degrees;
  // its level is 1e-4.
  for (const std::uint64_t count : {8u, 16u, 64u, 65u, 80u}) {
    const int streams = 4000;
    std::vector<double> pairs(count * count);
    for (std::uint64_t stream = 0; stream < streams; ++stream) {
      const KeyedPermutation order(count, 2, stream);
      for (std::uint64_t k = 0; k < count; ++k) pairs[k * count + order(k)] += 1.0;
    }
    const auto n = static_cast<double>(count);
    const double expected = streams / n;
    double chi_square = 0.0;
    for (const double pair : pairs) chi_square += (pair - expected) * (pair - expected) / expected;
    const double chance = boost::math::gamma_q(0.5 * (n - 1.0) * (n - 1.0), 0.5 * chi_square * (n - 1.0) / n);
    EXPECT_GT(chance, 1e-4) << count;
    EXPECT_LT(chance, 1.0 - 1e-4) << count;
  }
}

TEST(KeyedOrder, OrdersOfTwoStreamsAreUncorrelated) {
  // The rank correlation of two random orders of n has variance 1/(n - 1) [hb: Kendall, Rank Correlation
  // Methods]. Over 2000 pairs its mean square times n - 1 is 1 within four standard errors of a square of a
  // normal, sqrt(2/2000), and its mean is 0 within four of 1/sqrt(2000 (n - 1)).
  for (const std::uint64_t count : {10u, 50u, 100u, 257u}) {
    const auto n = static_cast<double>(count);
    double mean = 0.0, square = 0.0;
    for (std::uint64_t pair = 0; pair < 2000; ++pair) {
      const KeyedPermutation a(count, 8, 2 * pair), b(count, 8, 2 * pair + 1);
      double sum = 0.0;
      for (std::uint64_t k = 0; k < count; ++k) {
        sum += (static_cast<double>(a(k)) - 0.5 * (n - 1.0)) * (static_cast<double>(b(k)) - 0.5 * (n - 1.0));
      }
      const double r = sum / (n * (n * n - 1.0) / 12.0);
      mean += r / 2000.0;
      square += r * r * (n - 1.0) / 2000.0;
    }
    EXPECT_NEAR(square, 1.0, 4.0 * std::sqrt(2.0 / 2000.0)) << count;
    EXPECT_NEAR(mean, 0.0, 4.0 / std::sqrt(2000.0 * (n - 1.0))) << count;
  }
}

TEST(KeyedOrder, TheKeyIsTheOrder) {
  for (const std::uint64_t count : {40u, 1000u}) {
    const auto order = whole(count, 7, 9);
    EXPECT_EQ(order, whole(count, 7, 9));
    EXPECT_NE(order, whole(count, 8, 9));
    EXPECT_NE(order, whole(count, 7, 10));
    // High halves of the keys count too.
    EXPECT_NE(order, whole(count, 7 + (std::uint64_t{1} << 40), 9));
    EXPECT_NE(order, whole(count, 7, 9 + (std::uint64_t{1} << 56)));
  }
}

TEST(KeyedOrder, RefusesWhatItCannotOrder) {
  EXPECT_EQ(testing::refusal([] { return KeyedPermutation(0, 1, 1); }), "an order of nothing");
  EXPECT_EQ(testing::refusal([] { return KeyedPermutation((std::uint64_t{1} << 62) + 1, 1, 1); }),
            "an order of too many");
  for (const std::uint64_t count : {1u, 10u, 64u, 65u, 1000u}) {
    const KeyedPermutation order(count, 1, 1);
    EXPECT_EQ(testing::refusal([&] { return order(count); }), "an index outside its order");
    EXPECT_EQ(testing::refusal([&] { return order(~std::uint64_t{0}); }), "an index outside its order");
  }
}

}  // namespace
}  // namespace dullcast::statistics
