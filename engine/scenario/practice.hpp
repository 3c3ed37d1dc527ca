#pragma once

namespace dullcast::scenario {

/// Rotary speed above which a plan is warned of, rev/s: PDC bits in small holes are run at 80 to 100 rpm
/// [cp].
inline constexpr double usual_most_speed = 100.0 / 60.0;

}  // namespace dullcast::scenario
