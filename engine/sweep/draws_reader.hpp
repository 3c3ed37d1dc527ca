#pragma once

#include "engine/input/library.hpp"
#include "engine/scenario/scenario.hpp"
#include "engine/sweep/sweep_plan.hpp"

namespace dullcast::sweep {

/// Reads the map under draws:. `scenario` is the base scenario as read, `tree` as written,
/// `library` what it may name; `usually_alike` whether draws are the same at every point when the plan says
/// nothing.
Draws read_draws(input::MapReader& plan, const scenario::Scenario& scenario, const input::YamlValue& tree,
                 const input::Library& library, bool usually_alike);

/// Reads a distribution's kind and its parameters from a map that holds both. `wanted` may be null: then the
/// first parameter given settles what kind of value it is, and is returned through it.
statistics::Distribution read_distribution(input::MapReader& map, const base::Dimension*& wanted);

}  // namespace dullcast::sweep
