#pragma once

#include <Eigen/Core>
#include <cstdint>

#include "engine/scenario/scenario.hpp"
#include "engine/sweep/sweep_plan.hpp"

namespace dullcast::sweep {

/// One draw of a layered column's strength and abrasivity: factors of median 1, one a layer.
struct LayerFactors {
  Eigen::ArrayXd strength, abrasivity;
};

/// ln(factor) of layer i is spread times z_i. Down the middles of the layers z is the stationary Gauss-Markov
/// (Ornstein-Uhlenbeck) process z_(i+1) = rho z_i + sqrt(1 - rho^2) e, rho =
/// exp(-distance/correlation_depth); the abrasivity's is together z + sqrt(1 - together^2) z', z' another of
/// the same kind. So both have unit variance at every depth and correlation `together` at one depth.
/// Vanmarcke, "Random Fields", 1983 [hb]. Pure: the same (seed, draw) gives the same factors whatever else is
/// drawn.
LayerFactors layer_factors(const scenario::Column& column, const LayerSpread& spread, std::uint64_t seed,
                           std::uint64_t draw);

/// Multiplies each layer's strength and abrasivity, all three of low, central and high.
void apply_factors(scenario::Column& column, const LayerFactors& factors);

/// Lays lenses of `rock` into the layers that hold them: tops a Poisson process along depth with
/// `mean_spacing`, thicknesses drawn one by one, each cut off at its layer's bottom; the process goes on
/// below a lens. A lens keeps the layer's excess pressure and place. Returns how many were laid. `which`
/// numbers the plan's kinds of lenses, so that each has streams of its own.
int lay_lenses(scenario::Column& column, const Lenses& lenses, const scenario::RockRecord& rock,
               std::uint64_t which, std::uint64_t seed, std::uint64_t draw);

}  // namespace dullcast::sweep
