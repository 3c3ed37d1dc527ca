#include "engine/scenario/stone_abrasivity.hpp"

#include <algorithm>

namespace dullcast::scenario {

Quantity usual_stone_abrasivity(const Quantity& strength) {
  constexpr double strength_per_index = 50e6;  // Pa
  constexpr double greatest = 6.0, less = 0.6, more = 1.4;
  const double central = std::min(strength.central / strength_per_index, greatest);
  return {less * central, central, more * central, "asm", "1 per 50 MPa of the stones' strength, not stated"};
}

void fill_stone_abrasivity(RockRecord& rock) {
  if (rock.inclusion_abrasivity.high > 0.0) return;
  rock.inclusion_abrasivity = usual_stone_abrasivity(rock.inclusion_strength);
}

}  // namespace dullcast::scenario
