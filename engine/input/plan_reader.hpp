#pragma once

#include "engine/input/library.hpp"

namespace dullcast::input {

/// Reads `fluid:`, a name of the library or a map of name, inlet_temperature and overrides of its numbers.
scenario::FluidRecord read_fluid(MapReader& scenario, const Library& library, double& inlet_temperature);

/// Reads `string:`, the pipe and collars below the head, over a bit of a diameter (m; 0 when it could not be
/// read). The pipe is 0.45 of it wide unless given [asm], and always narrower.
scenario::StringRecord read_string(MapReader& scenario, double bit_diameter);

/// Reads `pump:`; returns the pressure (Pa) it can spend at the bit, 0 when none is known.
double read_pump(MapReader& scenario);

/// Reads `plan:`, what the driller sets by depth, over a column that ends at `bottom` (m; 0 when it could not
/// be read). Intervals must follow each other and cover the column. Warns where the weight passes
/// `weight_limit` (N), is hardly a twentieth of `usual_weight` (N, what the bit takes by the rule of thumb; 0
/// when that is not known), the flow is under 10 gal/min or the speed over 100 rpm [cp].
std::vector<scenario::OperatingInterval> read_plan(MapReader& scenario, const scenario::StringRecord& string,
                                                   const scenario::FluidRecord& fluid,
                                                   double inlet_temperature, double bottom,
                                                   double weight_limit, double usual_weight);

}  // namespace dullcast::input
