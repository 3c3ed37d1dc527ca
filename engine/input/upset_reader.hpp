#pragma once

#include "engine/input/library.hpp"

namespace dullcast::input {

/// Reads `upsets:`, what goes otherwise than planned, over a column that ends at `bottom` (m; 0 when it could
/// not be read) and is drilled at most `holes` times. Each begins at a depth inside the column, lasts a
/// while, and says at least one of flow, mist_water, weight_on_bit and rotary_speed; `pump: off` stands for a
/// flow and mist water of 0. Warns of an upset in a hole that is never drilled.
std::vector<scenario::Upset> read_upsets(MapReader& scenario, const scenario::FluidRecord& fluid,
                                         double bottom, int holes);

}  // namespace dullcast::input
