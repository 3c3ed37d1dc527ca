#include "models/cutting/friction_heat.hpp"

#include "models/common/constants.hpp"

namespace dullcast::cutting {

void friction_heat(const BitMechanics& bit, const BitForces& forces, const RockResistance& rock, double N,
                   double bit_radius, const ChipHeatLaw& chips, double heat_per_volume, FrictionHeat& heat) {
  const double omega = two_pi * N;
  heat.flat =
      rock.flat_friction * (omega * forces.loads.contact_moment + omega * bit_radius * forces.side_force);
  heat.face = chips.speed_share * rock.specific_energy * omega * bit.directions.chip_friction *
              forces.loads.cut_strength * forces.loads.area_moment;
  heat.rock_rise = chips.crushed_share * rock.specific_energy / heat_per_volume * forces.loads.cut_strength;
  heat.crushed = chips.crushed_share * rock.specific_energy * omega * forces.loads.cut_strength *
                 forces.loads.area_moment;
}

}  // namespace dullcast::cutting
