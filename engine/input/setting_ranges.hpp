#pragma once

#include "engine/base/dimension.hpp"

/// What depths and a driller's settings may be, wherever they are written: in columns, plans, upsets and
/// records.
namespace dullcast::input::setting_range {

// A turn in an hour and a half; slower than that only a bit that stands, and that drills nothing.
inline constexpr base::Range turning{1.6666e-4, 100.0, true,
                                     "from 0.01 to 6000 rpm: a bit that does not turn does not drill"};
inline constexpr base::Range rotary_speed{0.0, 100.0, true, "0 (not turning) or more, up to 6000 rpm"};
inline constexpr double deepest_hole = 15000.0;  // m: none has gone below 13 km, from memory
inline constexpr base::Range depth{0.0, deepest_hole, true, "from 0 to 15 km"};
inline constexpr double heaviest = 1e7;  // N: no string of pipe has weighed as much, from memory
inline constexpr base::Range weight{0.0, heaviest, true, "0 or more, up to 10 MN"};
inline constexpr base::Range weight_that_cuts{0.0, heaviest, false, "above 0, up to 10 MN"};
inline constexpr base::Range flow{0.0, 10.0, true, "0 or more, up to 10 m3/s"};

}  // namespace dullcast::input::setting_range
