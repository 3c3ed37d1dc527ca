#pragma once

#include "engine/input/library.hpp"

namespace dullcast::input {

/// Reads `column:`: layers from the surface down as a driller logs them, by thickness or by top and bottom,
/// each of a rock of the library with overrides of any of its numbers. Layers that overlap, leave a gap or
/// stand in the wrong order are errors; ends within 5 mm of each other (feet and metres mixed) are taken as
/// one.
scenario::Column read_column(MapReader& scenario, const Library& library);

}  // namespace dullcast::input
