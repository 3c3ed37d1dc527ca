#include <gtest/gtest.h>

#include <algorithm>
#include <boost/math/special_functions/gamma.hpp>
#include <cmath>

#include "engine/sweep/ground_realisation.hpp"
#include "tools/samples/invented_scenario.hpp"

// lay_lenses(), of ground_realisation.hpp.
namespace dullcast::sweep {
namespace {

using samples::invented_rock;

const scenario::RockRecord gravel = samples::invented_rock("gravel", 120e6, 4.0);
constexpr double thinnest = 1e-3;  // m, as stated beside the code

scenario::Column one_layer(double bottom) {
  scenario::Column column;
  column.layers.push_back(
      {0.0, bottom, samples::invented_rock("shale", 30e6, 0.6), 2e5, {"field.yaml", 7, 3}});
  return column;
}

/// Shale, limestone, sandstone, shale.
scenario::Column four_layers() {
  scenario::Column column = one_layer(40.0);
  column.layers.push_back(
      {40.0, 55.5, samples::invented_rock("limestone", 80e6, 1.0), 3e5, {"field.yaml", 8, 3}});
  column.layers.push_back(
      {55.5, 80.0, samples::invented_rock("sandstone", 50e6, 2.5), 0.0, {"field.yaml", 9, 3}});
  column.layers.push_back(
      {80.0, 120.0, samples::invented_rock("shale", 30e6, 0.6), 0.0, {"field.yaml", 10, 3}});
  return column;
}

Lenses lenses_of(double spacing, double thickness, std::vector<std::string> in = {}) {
  return {"gravel", std::move(in), spacing, {statistics::Distribution::Kind::fixed, thickness}, "invented"};
}

std::vector<scenario::Layer> lenses_in(const scenario::Column& column, const std::string& rock = "gravel") {
  std::vector<scenario::Layer> found;
  for (const scenario::Layer& layer : column.layers) {
    if (layer.rock.name == rock) found.push_back(layer);
  }
  return found;
}

/// Probability of counts at least so uneven: groups of fewer than five expected are joined to their
/// neighbour.
double chance_of(const std::vector<double>& seen, const std::vector<double>& expected) {
  double chi_square = 0.0, a = 0.0, e = 0.0;
  int groups = 0;
  for (std::size_t k = 0; k < seen.size(); ++k) {
    a += seen[k];
    e += expected[k];
    if (e < 5.0) continue;
    chi_square += (a - e) * (a - e) / e;
    ++groups;
    a = e = 0.0;
  }
  return boost::math::gamma_q(0.5 * (groups - 1), 0.5 * chi_square);
}

TEST(Lenses, ThinOnesAreAPoissonCount) {
  // 100 m with a lens of 1 mm every 25 m on average: Poisson with mean 4 but for 4 mm in 100 m and for the
  // last millimetre, where none begins (1e-4 of the mean). Over 10,000 draws mean and variance within four
  // standard errors: sqrt(4/n) and sqrt((4 + 2 4^2)/n) [hb: fourth moment of the Poisson law]; and the counts
  // against e^-4 4^k/k! at a probability of 1e-4.
  const int draws = 10000;
  std::vector<double> seen(20), expected(20);
  double mean = 0.0, square = 0.0, term = std::exp(-4.0);
  for (std::size_t k = 0; k < 20; ++k) {
    expected[k] = draws * term;
    term *= 4.0 / (static_cast<double>(k) + 1.0);
  }
  for (std::uint64_t draw = 0; draw < draws; ++draw) {
    scenario::Column column = one_layer(100.0);
    const int count = lay_lenses(column, lenses_of(25.0, 0.0), gravel, 0, 5, draw);
    ASSERT_EQ(static_cast<std::size_t>(count), lenses_in(column).size());
    seen.at(static_cast<std::size_t>(count)) += 1.0;
    mean += count / static_cast<double>(draws);
    square += (count - 4.0) * (count - 4.0) / draws;
  }
  EXPECT_NEAR(mean, 4.0, 4.0 * std::sqrt(4.0 / draws) + 4e-4);
  EXPECT_NEAR(square - (mean - 4.0) * (mean - 4.0), 4.0, 4.0 * std::sqrt(36.0 / draws) + 4e-4);
  EXPECT_GT(chance_of(seen, expected), 1e-4);
}

TEST(Lenses, ThickOnesTakeTheRoomTheyFill) {
  // The gaps are the rock between lenses, so n lenses of 3 m fit where n gaps and n - 1 lenses do: P(count >=
  // n) = P(gamma(n) < (L - 3 (n - 1))/spacing), regularized incomplete gamma function. Probability 1e-4.
  const int draws = 10000;
  std::vector<double> seen(12), expected(12);
  const auto at_least = [](int n) {
    const double room = (60.0 - 3.0 * (n - 1)) / 10.0;
    return n == 0 ? 1.0 : room > 0.0 ? boost::math::gamma_p(static_cast<double>(n), room) : 0.0;
  };
  for (int n = 0; n < 12; ++n)
    expected[static_cast<std::size_t>(n)] = draws * (at_least(n) - at_least(n + 1));
  for (std::uint64_t draw = 0; draw < draws; ++draw) {
    scenario::Column column = one_layer(60.0);
    seen.at(static_cast<std::size_t>(lay_lenses(column, lenses_of(10.0, 3.0), gravel, 0, 6, draw))) += 1.0;
  }
  EXPECT_GT(chance_of(seen, expected), 1e-4);
}

TEST(Lenses, GapsAreExponential) {
  // Gaps above the first lens and between lenses, as shares 1 - exp(-gap/spacing): even over 0..1. A column
  // of 4 km with a lens every 2 m cuts off only the last gap. Chi-square over 40 bins at 1e-4, mean gap
  // within four standard errors, and neighbouring gaps uncorrelated within four.
  scenario::Column column = one_layer(4000.0);
  const int count = lay_lenses(column, lenses_of(2.0, 0.1), gravel, 0, 7, 0);
  std::vector<double> gaps;
  double above = 0.0;
  for (const scenario::Layer& lens : lenses_in(column)) {
    gaps.push_back(lens.top - above);
    above = lens.bottom;
  }
  ASSERT_EQ(gaps.size(), static_cast<std::size_t>(count));
  ASSERT_GT(gaps.size(), 1700u);
  const auto n = static_cast<double>(gaps.size());
  std::vector<double> seen(40), expected(40, n / 40.0);
  double mean = 0.0, neighbours = 0.0;
  for (std::size_t k = 0; k < gaps.size(); ++k) {
    seen[static_cast<std::size_t>(40.0 * -std::expm1(-gaps[k] / 2.0))] += 1.0;
    mean += gaps[k] / n;
    if (k > 0) neighbours += (gaps[k] / 2.0 - 1.0) * (gaps[k - 1] / 2.0 - 1.0) / n;
  }
  EXPECT_GT(chance_of(seen, expected), 1e-4);
  EXPECT_NEAR(mean, 2.0, 4.0 * 2.0 / std::sqrt(n));
  EXPECT_NEAR(neighbours, 0.0, 4.0 / std::sqrt(n));
}

TEST(Lenses, ThicknessesAreDrawnFromTheirDistribution) {
  scenario::Column column = one_layer(20000.0);
  Lenses lenses = lenses_of(10.0, 0.0);
  lenses.thickness = {statistics::Distribution::Kind::lognormal, 0.2, 0.4};
  lay_lenses(column, lenses, gravel, 0, 8, 0);
  // Shares of the law, even over 40 bins: probability 1e-4. (The last lens may be cut off; one of 2000.)
  const std::vector<scenario::Layer> laid = lenses_in(column);
  const auto n = static_cast<double>(laid.size());
  ASSERT_GT(n, 1800.0);
  std::vector<double> seen(40), expected(40, n / 40.0);
  for (const scenario::Layer& lens : laid) {
    seen.at(static_cast<std::size_t>(40.0 * statistics::cdf(lenses.thickness, lens.bottom - lens.top))) +=
        1.0;
  }
  EXPECT_GT(chance_of(seen, expected), 1e-4);
}

TEST(Lenses, LayersStillTouchAndCoverTheSameColumn) {
  const scenario::Column before = four_layers();
  int laid = 0;
  // From lenses thinner than a millimetre to thicker than their layers, from rare to more lens than rock.
  for (const double thickness : {-1.0, 0.0, 5e-4, 0.15, 2.0, 500.0}) {
    for (const double spacing : {0.02, 1.0, 30.0, 1e6}) {
      for (std::uint64_t draw = 0; draw < (spacing < 0.1 ? 2u : 60u); ++draw) {
        scenario::Column column = before;
        const int count = lay_lenses(column, lenses_of(spacing, thickness), gravel, 1, 11, draw);
        laid += count;
        ASSERT_EQ(column.layers.back().bottom, 120.0);
        ASSERT_EQ(static_cast<int>(lenses_in(column).size()), count);
        for (std::size_t k = 0; k < column.layers.size(); ++k) {
          const scenario::Layer& layer = column.layers[k];
          ASSERT_EQ(layer.top, k == 0 ? 0.0 : column.layers[k - 1].bottom);
          // Depths near 120 m are rounded to 1.4e-14.
          ASSERT_GT(layer.bottom - layer.top, thinnest - 3e-14) << spacing << ", " << thickness;
        }
        // Every old boundary is still one, and what is no lens is the rock that was there.
        for (const scenario::Layer& old : before.layers) {
          ASSERT_TRUE(std::any_of(column.layers.begin(), column.layers.end(),
                                  [&](const scenario::Layer& layer) { return layer.bottom == old.bottom; }));
          for (const scenario::Layer& layer : column.layers) {
            if (layer.top < old.top || layer.bottom > old.bottom) continue;
            ASSERT_TRUE(layer.rock.name == "gravel" || layer.rock.name == old.rock.name);
            ASSERT_EQ(layer.excess_pressure, old.excess_pressure) << "a lens keeps the layer's";
            ASSERT_EQ(layer.location.line, old.location.line) << "and its place";
          }
        }
      }
    }
  }
  EXPECT_GT(laid, 1000);
}

TEST(Lenses, OnlyTheRocksNamedHoldThem) {
  int in_shale = 0;
  for (std::uint64_t draw = 0; draw < 100; ++draw) {
    scenario::Column column = four_layers();
    lay_lenses(column, lenses_of(5.0, 0.3, {"shale", "coal"}), gravel, 0, 12, draw);
    for (const scenario::Layer& lens : lenses_in(column)) {
      ++in_shale;
      ASSERT_TRUE(lens.bottom <= 40.0 || lens.top >= 80.0) << lens.top;
    }
    scenario::Column none = four_layers();
    EXPECT_EQ(lay_lenses(none, lenses_of(5.0, 0.3, {"coal"}), gravel, 0, 12, draw), 0);
    ASSERT_EQ(none.layers.size(), 4u);
    for (std::size_t k = 0; k < 4; ++k) {
      EXPECT_EQ(none.layers[k].bottom, four_layers().layers[k].bottom);
      EXPECT_EQ(none.layers[k].rock.name, four_layers().layers[k].rock.name);
    }
  }
  EXPECT_GT(in_shale, 1000) << "80 m with one every 5 m";
}

TEST(Lenses, LayersThatHoldNoneStayHoweverThin) {
  // A layer of half a millimetre between others, and one at the top of the column.
  scenario::Column column;
  const auto shale = samples::invented_rock("shale", 30e6, 0.6),
             coal = samples::invented_rock("coal", 10e6, 0.3);
  column.layers = {{0.0, 5e-4, coal, 0.0, {}},
                   {5e-4, 10.0, shale, 0.0, {}},
                   {10.0, 10.0005, coal, 0.0, {}},
                   {10.0005, 20.0, shale, 0.0, {}}};
  for (std::uint64_t draw = 0; draw < 50; ++draw) {
    scenario::Column drawn = column;
    lay_lenses(drawn, lenses_of(2.0, 0.2, {"shale"}), gravel, 0, 13, draw);
    const std::vector<scenario::Layer> thin = lenses_in(drawn, "coal");
    ASSERT_EQ(thin.size(), 2u);
    EXPECT_EQ(thin[0].top, 0.0);
    EXPECT_EQ(thin[0].bottom, 5e-4);
    EXPECT_EQ(thin[1].top, 10.0);
    EXPECT_EQ(thin[1].bottom, 10.0005);
    EXPECT_EQ(drawn.layers.front().rock.name, "coal");
  }
}

TEST(Lenses, LensesAreAsLikelyNearTheTopOfALayerAsNearItsBottom) {
  // Tops of a Poisson process are even over the layer: 20 bins of 100 m, 2000 draws, probability 1e-4.
  std::vector<double> seen(20);
  double n = 0.0;
  for (std::uint64_t draw = 0; draw < 2000; ++draw) {
    scenario::Column column = one_layer(100.0);
    lay_lenses(column, lenses_of(20.0, 0.0), gravel, 0, 14, draw);
    for (const scenario::Layer& lens : lenses_in(column)) {
      seen[static_cast<std::size_t>(lens.top / 5.0)] += 1.0;
      n += 1.0;
    }
  }
  EXPECT_GT(chance_of(seen, std::vector<double>(20, n / 20.0)), 1e-4);
}

TEST(Lenses, SameSeedDrawAndKindSameBits) {
  const auto tops = [](std::uint64_t which, std::uint64_t seed, std::uint64_t draw) {
    scenario::Column column = four_layers();
    lay_lenses(column, lenses_of(5.0, 0.3), gravel, which, seed, draw);
    std::vector<double> depths;
    for (const scenario::Layer& lens : lenses_in(column)) depths.push_back(lens.top);
    return depths;
  };
  EXPECT_EQ(tops(0, 1, 2), tops(0, 1, 2));
  EXPECT_NE(tops(0, 1, 2), tops(1, 1, 2)) << "each kind has streams of its own";
  EXPECT_NE(tops(0, 1, 2), tops(0, 2, 2));
  EXPECT_NE(tops(0, 1, 2), tops(0, 1, 3));
}

TEST(Lenses, AnotherKindChangesNothingOfThoseBefore) {
  // Gravel in shale; then flint in limestone as well: the gravel and the shale stay to the last bit, and the
  // flint lies as it would have without gravel. Factors of the layers know nothing of lenses.
  const scenario::RockRecord flint = samples::invented_rock("flint", 200e6, 4.5);
  for (std::uint64_t draw = 0; draw < 50; ++draw) {
    scenario::Column alone = four_layers(), both = four_layers(), other = four_layers();
    lay_lenses(alone, lenses_of(5.0, 0.3, {"shale"}), gravel, 0, 15, draw);
    lay_lenses(both, lenses_of(5.0, 0.3, {"shale"}), gravel, 0, 15, draw);
    lay_lenses(both, lenses_of(3.0, 0.2, {"limestone"}), flint, 1, 15, draw);
    lay_lenses(other, lenses_of(3.0, 0.2, {"limestone"}), flint, 1, 15, draw);
    for (const char* rock : {"gravel", "flint", "shale"}) {
      const std::vector<scenario::Layer> here = lenses_in(both, rock),
                                         there =
                                             lenses_in(std::string(rock) == "flint" ? other : alone, rock);
      ASSERT_EQ(here.size(), there.size()) << rock;
      for (std::size_t k = 0; k < here.size(); ++k) {
        EXPECT_EQ(here[k].top, there[k].top);
        EXPECT_EQ(here[k].bottom, there[k].bottom);
      }
    }
  }
}

}  // namespace
}  // namespace dullcast::sweep
