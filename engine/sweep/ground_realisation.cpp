#include "engine/sweep/ground_realisation.hpp"

#include <algorithm>
#include <cmath>

#include "engine/statistics/counter_random.hpp"
#include "engine/sweep/streams.hpp"

namespace dullcast::sweep {
namespace {

// Thinner than this is no lens but a grain: no layer is made thinner.
constexpr double thinnest = 1e-3;  // m [asm]

double middle(const scenario::Layer& layer) {
  return 0.5 * (layer.top + layer.bottom);
}

/// The process z at the layers' middles.
Eigen::ArrayXd down_the_column(const scenario::Column& column, double correlation_depth, std::uint64_t seed,
                               std::uint64_t stream) {
  const auto count = static_cast<Eigen::Index>(column.layers.size());
  Eigen::ArrayXd z(count);
  for (Eigen::Index i = 0; i < count; ++i) {
    const double fresh = statistics::standard_normal_at(seed, stream, static_cast<std::uint64_t>(i));
    if (i == 0 || !(correlation_depth > 0.0)) {
      z(i) = fresh;
      continue;
    }
    const auto k = static_cast<std::size_t>(i);
    const double rho =
        std::exp(-(middle(column.layers[k]) - middle(column.layers[k - 1])) / correlation_depth);
    z(i) = rho * z(i - 1) + std::sqrt(1.0 - rho * rho) * fresh;
  }
  return z;
}

void multiply(scenario::Quantity& quantity, double factor) {
  quantity.low *= factor;
  quantity.central *= factor;
  quantity.high *= factor;
}

}  // namespace

LayerFactors layer_factors(const scenario::Column& column, const LayerSpread& spread, std::uint64_t seed,
                           std::uint64_t draw) {
  const Eigen::ArrayXd z =
      down_the_column(column, spread.correlation_depth, seed, stream_of(Purpose::layer_strength, draw));
  const Eigen::ArrayXd other =
      down_the_column(column, spread.correlation_depth, seed, stream_of(Purpose::layer_abrasivity, draw));
  const double apart = std::sqrt(std::max(0.0, 1.0 - spread.together * spread.together));
  LayerFactors factors;
  factors.strength = (spread.strength * z).unaryExpr([](double x) { return std::exp(x); });
  factors.abrasivity = (spread.abrasivity * (spread.together * z + apart * other)).unaryExpr([](double x) {
    return std::exp(x);
  });
  return factors;
}

void apply_factors(scenario::Column& column, const LayerFactors& factors) {
  for (std::size_t k = 0; k < column.layers.size(); ++k) {
    const auto i = static_cast<Eigen::Index>(k);
    multiply(column.layers[k].rock.unconfined_strength, factors.strength(i));
    multiply(column.layers[k].rock.cerchar_abrasivity, factors.abrasivity(i));
  }
}

int lay_lenses(scenario::Column& column, const Lenses& lenses, const scenario::RockRecord& rock,
               std::uint64_t which, std::uint64_t seed, std::uint64_t draw) {
  // 2^16 kinds of lenses for each of 2^40 draws.
  const std::uint64_t member = (draw << 16) | which;
  const std::uint64_t tops = stream_of(Purpose::lens_tops, member);
  const std::uint64_t sizes = stream_of(Purpose::lens_thickness, member);
  std::vector<scenario::Layer> laid;
  int count = 0;
  std::uint64_t drawn = 0;
  for (const scenario::Layer& layer : column.layers) {
    const bool holds = lenses.in.empty() ||
                       std::find(lenses.in.begin(), lenses.in.end(), layer.rock.name) != lenses.in.end();
    double from = layer.top;
    while (holds) {
      // The gaps of a Poisson process are exponential, and forget what lies above.
      const double top = from + lenses.mean_spacing * statistics::unit_exponential_at(seed, tops, drawn);
      const double thickness =
          statistics::quantile(lenses.thickness, statistics::uniform_at(seed, sizes, drawn));
      ++drawn;
      if (!(top < layer.bottom - thinnest)) break;
      const double bottom = std::min(top + std::max(thickness, thinnest), layer.bottom);
      if (top - from > thinnest) {
        laid.push_back(layer);
        laid.back().top = from;
        laid.back().bottom = top;
      }
      laid.push_back(layer);
      laid.back().rock = rock;
      laid.back().top = top - from > thinnest ? top : from;
      laid.back().bottom = bottom;
      from = bottom;
      ++count;
    }
    // A layer without lenses stays, however thin it is.
    if (from == layer.top || layer.bottom - from > thinnest) {
      laid.push_back(layer);
      laid.back().top = from;
    } else if (!laid.empty()) {
      laid.back().bottom = layer.bottom;
    }
  }
  column.layers = std::move(laid);
  return count;
}

}  // namespace dullcast::sweep
