#pragma once

#include "engine/scenario/library.hpp"
#include "engine/scenario/scenario.hpp"
#include "engine/sweep/sweep_plan.hpp"

namespace dullcast {

/// Reads the map under draws:. `scenario` is the base scenario as read, `tree` as written,
/// `library` what it may name; `usually_alike` whether draws are the same at every point when the plan says
/// nothing.
Draws read_draws(MapReader& plan, const Scenario& scenario, const YamlValue& tree, const Library& library,
                 bool usually_alike);

/// Reads a distribution's kind and its parameters from a map that holds both. `wanted` may be null: then the
/// first parameter given settles what kind of value it is, and is returned through it.
Distribution read_distribution(MapReader& map, const Dimension*& wanted);

}  // namespace dullcast
